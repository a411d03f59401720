"""What every command that writes a sheet does: where it may go, in which units, and that it comes before the entry."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

import pytest

from jobtrack.cli.on_paper.writing import add_units, place, shown, write, write_and_record
from jobtrack.cli.saying import BadInput
from jobtrack.job.compose.refusal import Refused
from jobtrack.store.file.writer import JobFile
from tests.support.cli_calls import Shop
from tests.support.exchange import HALF_DONE

ENDINGS = (".html", ".md")


def test_a_sheet_goes_where_nothing_is_yet(tmp_path: Path) -> None:
    """The name as it was typed; none where nothing was said."""
    assert place(str(tmp_path / "sheet.md"), ENDINGS) == tmp_path / "sheet.md"
    assert place(None, ENDINGS) is None


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("sheet.pdf", "sheet.pdf: no sheet is written so; name a file that ends in .html or .md"),
        ("sheet", "ends in .html or .md"),
        ("", "ends in .html or .md"),
        ("there.md", "there.md: is there already; name a file that isn't"),
        ("no/sheet.md", "no/sheet.md: there is no such folder; make it first, or name another place"),
    ],
)
def test_a_sheet_goes_nowhere_else(own_folders: None, name: str, said: str) -> None:
    """One line that says what, where and how to mend it."""
    Path("there.md").write_text("mine", encoding="utf-8")
    with pytest.raises(BadInput) as refused:
        place(name, ENDINGS)
    assert said in str(refused.value)
    assert Path("there.md").read_text(encoding="utf-8") == "mine"


def test_nothing_is_written_over(tmp_path: Path) -> None:
    """Nor over what has come there since it was looked at; nothing is recorded then."""
    there, recorded = tmp_path / "there.md", list[str]()
    there.write_text("mine", encoding="utf-8")
    with pytest.raises(BadInput, match="is there already"):
        write_and_record(there, b"sheet", lambda: recorded.append("entry"))
    assert (there.read_text(encoding="utf-8"), recorded) == ("mine", [])


def test_a_folder_that_takes_no_file_is_said(tmp_path: Path) -> None:
    """With what the system said of it."""
    with pytest.raises(BadInput, match="can't be written: Not a directory; nothing was recorded"):
        write(Path(os.devnull) / "sheet.md", b"sheet")


def test_what_is_refused_leaves_no_sheet(tmp_path: Path) -> None:
    """The sheet comes first, and goes again."""
    out, seen = tmp_path / "sheet.md", list[bytes]()

    def refuse() -> None:
        seen.append(out.read_bytes())
        raise Refused("not so")

    with pytest.raises(Refused):
        write_and_record(out, b"sheet", refuse)
    assert seen == [b"sheet"]
    assert not out.exists()


def asked(*words: str) -> argparse.Namespace:
    parser = argparse.ArgumentParser()
    add_units(parser)
    return parser.parse_args(words)


def test_units_go_by_the_option_then_the_setting_then_the_template(
    own_state: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The half-done sample's template speaks metric; a mistake in the settings is said, and costs only itself."""
    job = JobFile(HALF_DONE).job
    assert shown(asked(), job).system == "metric"
    settings = own_state / "config" / "jobtrack" / "settings.toml"
    settings.parent.mkdir(parents=True)
    settings.write_text('units = "US"\ncolour = 1\n', encoding="utf-8")
    assert shown(asked("--units", "metric"), job).system == "metric"
    assert capsys.readouterr().err == ""
    assert shown(asked(), job).system == "US"
    assert "settings.toml:2" in capsys.readouterr().err


def test_a_template_in_inches_is_spoken_in_inches(shop: Shop) -> None:
    """Where neither an option nor a setting says otherwise: what most of its readings ask for counts."""
    template = Path("inches.toml")
    source = (Path(__file__).parents[1] / "support" / "tow_hook.toml").read_text(encoding="utf-8")
    template.write_text(source.replace('unit = "mm"', 'unit = "in"'), encoding="utf-8")
    assert 'unit = "in"' in template.read_text(encoding="utf-8")
    shop.done("begin", template, "--out", "inches.job.toml", "--by", "Wim")
    assert shown(asked(), JobFile(Path("inches.job.toml")).job).system == "US"
    assert shown(asked(), JobFile(shop.job).job).system == "metric"
