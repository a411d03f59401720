"""Time worked, from when the entries came in: one clock a person a job.

The stretch between two entries belongs to the step of the later one, since people record after doing;
the rest until *off* to the last step, what came before the first to the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from jobtrack.record.entries import ClockAct, Entry, WorkedAct
from jobtrack.record.job import Job, person

NO_STEP = "(no step)"
HOUR = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A time in which a person worked on one step of one job. `began` is when the clock that it is on began."""

    job: str
    person: str
    step: str
    start: datetime
    end: datetime
    began: datetime

    @property
    def hours(self) -> float:
        return (self.end - self.start) / HOUR

    @property
    def month(self) -> str:
        """The month that it began in, as 2031-04, in the time zone of the entry."""
        return f"{self.start:%Y-%m}"


@dataclass(frozen=True, slots=True)
class TypedHours:
    """Hours that somebody typed afterwards."""

    job: str
    person: str
    step: str
    hours: float
    month: str
    """As 2031-04: that of the day they are for."""


@dataclass(frozen=True, slots=True)
class Times:
    """A job's times. `running` names the people whose clock is on and counts to their last entry."""

    stretches: tuple[Stretch, ...]
    typed: tuple[TypedHours, ...]
    running: tuple[str, ...]


def times(job: Job) -> Times:
    """The time recorded in a job, by person and step; what overlaps isn't yet cut (`without_overlap`)."""
    people: dict[str, list[Entry]] = {}
    for entry in sorted(job.view.counting_entries(), key=lambda entry: entry.at):
        people.setdefault(person(entry.by), []).append(entry)
    stretches: list[Stretch] = []
    running: list[str] = []
    for entries in people.values():
        shown = min(entries, key=lambda entry: entry.order).by
        mine, runs = _of_person(job, shown, entries)
        stretches += mine
        running += [shown] if runs else []
    return Times(tuple(stretches), tuple(_typed(job)), tuple(running))


def _typed(job: Job) -> Iterable[TypedHours]:
    for done in job.view.of_kind(WorkedAct):
        if isinstance(done.act, WorkedAct):
            act, entry = done.act, done.entry
            month = (act.on_day or entry.at.date().isoformat())[:7]
            yield TypedHours(job.about.id, act.for_ or entry.by, entry.step or NO_STEP, act.worked, month)


def _of_person(job: Job, name: str, entries: Sequence[Entry]) -> tuple[list[Stretch], bool]:
    """A person's stretches, and whether their clock runs."""
    found: list[Stretch] = []
    spans, runs = _spans(entries)
    for span in spans:
        found += _shared(job.about.id, name, span)
    return found, runs


def _spans(entries: Sequence[Entry]) -> tuple[list[list[list[Entry]]], bool]:
    """The clock's times on: for each, its unbroken runs of entries, from the one that began it to its end."""
    spans: list[list[list[Entry]]] = []
    run: list[Entry] | None = None
    on: str | None = None
    broken = False
    for entry in entries:
        what = _clock_act(entry, on)
        if what == "on":
            if run is not None and not broken:
                run.append(entry)
            run, broken = [entry], False
            on = _on_name(entry)
            spans.append([run])
        elif on is not None and broken:
            run, broken = [entry], False
            spans[-1].append(run)
        elif run is not None and on is not None:
            run.append(entry)
        if what == "off":
            on, run = None, None
        elif what == "break" and on is not None:
            broken = True
    return spans, on is not None


def _clock_act(entry: Entry, on: str | None) -> str | None:
    """What an entry does to the clock; an off or a break reaches only the *on* that it names."""
    for act in entry.did:
        if isinstance(act, ClockAct) and (act.clock == "on" or on in act.of):
            return act.clock
    return None


def _on_name(entry: Entry) -> str:
    index = next(i for i, act in enumerate(entry.did) if isinstance(act, ClockAct) and act.clock == "on")
    return entry.name(index)


def _shared(job: str, name: str, span: Sequence[Sequence[Entry]]) -> list[Stretch]:
    """One time on, shared among the steps of its entries."""
    began = span[0][0].at
    steps = [entry.step for run in span for entry in run if entry.step is not None]
    found: list[Stretch] = []
    step = steps[0] if steps else NO_STEP
    for run in span:
        start = run[0].at
        for entry in run[1:]:
            if entry.step is not None:
                step = entry.step
                found.append(Stretch(job, name, step, start, entry.at, began))
                start = entry.at
        found.append(Stretch(job, name, step, start, run[-1].at, began))
    return [stretch for stretch in found if stretch.end > stretch.start]


def without_overlap(stretches: Iterable[Stretch]) -> list[Stretch]:
    """No person twice at one time: a later *on* has the time that an earlier one also covers."""
    found: list[Stretch] = []
    by_person: dict[str, list[Stretch]] = {}
    for stretch in stretches:
        by_person.setdefault(person(stretch.person), []).append(stretch)
    for mine in by_person.values():
        ons = _covered(mine)
        for stretch in mine:
            found += _cut(stretch, [span for key, span in ons.items() if key > (stretch.began, stretch.job)])
    return found


def _covered(stretches: Iterable[Stretch]) -> dict[tuple[datetime, str], tuple[datetime, datetime]]:
    """From when to when each clock was on."""
    spans: dict[tuple[datetime, str], tuple[datetime, datetime]] = {}
    for one in stretches:
        start, end = spans.get((one.began, one.job), (one.start, one.end))
        spans[(one.began, one.job)] = (min(start, one.start), max(end, one.end))
    return spans


def _cut(stretch: Stretch, others: Iterable[tuple[datetime, datetime]]) -> list[Stretch]:
    left = [stretch]
    for start, end in others:
        left = [part for one in left for part in _outside(one, start, end)]
    return left


def _outside(one: Stretch, start: datetime, end: datetime) -> list[Stretch]:
    if end <= one.start or start >= one.end:
        return [one]
    parts = [replace(one, end=start), replace(one, start=end)]
    return [part for part in parts if part.end > part.start]


def hours_by(done: Iterable[Stretch | TypedHours], key: str) -> dict[str, float]:
    """Hours summed by `person` or `step`; names of people as first met."""
    sums: dict[str, float] = {}
    shown: dict[str, str] = {}
    for one in done:
        name = one.person if key == "person" else one.step
        same = shown.setdefault(person(name) if key == "person" else name, name)
        sums[same] = sums.get(same, 0.0) + one.hours
    return sums
