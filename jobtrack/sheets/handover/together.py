"""What giver and taker do together at the vehicle, room to sign, and the slip that comes back."""

from __future__ import annotations

from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.state.conditions import of_member
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.handing import Handing, points
from jobtrack.sheets.handover.inside import instrument
from jobtrack.sheets.paper.blocks import Cut, Lines, Section
from jobtrack.sheets.words.sentences import joined, step_name, worst_first

TITLE = "Walk round it together"
SLIP = "Return slip"
WALK_ROUND = (
    "Walk round the vehicle: what holds it up, and when was that shaken?",
    "Take one reading again, with the same instrument.",
    "Say back the two most dangerous things.",
)
"""What giver and taker do together at the vehicle."""


def together_section(giving: Handing) -> Section:
    """The walk round, a reading to take again, the two conditions that stand first, names and times; the cut."""
    walk, again, back = WALK_ROUND
    rows = (walk, f"{again}{_which(giving)}", f"{back}{_first_two(giving.job)}")
    lines = (
        Lines("Reading taken again: which, and its value"),
        Lines(f"The two most dangerous things, as {giving.to} said them back", 2),
        Lines(f"Given by {giving.by}: date, time, signature"),
        Lines(f"Taken over by {giving.to}: date, time, signature"),
    )
    cut = Cut(f"{giving.job.about.title}: back to {giving.by}")
    return Section(TITLE, (*points(rows), *lines, cut))


def slip_section() -> Section:
    """What comes back from whoever carried on; below the cut."""
    asks = (
        ("Done", 2),
        ("Not done", 2),
        ("Broke", 1),
        ("Found", 1),
        ("Didn't dare", 1),
        ("Name, date and time", 1),
    )
    return Section(SLIP, tuple(Lines(ask, rows) for ask, rows in asks))


def _first_two(job: Job) -> str:
    """Which two conditions stand first in the record's order; it doesn't know which are the most dangerous."""
    named = [one.tag or one.text if one.since else one.text for one in worst_first(job)[:2]]
    first = [f"“{of_member(name, one.member)}”" for name, one in zip(named, worst_first(job), strict=False)]
    if not first:
        return ""
    stand = "stands" if len(first) == 1 else "stand"
    return f" In the order of the record {joined(first)} {stand} first; the vehicle may know better."


def _which(giving: Handing) -> str:
    """The reading that was taken last, with its instrument."""
    last = _last_reading(giving.job)
    if last is None or not isinstance(last.act, ReadingAct):
        return ""
    planned, name = giving.job.steps[last.entry.step or ""], last.act.reading
    value = giving.measured(planned, name)
    with_ = instrument(giving.job, planned, name)
    said = (
        f"{planned.step.reading[name].say or name}, “{step_name(planned)}”: {value}{with_ and f', {with_}'}"
    )
    return f" The last one recorded: {said} ({giving.who(last)})."


def _last_reading(job: Job) -> Done | None:
    """The last reading that stands at its place in a step."""
    found = [
        done
        for done in job.view.of_kind(ReadingAct)
        if isinstance(done.act, ReadingAct)
        and done.entry.step in job.steps
        and done.act.reading in job.steps[done.entry.step].step.reading
        and done in job.places.reading(done.entry.step, done.act.reading).acts
    ]
    return found[-1] if found else None
