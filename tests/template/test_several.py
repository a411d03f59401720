"""Several mistakes in one file are found in one run, and none of them gives rise to others."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from jobtrack.template.findings import as_lines
from jobtrack.template.proofread import check
from tests.support.mistakes import SOUND

TITLES = ('title = "A bracket on a tube"', 'title = "Measure both"', 'title = "Hang it"', 'title = "Fix it"')
LINES = {
    "unquoted": "title = Fix it",
    "comma": "minutes = [5, 10, 20]\npeople = 1,5",
    "semicolon": 'title = "Bolt it";',
    "curly": "title = “Fix it”",
}
"""What is wrong with a line by itself."""

FORM = ('reading.moved = { unit = "mm"', 'reading.moved = { unti = "mm"')
FORM_TOO = ("hold = { ask", "hold = { aks")
NAME = ('stage = "look"', 'stage = "lok"')
ALONE = ("doubt = 1.0, record_only = true", "record_only = true, strict = true")
CONDITION = ('closes = ["tacked"]', 'closes = ["takced"]')


def found(folder: Path, *changes: tuple[str, str]) -> list[str]:
    """What is found in the sound template with these changes, without the file and kind."""
    text = SOUND.read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    path = folder / "a.toml"
    path.write_text(text, "utf-8")
    return [line.removeprefix(f"{path}:") for line in as_lines(check(path))]


@pytest.mark.parametrize("pair", combinations(LINES, 2), ids="-".join)
def test_lines_that_cannot_be_read_are_all_named(pair: tuple[str, str], tmp_path: Path) -> None:
    """Each as if it stood there alone."""
    one, other = ((TITLES[at], LINES[name]) for at, name in zip((1, 3), pair, strict=True))
    both = found(tmp_path, one, other)
    alone = [found(tmp_path, one)[0], found(tmp_path, other)[0]]
    assert len(both) == 2
    assert both[0] == alone[0]
    assert both[1].partition(": ")[2] == alone[1].partition(": ")[2]


def test_a_line_left_out_leaves_no_bracket_open(tmp_path: Path) -> None:
    """Where the line opens or closes a table, what follows from leaving it out isn't taken for a mistake."""
    text = ("reading.spacing = { unit", "reading.spacing = {\n  unit"), ("doubt = 1.0,", "doubt = 1,0,")
    assert len(found(tmp_path, *text)) == 1


@pytest.mark.parametrize(
    "changes",
    [(FORM, FORM_TOO), (FORM, NAME), (FORM, ALONE), (FORM_TOO, NAME, ALONE), (NAME, ALONE), (FORM, CONDITION),
     (FORM, FORM_TOO, NAME, ALONE)],
)  # fmt: skip
def test_mistakes_of_form_and_of_meaning_are_found_together(
    changes: tuple[tuple[str, str], ...], tmp_path: Path
) -> None:
    """As many as there are, each in its own words."""
    together = found(tmp_path, *changes)
    assert sorted(together) == sorted(line for change in changes for line in found(tmp_path, change))


def test_what_cannot_be_read_is_not_missed_elsewhere(tmp_path: Path) -> None:
    """A step, a stage or a condition that can't be read isn't unknown to those that name it."""
    for old, new in [
        ("fix = { title", "fix = { titel"), ("tacked = { text", "tacked = { tex"),
        ('title = "Measure both"', "title = 1"),
        ('side = ["left", "right"]', 'side = "left"'), ('van = "The van being mended"', "van = 1"),
    ]:  # fmt: skip
        assert len(found(tmp_path, (old, new))) == 1
