"""When each clock was on, and which entries were made meanwhile: what the hours are counted from.

A clock is one *on* of one person in one job. Its entries go by their times, not by their place in the file.
Of two copies of a job each has its own clock: an entry belongs to a clock only if one of the two was made
knowing of the other, so that an *on* in another copy ends no clock, and no other copy's entry is counted in it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from functools import cached_property
from itertools import pairwise

from msgspec import Struct

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.state.job import Job, person
from jobtrack.job.state.view import View


class Span(Struct, frozen=True):
    """From when to when a clock was on, its breaks among it."""

    began: datetime
    ended: datetime
    job: str
    on: str
    """The name of its *on*."""

    @property
    def order(self) -> tuple[datetime, str, str]:
        """The clock that sorts last has the time that several cover."""
        return (self.began, self.job, self.on)


class Clock(Struct, frozen=True):
    """One clock. `runs` are its entries, from its *on* to its end, parted where there was a break."""

    span: Span
    person: str
    runs: tuple[tuple[Entry, ...], ...]
    running: bool
    """Neither off nor followed by another *on*: it counts to the last entry."""
    in_break: bool = False
    """Whether it ended, or stands, in a break."""

    def is_on(self, at: datetime) -> bool:
        """Whether it was on, perhaps in a break, at some time."""
        return self.span.began <= at and (self.running or at < self.span.ended)


class Copies:
    """Which entries were made not knowing of each other: in two copies of the job."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.forked = len(view.loose_ends) > 1 or any(len(entry.follows) > 1 for entry in view.entries)

    def apart(self, one: Entry, other: Entry) -> bool:
        """Whether neither follows the other. Where an entry between them is lost this can't be known: no."""
        if not self.forked or one.hash == other.hash:
            return False
        earlier, later = sorted((one, other), key=lambda entry: entry.order)
        seen = self.view.ancestors[later.hash] >> self.view.bit(earlier) & 1
        return not seen and later.hash not in self._lost

    @cached_property
    def _lost(self) -> set[str]:
        """The entries that follow, near or far, one that is in nobody's hands here."""
        lost = set(self.view.missing)
        for entry in self.view.entries:
            if not lost.isdisjoint(entry.follows):
                lost.add(entry.hash)
        return lost


def clocks(job: Job) -> tuple[Clock, ...]:
    """Every clock of a job, people in the order of the file, each person's clocks by time."""
    copies = Copies(job.view)
    people: dict[str, list[Entry]] = {}
    for entry in job.view.counting_entries():
        people.setdefault(person(entry.by), []).append(entry)
    return tuple(one for mine in people.values() for one in _of_person(job.about.id, mine, copies))


def _of_person(job: str, entries: Sequence[Entry], copies: Copies) -> Iterator[Clock]:
    shown = entries[0].by
    by_time = sorted(entries, key=lambda entry: (entry.at, entry.order))
    for place, entry in enumerate(by_time):
        if _ons(entry):
            later = (other for other in by_time[place + 1 :] if not copies.apart(entry, other))
            yield _clock(job, shown, entry, later)


def _ons(entry: Entry) -> set[str]:
    return {
        entry.name(index)
        for index, act in enumerate(entry.did)
        if isinstance(act, ClockAct) and act.clock == "on"
    }


def _does(entry: Entry, what: str, ons: set[str]) -> bool:
    """Whether an entry turns off, or breaks, one of these clocks; it reaches only those that it names."""
    return any(
        isinstance(act, ClockAct) and act.clock == what and not ons.isdisjoint(act.of) for act in entry.did
    )


def _clock(job: str, shown: str, on: Entry, later: Iterable[Entry]) -> Clock:
    """One clock, from its *on* and the person's entries after it."""
    ons = _ons(on)
    runs, last = [[on]], on
    ended, in_break = _does(on, "off", ons), _does(on, "break", ons)
    for entry in later:
        if ended:
            break
        last, again = entry, bool(_ons(entry))
        if not in_break:
            runs[-1].append(entry)
        elif not again:
            runs.append([entry])
        ended = again or _does(entry, "off", ons)
        in_break = _does(entry, "break", ons) or (in_break and again)
    span = Span(on.at, last.at, job, min(ons))
    return Clock(span, shown, tuple(tuple(run) for run in runs), not ended, in_break)


def across_copies(job: Job, clock: Clock) -> Iterator[tuple[Entry, Entry]]:
    """The intervals of a clock whose two ends were made in two copies of the job."""
    copies = Copies(job.view)
    for run in clock.runs:
        for one, other in pairwise(run):
            if copies.apart(one, other) and other.at > one.at:
                yield one, other
