"""What a job's hours don't say by themselves, in sentences: counted once, typed afterwards, taken back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from itertools import combinations

from msgspec import Struct

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.runs import Clock, Span, across_copies, clocks
from jobtrack.job.time.typed_hours import NO_STEP, Amount, amounts, taken_back


class Overlap(Struct, frozen=True):
    """A time in which two clocks of one person were on. It is counted once, on the later of them."""

    person: str
    start: datetime
    end: datetime
    earlier: Span
    later: Span


def overlaps(found: Iterable[Clock]) -> Iterator[Overlap]:
    """Every time that two clocks of one person share, by person and time."""
    by_person: dict[str, list[Clock]] = {}
    for clock in sorted(found, key=lambda clock: clock.span.order):
        by_person.setdefault(person(clock.person), []).append(clock)
    for mine in by_person.values():
        for one, other in combinations(mine, 2):
            start, end = other.span.began, min(one.span.ended, other.span.ended)
            if end > start:
                yield Overlap(mine[0].person, start, end, one.span, other.span)


def time_problems(job: Job) -> list[str]:
    """What two copies of a job say of one person's time, and what no single copy says."""
    found = clocks(job)
    said = [
        f"{one.person}'s clock was on in two copies of this job from {from_to(one.start, one.end)}; "
        "that time is counted once, on the clock that went on later"
        for one in overlaps(found)
    ]
    return said + [
        f"{clock.person}'s time from {from_to(start, end)} is counted from entries in two copies of this job"
        for clock in found
        for start, end in _joined(across_copies(job, clock))
    ]


def _joined(pairs: Iterable[tuple[Entry, Entry]]) -> list[tuple[datetime, datetime]]:
    """Intervals, those that touch as one."""
    found: list[tuple[datetime, datetime]] = []
    for one, other in pairs:
        start, end = one.at, other.at
        if found and found[-1][1] == start:
            start = found.pop()[0]
        found.append((start, end))
    return found


def typed_remarks(job: Job) -> list[str]:
    """How hours typed afterwards are counted; clock entries typed later than they were done; what was undone."""
    found = clocks(job)
    said = [_spread(amount, found) for amount in amounts(job)]
    counting = job.view.of_kind(ClockAct)
    said += [
        f"Typed afterwards: {_clock_words(done.entry, done.act)}, typed {minute(done.entry.typed_at)}"
        for done in counting
        if done.entry.typed_at is not None
    ]
    said += [f"Taken back: {_typed(amount)}" for amount in taken_back(job)]
    names = {done.name for done in counting}
    return said + [
        f"Taken back: {_clock_words(done.entry, done.act)}"
        for done in job.view.of_kind(ClockAct, undone=True)
        if done.name not in names
    ]


def _clock_words(entry: Entry, act: object) -> str:
    what = act.clock if isinstance(act, ClockAct) else ""
    return f"clock {what} by {entry.by}, {minute(entry.at)}"


def _typed(amount: Amount) -> str:
    whose = "" if person(amount.person) == person(amount.by) else f" for {amount.person}"
    return f"{hours_words(amount.hours)} typed afterwards by {amount.by}{whose} for {amount.day}"


def _spread(amount: Amount, found: Iterable[Clock]) -> str:
    """ "2 h typed afterwards by Wim for 2031-04-02 are spread equally over 3 steps: a, b, c"."""
    said = _typed(amount)
    if amount.step is not None:
        said += f" are counted in {amount.step}, where they were typed"
    elif not amount.touched:
        said += f" are counted under {NO_STEP}: nothing of that person's is recorded in a step on that day"
    elif len(amount.touched) == 1:
        said += f" are counted in the one step touched that day: {amount.touched[0]}"
    else:
        said += f" are spread equally over {len(amount.touched)} steps: {', '.join(amount.touched)}"
    beside = any(_was_on(clock, amount) for clock in found)
    return said + ("; a clock was on that day as well, and both are counted" if beside else "")


def _was_on(clock: Clock, amount: Amount) -> bool:
    began, ended = (at.date().isoformat() for at in (clock.span.began, clock.span.ended))
    same = person(clock.person) == person(amount.person)
    return same and clock.span.ended > clock.span.began and began <= amount.day <= ended


def hours_words(hours: float) -> str:
    """ "2.5 h"."""
    return f"{hours:.2f}".rstrip("0").rstrip(".") + " h"


def minute(at: datetime | None) -> str:
    """A date and time as it was where it was recorded."""
    return "" if at is None else f"{at.date().isoformat()} {at:%H:%M}"


def from_to(start: datetime, end: datetime) -> str:
    """ "2031-04-01 09:00 to 10:00", the second date where it is another one."""
    same = start.date() == end.date()
    return f"{minute(start)} to {f'{end:%H:%M}' if same else minute(end)}"
