"""A stretch in which a clock ran and nothing was entered: whether somebody forgot to stop it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from msgspec import Struct

from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.runs import Clock, clocks

QUIET = timedelta(minutes=45)
"""How long nothing has to be entered before it is asked about; common practice, no source."""


STILL_TYPING = timedelta(seconds=20)
"""How long no key has to come before anything is asked; common practice, no source."""


class Gap(Struct, frozen=True):
    """From somebody's last entry to their return, their clock running all the while."""

    since: datetime
    until: datetime
    running: bool
    """Whether nothing was entered after the return yet: the clock still stands where it stood."""


def gap(job: Job, by: str, back: datetime) -> Gap | None:
    """The gap that ended when somebody came back; None where it is short, or their clock didn't run in it."""
    mine = [one for one in clocks(job) if person(one.person) == person(by)]
    found = (_in_run(run, clock, back) for clock in mine for run in clock.runs)
    return next((one for one in found if one and one.until - one.since >= QUIET), None)


def _in_run(run: Iterable[Entry], clock: Clock, back: datetime) -> Gap | None:
    entries = sorted(run, key=lambda entry: (entry.at, entry.order))
    before = [entry for entry in entries if entry.at < back]
    after = [entry for entry in entries if entry.at >= back]
    if not before:
        return None
    if after:
        return Gap(before[-1].at, after[0].at, running=False)
    last = clock.runs[-1][-1].hash == before[-1].hash
    return Gap(before[-1].at, back, running=True) if last and clock.running and not clock.in_break else None
