"""The clock rule against a model that looks at every minute by itself; and against the calendar of zoneinfo."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import NamedTuple
from zoneinfo import ZoneInfo

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from record_builders import DONOR, RECIPIENT, Copy, about, clock, minutes, note

from jobtrack.record.blockwriting import write_entry
from jobtrack.record.clock import hours_by, times, without_overlap
from jobtrack.record.entries import Entry
from jobtrack.record.job import Job

few = settings(max_examples=150, derandomize=True, database=None, deadline=None)
PEOPLE = ("Wim", "Ada")


class Event(NamedTuple):
    """One entry: when, in minutes; what it does to the clock, if anything; in which step."""

    minute: int
    does: str | None
    step: str | None


DOES: tuple[tuple[str | None, str | None], ...] = (
    ("on", None), ("off", None), ("break", None), (None, DONOR), (None, RECIPIENT), (None, None)
)  # fmt: skip
Lines = list[tuple[int, int, tuple[str | None, str | None]]]
lines = st.lists(
    st.tuples(st.sampled_from([0, 0, 0, 1]), st.integers(1, 40), st.sampled_from(DOES)), max_size=24
).map(
    lambda script: [(0, 1, ("on", None)), *script]  # nothing is counted before the first of them
)


def worked(script: Lines) -> tuple[Copy, dict[str, list[Event]]]:
    """The entries of two people in one copy, and the same as plain events. An *off* before any *on* is left out."""
    copy, events, minute = Copy(), {name: list[Event]() for name in PEOPLE}, 0
    for who, after, (does, step) in script:
        minute += after
        mine = events[PEOPLE[who]]
        if does in ("off", "break") and not any(one.does == "on" for one in mine):
            continue
        copy.call(step, clock(does) if does else note(), by=PEOPLE[who], at=minutes(minute))
        mine.append(Event(minute, does, step))
    return copy, events


def by_minutes(events: list[Event]) -> Counter[str]:
    """How many minutes each step got: each minute asks by itself whether the clock was on, and for which step."""
    found: Counter[str] = Counter()
    last = events[-1].minute if events else 0
    for minute in range(last):
        state, run, clock_of = _at(events, minute)
        if state == "on":
            found[_step(events, minute, run, clock_of)] += 1
    return found


def _at(events: list[Event], minute: int) -> tuple[str, int, int]:
    """Whether the clock is on in a minute; where its unbroken run and its *on* stand among the events."""
    state, run, clock_of = "off", 0, 0
    for place, event in enumerate(events):
        if event.minute > minute:
            break
        if event.does == "on":
            state, run, clock_of = "on", place, place
        elif event.does in ("off", "break") and state != "off":
            state = event.does
        elif state == "break":
            state, run = "on", place
    return state, run, clock_of


def _step(events: list[Event], minute: int, run: int, clock_of: int) -> str:
    """The next entry's step in the same run; else the last one's before it; else the first one's after it."""
    ends = [place for place in range(run + 1, len(events)) if events[place].does in ("off", "break", "on")]
    run_end = ends[0] if ends else len(events)
    over = [place for place in range(clock_of + 1, len(events)) if events[place].does in ("off", "on")]
    clock_end = over[0] if over else len(events)
    after = [one.step for one in events[run:run_end] if one.minute > minute and one.step]
    before = [one.step for one in events[clock_of:clock_end] if one.minute <= minute and one.step]
    later = [one.step for one in events[run_end:clock_end] if one.step]
    return (after or before[-1:] or later or ["(no step)"])[0]


def counted(job: Job, key: str) -> dict[str, float]:
    return hours_by(without_overlap(times(job).stretches), key)


A_BREAK_WITHOUT_A_STEP: Lines = [
    (0, 1, ("on", None)), (0, 10, (None, DONOR)), (0, 10, (None, RECIPIENT)), (0, 10, ("break", None)),
    (0, 10, (None, None)), (0, 10, ("off", None)),
]  # fmt: skip


@few
@example(A_BREAK_WITHOUT_A_STEP)
@given(lines)
def test_every_minute_is_counted_as_the_rule_says(script: Lines) -> None:
    """Hours by step and by person are the minutes that a minute-by-minute model counts, to the last one."""
    copy, events = worked(script)
    each = {name: by_minutes(mine) for name, mine in events.items()}
    steps = sum(each.values(), Counter())
    assert {step: round(60 * hours) for step, hours in counted(copy.job, "step").items()} == steps
    people = {name: sum(found.values()) for name, found in each.items() if found}
    assert {name: round(60 * hours) for name, hours in counted(copy.job, "person").items()} == people


@few
@given(lines, st.randoms(use_true_random=False))
def test_the_order_in_the_file_counts_nothing(script: Lines, random: object) -> None:
    """The same entries in any order give the same hours."""
    copy, _ = worked(script)
    entries = list(copy.entries)
    random.shuffle(entries)  # type: ignore[attr-defined]
    assert counted(Job.fold(about(), entries), "step") == counted(copy.job, "step")


@few
@given(lines, st.lists(st.integers(-12 * 4, 14 * 4), min_size=1, max_size=5))
def test_other_clocks_on_the_wall_change_no_hour(script: Lines, quarters: list[int]) -> None:
    """The same moments written with any other offsets from UTC give the same hours."""
    copy, _ = worked(script)
    there = [timezone(timedelta(minutes=15 * one)) for one in quarters]
    moved = [
        replace(entry, at=entry.at.astimezone(there[place % len(there)]))
        for place, entry in enumerate(copy.entries)
    ]
    assert counted(Job.fold(about(), moved), "step") == counted(copy.job, "step")


@pytest.mark.parametrize(
    ("day", "hours"),
    # zoneinfo's own table of summer time: 30 March 2031 has 23 hours there, 26 October 25.
    [(datetime(2031, 3, 29, 22), 7.0), (datetime(2031, 10, 25, 22), 9.0), (datetime(2031, 6, 1, 22), 8.0)],
    ids=["into summer time", "out of it", "an ordinary night"],
)
def test_a_night_has_the_hours_that_went_by(day: datetime, hours: float) -> None:
    """On at ten in the evening, off at six by the clock on the wall: the hours are those that really went by."""
    zone = ZoneInfo("Europe/Amsterdam")
    on, off = day.replace(tzinfo=zone), (day + timedelta(hours=8)).replace(tzinfo=zone)
    assert (off.astimezone(UTC) - on.astimezone(UTC)) / timedelta(hours=1) == hours
    copy = Copy()
    copy.call(None, clock("on"), at=_written(on))
    copy.call(DONOR, note(), at=_written(on + timedelta(hours=1)))
    copy.call(None, clock("off"), at=_written(off))
    assert counted(copy.job, "step") == {DONOR: hours}


def _written(at: datetime) -> datetime:
    """A time as an entry holds it: with the offset of that moment."""
    entry = Entry("a", 1, at, "Wim", (), (), "")
    [line] = [line for line in write_entry(entry)[0].decode().splitlines() if line.startswith("at = ")]
    return datetime.fromisoformat(line.removeprefix("at = "))
