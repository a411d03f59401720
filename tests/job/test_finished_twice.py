"""Finishing a step again on the same values, with nothing in between, is one finishing."""

from __future__ import annotations

import pytest

from jobtrack.job.compose import steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import SaidAlready
from tests.support.builders import DONOR, Do, finish, marked, note, read, release, surveyed, tick, undo
from tests.support.said import left_open


def test_the_second_finishing_says_so_and_writes_nothing() -> None:
    """Whose it was and when; the record is as it was."""
    copy = surveyed()
    before = copy.entries
    with pytest.raises(SaidAlready, match=r"is finished already, by Wim at 2031-04-01 08:00; nothing was wr"):
        copy.call(DONOR, finish)
    assert copy.entries == before


def test_a_finishing_that_closed_is_one_too() -> None:
    """What the first one closed, and what it opened at first, doesn't make a second of it."""
    copy = surveyed()
    copy.call("mark.left", finish)
    with pytest.raises(SaidAlready):
        copy.call("mark.left", finish)


BETWEEN: tuple[tuple[str, Do, str], ...] = (
    ("a value taken again", read("moved", "23.1"), "Wim"),
    ("the same value taken again", read("moved", "22.8"), "Wim"),
    ("a check answered", tick("scribed"), "Wim"),
    ("a note", note("look at this"), "Ada"),
    ("a release", release, "Ada"),
    ("undo", undo, "Wim"),
)


@pytest.mark.parametrize(("what", "do", "by"), BETWEEN, ids=[what for what, _, _ in BETWEEN])
def test_what_stands_between_makes_it_another(what: str, do: Do, by: str) -> None:
    """Anything in the step since then, or the first one undone: it is written."""
    copy = marked()
    copy.call("mark.left", do, by=by)
    assert copy.call("mark.left", finish).did[0].kind == "finished"


def test_somebody_else_finishes_for_themselves() -> None:
    """A second person's *finished* is their own, and is written."""
    copy = surveyed()
    assert copy.call(DONOR, finish, by="Ada").by == "Ada"
    assert copy.call(DONOR, finish, by="Wim").by == "Wim"


def test_what_is_recorded_beside_it_is_never_dropped() -> None:
    """A note or a reading in the same call is written, with the *finished* beside it."""
    copy = surveyed()
    assert [act.kind for act in copy.call(DONOR, note(), finish).did] == ["note", "finished"]


def test_a_change_elsewhere_makes_it_another() -> None:
    """With a target moved beyond its tolerance since, finishing again stands on other values: written."""
    copy = marked()
    copy.call(DONOR, read("spacing", "1020"), finish)
    assert copy.job.state("mark.left") == "look again"
    assert copy.call("mark.left", finish).did[0].kind == "finished"


def left(*do: Do, by: str = "Wim") -> list[str]:
    copy = surveyed()
    for one in do:
        copy.call("mark.left", one, by=by)
    return left_open(copy.job, "mark.left")


HOLD = "hold not released: Cut release: side and figure read back aloud?"
SCRIBED = "Scribed line past the old and the new place?"


def test_what_finishing_would_leave_is_said_before() -> None:
    """No reading, one outside, a check without an answer or no, a hold: a line each, before and after alike."""
    assert left() == ["moved: no reading", f"{SCRIBED} not answered", HOLD]
    assert left(tick("scribed", False), read("moved", "23.5")) == [f"{SCRIBED} no", HOLD]
    assert left(read("moved", "99"), tick("scribed"))[0].startswith(
        "moved: 99 mm is outside (22.5 mm to 24.5 mm"
    )
    assert left(read("moved", "99"), tick("scribed"), finish)[0].startswith("moved: 99 mm is outside")
    assert left(read("moved", "23.5"), tick("scribed"), release) == []


def test_a_call_that_holds_nothing_else_is_asked_of_its_state() -> None:
    """Composing the second *finished* is no error; only writing it down would be."""
    copy = surveyed()
    draft = Draft(copy.job, "Wim", copy.entries[-1].at, DONOR)
    steps.finished(draft)
    with pytest.raises(SaidAlready):
        draft.done()
