"""The wait of a check: from when on *yes* is what the template asks for, and a *yes* that came sooner.

Times are those of the entries, by the clocks of whoever recorded them. What somebody typed in afterwards says itself
when it was done; of all else an entry that follows another and is earlier shows that a clock went back.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from itertools import groupby

from msgspec import Struct

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.people import AgreedAct, ClockAct, WorkedAct
from jobtrack.job.acts.steps import FinishedAct, SettledAct, SwappedAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import NOT_NEEDED, Job
from jobtrack.template.plan import PlannedStep

NO_ENTRY, SOON, BEFORE, CLOCK_BACK = "no entry", "soon", "before", "clock back"
"""Of the step that is waited for nothing is recorded; too little time since; it came later; the clocks can't tell."""
_ABOUT_WORK = (FinishedAct, SettledAct, SwappedAct, ClockAct, WorkedAct, AgreedAct)
"""Acts of a step that say something of what was done, and do nothing."""


class Since(Struct, frozen=True):
    """What a check waits for, as it is recorded."""

    steps: tuple[str, ...]
    """The step of the last entry; while there is none, all that are waited for and needed."""
    last: Entry | None
    """The last in which something was done there, by the clocks."""
    asked: timedelta
    clock_back: bool
    """Whether an entry of one of them follows another that is later by the clocks."""

    @property
    def not_before(self) -> datetime | None:
        """When the wait is over, by the entries; None while there is nothing to wait from."""
        return self.last.at + self.asked if self.last is not None else None


class TooSoon(Struct, frozen=True):
    """A check answered yes sooner than the template asks."""

    step: str
    tick: str
    since: tuple[str, ...]
    """The step of the last entry; where there is none, all that are waited for."""
    asked: timedelta
    waited: timedelta
    """From that entry to the yes; below zero where the yes came first."""
    why: str
    """`NO_ENTRY`, `SOON`, `BEFORE` or `CLOCK_BACK`."""


def since(job: Job, planned: PlannedStep, tick: str) -> Since | None:
    """What a check waits for; None where it waits for nothing, or for nothing that is needed."""
    wait = planned.step.tick[tick].wait
    named = job.plan.named(wait.since, planned) if wait is not None else ()
    steps = [one.id for one in named if job.state(one.id) != NOT_NEEDED]
    if wait is None or not steps:
        return None
    entries = [_entries(job, step) for step in steps]
    last = max((one for each in entries for one in each), key=lambda one: (one.at, one.order), default=None)
    back = any(_goes_back(job, each) for each in entries)
    of = (last.step,) if last is not None and last.step is not None else tuple(steps)
    return Since(of, last, timedelta(minutes=wait.minutes), back)


def _entries(job: Job, step: str) -> list[Entry]:
    """Those in which something was done in a step, in order; where nothing but its end is recorded, that."""
    work = [done for done in job.view.in_step(step) if done.act.work]
    done = [one for one in work if not isinstance(one.act, _ABOUT_WORK)] or work
    return list({one.entry.hash: one.entry for one in done}.values())


def _goes_back(job: Job, entries: Iterable[Entry]) -> bool:
    """Whether one of them follows another that is later by the clocks, and nobody typed it in afterwards."""
    later = 0
    by_time = sorted(entries, key=lambda one: one.at, reverse=True)
    for _, together in groupby(by_time, key=lambda one: one.at):
        same = list(together)
        if any(job.view.ancestors[one.hash] & later for one in same if one.typed_at is None):
            return True
        later |= sum(1 << job.view.bit(one) for one in same)
    return False


def too_soon(job: Job, planned: PlannedStep, tick: str) -> TooSoon | None:
    """A yes that came too soon: none where there is no yes, or where one of several came late enough."""
    found, standing = since(job, planned, tick), job.places.tick(planned.id, tick)
    if found is None or standing.value is not True:
        return None
    why = [(_why(job, found, done), done.entry) for done in standing.acts]
    if not all(each for each, _ in why):
        return None
    reason, yes = max(why, key=lambda one: (one[1].at, one[1].order))
    waited = yes.at - found.last.at if found.last is not None else timedelta(0)
    return TooSoon(planned.id, tick, found.steps, found.asked, waited, reason)


def _why(job: Job, found: Since, done: Done) -> str:
    """Why a yes came too soon; empty where it didn't."""
    last, yes = found.last, done.entry
    if last is None:
        return NO_ENTRY
    back = yes.at < last.at and yes.typed_at is None and _saw(job, yes, last)
    if found.clock_back or back:
        return CLOCK_BACK
    if yes.at < last.at:
        return BEFORE
    return SOON if yes.at - last.at < found.asked else ""


def _saw(job: Job, entry: Entry, other: Entry) -> bool:
    """Whether whoever made an entry could see another."""
    return bool(job.view.ancestors[entry.hash] >> job.view.bit(other) & 1)
