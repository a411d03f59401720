"""`rehearse` on the command line: which template, what is said of it first, and what stops it."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.cli.templates import rehearsing
from jobtrack.store.file.rehearsed import Rehearsed
from jobtrack.store.machine.settings import Settings
from tests.support.builders import template_text
from tests.support.cli_calls import Shop, one_line


@pytest.fixture
def begun(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, int]]:
    """The app isn't run; what it would have been begun with."""
    found: list[tuple[str, int]] = []

    def run(file: Rehearsed, remarks: int, settings: Settings) -> int:
        found.append((file.job.plan.template.id, remarks))
        return 0

    monkeypatch.setattr(rehearsing, "run_rehearsal", run)
    return found


def test_by_its_id_or_by_its_file(begun: list[tuple[str, int]], empty_shop: Shop) -> None:
    """As `begin` takes it; nothing is written, and the last line says so."""
    mine = empty_shop.folder / "mine.toml"
    mine.write_text(template_text(), encoding="utf-8")
    for name in ("axle-exchange", mine):
        assert one_line(empty_shop.done("rehearse", name).out).endswith("nothing of it was recorded.")
    assert [id for id, _ in begun] == ["axle-exchange", "step-brackets"]
    assert [path.name for path in empty_shop.folder.iterdir()] == ["mine.toml"]


def test_remarks_are_said_and_stop_nothing(begun: list[tuple[str, int]], empty_shop: Shop) -> None:
    """Each on a line of its own on stderr, as `proofread` says it."""
    mine = empty_shop.folder / "mine.toml"
    mine.write_text(
        template_text() + '\n[condition.never-opened]\ntext = "Nobody opens it"\n', encoding="utf-8"
    )
    proofread = empty_shop.run("proofread", mine)
    assert proofread.status == 1
    assert ": remark: " in proofread.out
    assert empty_shop.done("rehearse", mine).err == proofread.out
    assert begun == [("step-brackets", len(proofread.out.splitlines()))]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format = 1\n", "mine.toml:1: mistake: "),
        ('format = 1\nid = "x"\ntitle = "X', "mine.toml:3: mistake: "),
        ("", "mine.toml:1: mistake: "),
    ],
)
def test_a_template_with_mistakes_isn_t_rehearsed(
    text: str, said: str, begun: list[tuple[str, int]], empty_shop: Shop
) -> None:
    """One line with the place of the first and how many there are; exit 2."""
    mine = empty_shop.folder / "mine.toml"
    mine.write_text(text, encoding="utf-8")
    ended = empty_shop.run("rehearse", mine)
    assert ended.status == 2
    assert said in one_line(ended.err)
    assert "`proofread` lists them" in ended.err
    assert begun == []


def test_a_template_that_isn_t_there(begun: list[tuple[str, int]], empty_shop: Shop) -> None:
    """Named, with those that are."""
    ended = empty_shop.run("rehearse", "axle-exchnage")
    assert ended.status == 2
    assert "no such template; there are " in one_line(ended.err)
    assert Path("axle-exchnage").exists() is False
    assert begun == []
