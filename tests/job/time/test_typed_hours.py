"""Hours typed afterwards: over which steps they are spread, and what is said of them. Sums: arithmetic only."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.people import WorkedAct
from jobtrack.job.time.clock import hours_by, times, total_hours
from jobtrack.job.time.typed_hours import amounts
from tests.support.builders import DONOR, RECIPIENT, Copy, Do, clock, minutes, note, read, tick, undo
from tests.support.said import typed_remarks

DAY = "2031-04-01"
STEPS = (DONOR, RECIPIENT, "mark.left", "mark.right", "nuts")


def worked(hours: float, whose: str | None = None, day: str | None = None) -> Do:
    return lambda draft: draft.add(WorkedAct(hours, whose, day))


def touching(*steps: str, by: str = "Wim") -> Copy:
    """A copy in which somebody has recorded a note in each of these steps."""
    copy = Copy()
    for number, step in enumerate(steps):
        copy.call(step, note(), by=by, at=minutes(number))
    return copy


def test_for_whom_and_which_day() -> None:
    """Typed hours count for whom and on which day they are for; typed in a step they are that step's."""
    copy = Copy()
    copy.call(DONOR, worked(2.5, "Ada", "2031-03-30"), at=minutes(0))
    copy.call(None, worked(1), at=minutes(0))
    typed = times(copy.job).typed
    assert [(one.person, one.step, one.hours, one.month) for one in typed] == [
        ("Ada", DONOR, 2.5, "2031-03"),
        ("Wim", "(no step)", 1, "2031-04"),
    ]
    assert hours_by(typed, "person") == {"Ada": 2.5, "Wim": 1}


def test_spread_equally_and_said() -> None:
    """Two hours over the three steps touched that day are forty minutes each, and a sentence says so."""
    copy = touching(DONOR, RECIPIENT, "nuts", DONOR)
    copy.call(None, worked(2, day=DAY), at=minutes(24 * 60))
    typed = times(copy.job).typed
    assert {one.step: one.exact for one in typed} == dict.fromkeys((DONOR, RECIPIENT, "nuts"), Fraction(2, 3))
    assert typed_remarks(copy.job) == [
        "2 h typed afterwards by Wim for 2031-04-01 are spread equally over 3 steps: "
        f"{DONOR}, {RECIPIENT}, nuts"
    ]


def test_only_that_persons_steps_of_that_day() -> None:
    """Somebody else's steps, and those of the day after, have no share; a helper's are typed by another."""
    copy = touching(DONOR)
    copy.call(RECIPIENT, note(), by="ada", at=minutes(5))
    copy.call("nuts", note(), at=minutes(24 * 60))
    copy.call(None, worked(3, "Ada", DAY), at=minutes(24 * 60))
    assert [(one.person, one.step, one.hours) for one in times(copy.job).typed] == [("Ada", RECIPIENT, 3)]
    assert typed_remarks(copy.job) == [
        f"3 h typed afterwards by Wim for Ada for 2031-04-01 are counted in the one step touched that day: {RECIPIENT}"
    ]


def test_the_day_is_that_of_the_place() -> None:
    """An entry of half past midnight belongs to the day on the wall there, though it is still yesterday in UTC."""
    copy = Copy()
    copy.call(DONOR, note(), at=datetime(2031, 4, 2, 0, 30, tzinfo=timezone(timedelta(hours=2))))
    copy.call(None, worked(1, day="2031-04-02"), at=minutes(24 * 60))
    assert [one.step for one in times(copy.job).typed] == [DONOR]


def test_what_is_undone_touched_nothing() -> None:
    """A step whose only entry was taken back has no share, nor has one in which only hours were typed."""
    copy = touching(DONOR, RECIPIENT)
    copy.call(RECIPIENT, undo, at=minutes(10))
    copy.call("nuts", worked(4), at=minutes(20))
    copy.call(None, worked(1), at=minutes(30))
    assert [(one.step, one.hours) for one in times(copy.job).typed] == [("nuts", 4), (DONOR, 1)]


def test_a_correction_keeps_the_old_amount_readable() -> None:
    """An amount taken back counts no more, and is still said beside the one that counts."""
    copy = touching(DONOR)
    copy.call(None, worked(8), at=minutes(10))
    copy.call(None, undo, at=minutes(11))
    copy.call(None, worked(0.8), at=minutes(12))
    assert total_hours(times(copy.job).typed) == 0.8
    assert typed_remarks(copy.job) == [
        f"0.8 h typed afterwards by Wim for 2031-04-01 are counted in the one step touched that day: {DONOR}",
        "Taken back: 8 h typed afterwards by Wim for 2031-04-01",
    ]


def test_a_clock_corrected_afterwards_is_said() -> None:
    """A clock act taken back stays readable."""
    copy = Copy()
    copy.call(None, clock("on"), at=minutes(0))
    copy.call(None, clock("off"), at=minutes(60))
    copy.call(None, undo, at=minutes(61))
    assert typed_remarks(copy.job) == ["Taken back: clock off by Wim, 2031-04-01 09:00"]


def test_beside_a_clock_of_that_day_both_count_and_that_is_said() -> None:
    """Typed for a day on which the clock was on, hours may stand twice; nobody can know, so it is said."""
    copy = Copy()
    for at, step, do in (
        (0, None, clock("on")),
        (60, "mark.left", tick("scribed")),
        (60, None, clock("off")),
    ):
        copy.call(step, do, at=minutes(at))
    copy.call(None, worked(1), at=minutes(90))
    found = times(copy.job)
    assert total_hours([*found.stretches, *found.typed]) == 2
    assert typed_remarks(copy.job)[0].endswith("; a clock was on that day as well, and both are counted")


def test_nothing_touched_is_no_step() -> None:
    """For a day without entries of that person the hours stand under no step, and that is said."""
    copy = Copy()
    copy.call(None, worked(2.25, "Ada", "2031-03-30"), at=minutes(0))
    assert [(one.step, one.hours) for one in times(copy.job).typed] == [("(no step)", 2.25)]
    assert (
        "(no step): nothing of that person's is recorded in a step on that day" in typed_remarks(copy.job)[0]
    )


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.lists(st.tuples(st.sampled_from(STEPS), st.integers(0, 3)), max_size=8),
    st.lists(st.tuples(st.floats(0.01, 24), st.integers(0, 3)), min_size=1, max_size=4),
)
def test_shares_add_up_exactly(noted: list[tuple[str, int]], typed: list[tuple[float, int]]) -> None:
    """Whatever was touched on which day, the shares of each amount are together what was typed, to the last digit."""
    copy = Copy()
    for step, day in noted:
        copy.call(step, read("spacing", "1") if step == DONOR else note(), at=minutes(day * 24 * 60))
    for hours, day in typed:
        copy.call(None, worked(hours, day=f"2031-04-0{1 + day}"), at=minutes(9 * 24 * 60))
    for amount, (hours, day) in zip(amounts(copy.job), typed, strict=True):
        touched = {step for step, on in noted if on == day}
        assert sum(one.exact for one in amount.shares()) == Fraction(hours)
        assert {one.step for one in amount.shares()} == (touched or {"(no step)"})
        assert len({one.exact for one in amount.shares()}) == 1
