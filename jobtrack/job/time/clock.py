"""Time worked, from when the entries came in: one clock a person a job.

The stretch between two entries belongs to the step of the later one, since people record after doing;
the rest until *off* or a break to the last step, what came before the first to the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import MAXYEAR, datetime, timedelta
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.runs import Clock, Span, clocks
from jobtrack.job.time.typed_hours import NO_STEP, TypedHours, amounts

HOUR, MICROSECOND = timedelta(hours=1), timedelta(microseconds=1)
MOST_HOURS = 1e15
"""More than any file means; beyond it a sum of nonsense would be no number."""


class Stretch(Struct, frozen=True):
    """A time in which a person worked on one step of one job, and the clock that it is on."""

    job: str
    person: str
    step: str
    start: datetime
    end: datetime
    clock: Span

    @property
    def exact(self) -> Fraction:
        """Hours that really went by, whatever the clocks on the wall were put to meanwhile."""
        return exact_hours(self.end - self.start)

    @property
    def hours(self) -> float:
        """The same as a plain number, for what is shown; sums are made of `exact`."""
        return float(self.exact)

    @property
    def month(self) -> str:
        """The month that it began in, as 2031-04, at the place where its first entry was made."""
        return f"{self.start.year:04}-{self.start.month:02}"


def exact_hours(time: timedelta) -> Fraction:
    """A length of time in hours, without rounding."""
    return Fraction(time // MICROSECOND, HOUR // MICROSECOND)


class Times(Struct, frozen=True):
    """A job's times. `running` names the people whose clock is on and counts to their last entry.

    `on_break`: those of them who take a break, until their next entry.
    """

    stretches: tuple[Stretch, ...]
    typed: tuple[TypedHours, ...]
    running: tuple[str, ...]
    on_break: tuple[str, ...] = ()


def times(job: Job) -> Times:
    """The time recorded in a job, by person and step; what overlaps isn't yet cut (`without_overlap`)."""
    found = clocks(job)
    stretches = tuple(stretch for clock in found for stretch in _shared(clock))
    typed = tuple(share for amount in amounts(job) for share in amount.shares())
    running = [clock for clock in found if clock.running]
    working = {clock.person for clock in running if not clock.in_break}
    people = tuple(dict.fromkeys(clock.person for clock in running))
    return Times(stretches, typed, people, tuple(one for one in people if one not in working))


def by_month(stretches: Iterable[Stretch]) -> Iterator[Stretch]:
    """The stretches cut where a month begins, by the clock on the wall where each began."""
    for one in stretches:
        while (midnight := _next_month(one.start)) is not None and midnight < one.end:
            yield replace(one, end=midnight)
            one = replace(one, start=midnight)
        yield one


def _next_month(at: datetime) -> datetime | None:
    """The first midnight of the month after, at the same offset; None where the calendar ends."""
    year, month = (at.year, at.month + 1) if at.month < 12 else (at.year + 1, 1)
    if year > MAXYEAR:
        return None
    return datetime(year, month, 1, tzinfo=at.tzinfo)


def _shared(clock: Clock) -> Iterator[Stretch]:
    """One clock's time, shared among the steps of its entries."""
    steps = [entry.step for run in clock.runs for entry in run if entry.step is not None]
    step = steps[0] if steps else NO_STEP
    for run in clock.runs:
        parts = list(_parts(run, run[0].step or step))
        for part, start, end in parts:
            if end > start:
                yield Stretch(clock.span.job, clock.person, part, start, end, clock.span)
        step = parts[-1][0]


def _parts(run: tuple[Entry, ...], step: str) -> Iterator[tuple[str, datetime, datetime]]:
    """An unbroken run cut at its entries with a step; what is left behind the last of them is that one's."""
    start = run[0].at
    for entry in run[1:]:
        if entry.step is not None:
            step = entry.step
            yield step, start, entry.at
            start = entry.at
    yield step, start, run[-1].at


def without_overlap(stretches: Iterable[Stretch]) -> list[Stretch]:
    """No person twice at one time: a later *on* has the time that an earlier one also covers, breaks too.

    A clock on which no time at all is counted covers nothing.
    """
    found: list[Stretch] = []
    by_person: dict[str, list[Stretch]] = {}
    for stretch in stretches:
        by_person.setdefault(person(stretch.person), []).append(stretch)
    for mine in by_person.values():
        spans = {stretch.clock for stretch in mine}
        for stretch in mine:
            found += _cut(stretch, (span for span in spans if span.order > stretch.clock.order))
    return found


def _cut(stretch: Stretch, others: Iterable[Span]) -> list[Stretch]:
    left = [stretch]
    for span in others:
        left = [part for one in left for part in _outside(one, span)]
    return left


def _outside(one: Stretch, span: Span) -> list[Stretch]:
    if span.ended <= one.start or span.began >= one.end:
        return [one]
    parts = [replace(one, end=span.began), replace(one, start=span.ended)]
    return [part for part in parts if part.end > part.start]


def hours_by(done: Iterable[Stretch | TypedHours], key: str) -> dict[str, float]:
    """Hours summed by `person` or `step`; names of people as first met. Rounded once, at the end."""
    sums: dict[str, Fraction] = {}
    shown: dict[str, str] = {}
    for one in done:
        name = one.person if key == "person" else one.step
        same = shown.setdefault(person(name) if key == "person" else name, name)
        sums[same] = sums.get(same, Fraction()) + one.exact
    return {name: rounded(exact) for name, exact in sums.items()}


def total_hours(done: Iterable[Stretch | TypedHours]) -> float:
    """All hours together, rounded once."""
    return rounded(sum((one.exact for one in done), Fraction()))


def rounded(exact: Fraction) -> float:
    """Hours as a plain number."""
    return float(exact) if abs(exact) < MOST_HOURS else MOST_HOURS
