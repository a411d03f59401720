"""`work-out --out`: the page of the catalogue, and what it refuses."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.sheets.catalogue_page import catalogue_markdown
from tests.support.cli_calls import Shop, one_line


@pytest.mark.parametrize("name", [None, "bolt-circle"])
def test_the_page_is_written(empty_shop: Shop, tmp_path: Path, name: str | None) -> None:
    """All workings-out, or the one that is named; stdout says where."""
    out = tmp_path / "workings-out.md"
    ended = empty_shop.done("work-out", *([name] if name else []), "--out", out)
    assert out.read_text(encoding="utf-8") == catalogue_markdown(name)
    assert one_line(ended.out) == f"The page is {out}"


def test_a_file_that_is_there_is_never_overwritten(empty_shop: Shop, tmp_path: Path) -> None:
    """Exit 2, one line, and the file stays as it was."""
    out = tmp_path / "mine.md"
    out.write_text("mine", encoding="utf-8")
    ended = empty_shop.run("work-out", "--out", out)
    assert (ended.status, ended.out) == (2, "")
    assert "is there already" in one_line(ended.err)
    assert out.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("arguments", "file", "says"),
    [
        ([], "page.html", "name a file that ends in .md"),
        ([], "page", "name a file that ends in .md"),
        ([], "no-such-folder/page.md", "can't be written: "),
        (["bolt-cirle"], "page.md", "did you mean bolt-circle"),
        (["bolt-circle", "holes=4"], "page.md", "leave out KEY=VALUE and --json"),
        (["--json"], "page.md", "leave out KEY=VALUE and --json"),
    ],
)
def test_what_makes_no_page_is_refused(
    empty_shop: Shop, tmp_path: Path, arguments: list[str], file: str, says: str
) -> None:
    """Exit 2, one line that says why, and no file."""
    ended = empty_shop.run("work-out", *arguments, "--out", tmp_path / file)
    assert (ended.status, ended.out) == (2, "")
    assert says in one_line(ended.err)
    assert not (tmp_path / file).exists()


def test_the_help_shows_how_to_make_the_page(empty_shop: Shop) -> None:
    """Without a name the help lists all and ends with an example; the plain list has none."""
    shown = empty_shop.done("work-out", "--help").out
    assert "jobtrack work-out --out workings-out.md" in shown.splitlines()[-1]
    assert "Example" not in empty_shop.done("work-out").out
