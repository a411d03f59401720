"""What hours don't say by themselves: counted once, typed afterwards, taken back. Put into words at the edge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from itertools import combinations

from msgspec import Struct

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.runs import Clock, Span, across_copies, clocks
from jobtrack.job.time.typed_hours import Amount, amounts, taken_back


class Overlap(Struct, frozen=True):
    """A time in which two clocks of one person were on. It is counted once, on the later of them."""

    person: str
    start: datetime
    end: datetime
    earlier: Span
    later: Span


class AcrossCopies(Struct, frozen=True):
    """A time of one person that is counted from entries in two copies of a job."""

    person: str
    start: datetime
    end: datetime


class TypedAmount(Struct, frozen=True):
    """Hours typed afterwards that count, and whether a clock of the same person was on that day as well."""

    amount: Amount
    clock_on: bool


class TypedClock(Struct, frozen=True):
    """A clock entry typed later than it was done."""

    clock: str
    """on, off or break."""
    by: str
    at: datetime
    typed_at: datetime


class AmountTakenBack(Struct, frozen=True):
    """Hours typed afterwards that were undone."""

    amount: Amount


class ClockTakenBack(Struct, frozen=True):
    """A clock entry that was undone."""

    clock: str
    """on, off or break."""
    by: str
    at: datetime


TimeProblem = Overlap | AcrossCopies
TypedRemark = TypedAmount | TypedClock | AmountTakenBack | ClockTakenBack


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


def time_problems(job: Job) -> list[TimeProblem]:
    """What two copies of a job say of one person's time, and what no single copy says."""
    found = clocks(job)
    return [
        *overlaps(found),
        *(
            AcrossCopies(clock.person, start, end)
            for clock in found
            for start, end in _joined(across_copies(job, clock))
        ),
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


def typed_remarks(job: Job) -> list[TypedRemark]:
    """How hours typed afterwards are counted; clock entries typed later than they were done; what was undone."""
    found = clocks(job)
    return [
        *(TypedAmount(one, any(_was_on(clock, one) for clock in found)) for one in amounts(job)),
        *_typed_clocks(job),
        *(AmountTakenBack(one) for one in taken_back(job)),
        *_clocks_taken_back(job),
    ]


def _was_on(clock: Clock, amount: Amount) -> bool:
    began, ended = (at.date().isoformat() for at in (clock.span.began, clock.span.ended))
    same = person(clock.person) == person(amount.person)
    return same and clock.span.ended > clock.span.began and began <= amount.day <= ended


def _typed_clocks(job: Job) -> Iterator[TypedClock]:
    for done in job.view.of_kind(ClockAct):
        act, entry = done.act, done.entry
        if isinstance(act, ClockAct) and entry.typed_at is not None:
            yield TypedClock(act.clock, entry.by, entry.at, entry.typed_at)


def _clocks_taken_back(job: Job) -> Iterator[ClockTakenBack]:
    counting = {done.name for done in job.view.of_kind(ClockAct)}
    for done in job.view.of_kind(ClockAct, undone=True):
        if isinstance(done.act, ClockAct) and done.name not in counting:
            yield ClockTakenBack(done.act.clock, done.entry.by, done.entry.at)
