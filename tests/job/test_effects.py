"""What one entry has changed elsewhere, as it is said right after recording."""

from __future__ import annotations

import pytest

from jobtrack.sheets.words.doing.effects import effect_lines
from tests.support.builders import (
    DONOR,
    Copy,
    Do,
    close,
    finish,
    marked,
    note,
    opens,
    read,
    stands,
    surveyed,
    tick,
)


def said(copy: Copy, step: str | None, *do: Do) -> list[str]:
    before = copy.job
    copy.call(step, *do)
    return effect_lines(before, copy.job)


def test_what_was_unsettled_is_said() -> None:
    """Donor 1013 against moved 22.8: the step, its hold and what is open again, a line each."""
    lines = said(marked("22.8"), DONOR, read("spacing", "1013"), finish)
    assert lines == [
        "mark.left: look again: moved 22.8 mm is outside: its target was 23.5 mm and is now 24 mm",
        "mark.left: its hold was released before a change: Cut release: side and figure read back aloud?",
        "recorded as open: Marks not yet read back (left)",
    ]


def test_that_nothing_is_unsettled_is_said_in_one_line() -> None:
    """Donor 1015 against moved 24.4: one line says the new target and that it unsettles nothing."""
    lines = said(marked("24.4"), DONOR, read("spacing", "1015"), finish)
    assert lines == [
        "mark.left: the target of moved is now 25 mm; 24.4 mm is within it, so this unsettles nothing"
    ]


def test_what_stands_again_is_said() -> None:
    """After *stands* the step stands again and its closing is closed again."""
    copy = marked("22.8")
    copy.call(DONOR, read("spacing", "1013"), finish)
    assert said(copy, "mark.left", stands()) == [
        "mark.left: stands again",
        "recorded as closed: Marks not yet read back (left)",
    ]


@pytest.mark.parametrize(
    ("step", "do", "line"),
    [
        ("tack.left", read("slope", "2"), "recorded as open: Bracket only tacked (left)"),
        (None, opens("jack lent"), "recorded as open: jack lent"),
    ],
)
def test_what_was_opened_is_said(step: str | None, do: Do, line: str) -> None:
    """Opening is said with the words of the condition and its member."""
    assert said(marked(), step, do) == [line]


def test_what_was_closed_is_said() -> None:
    """Closing by name is said."""
    copy = marked()
    copy.call("tack.left", read("slope", "2"))
    assert said(copy, None, close("tacked")) == ["recorded as closed: Bracket only tacked (left)"]


@pytest.mark.parametrize("do", [note(), tick("scribed")])
def test_what_changes_nothing_says_nothing(do: Do) -> None:
    """A note, or the same answer again, has no effect to speak of."""
    assert said(marked(), "mark.left", do) == []


def test_a_disagreement_that_is_measured_over_is_said() -> None:
    """Whoever measures again over two that disagreed is told what no longer counts."""
    one = surveyed()
    other = one.split("b")
    one.call("mark.left", read("moved", "23"), by="Ada")
    other.call("mark.left", read("moved", "25"), by="Ben")
    one.take(other)
    assert said(one, "mark.left", read("moved", "23.9"))[0] in (
        "mark.left: the disagreement about moved is over, 23 (Ada) and 25 (Ben) no longer count",
        "mark.left: the disagreement about moved is over, 25 (Ben) and 23 (Ada) no longer count",
    )
