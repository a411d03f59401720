"""What giver and taker do together at the vehicle, room to sign, and the slip that comes back."""

from __future__ import annotations

from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.job.values.stage_torque import UNIT
from jobtrack.sheets.handover.handing import Handing, points, reading_name
from jobtrack.sheets.handover.inside import instrument
from jobtrack.sheets.handover.open_now import open_rows, sides_of
from jobtrack.sheets.paper.blocks import Cut, Lines, Paragraph, Section
from jobtrack.sheets.words.sentences import FIRST_WORD, joined, step_name
from jobtrack.template.plan import PlannedStep

TITLE = "Walk round it together"
SLIP = "Return slip"
WALK_ROUND = (
    "Walk round the vehicle: what holds it up, and when was that shaken?",
    "Take one reading again, with the same instrument.",
    "Say back the two most dangerous things.",
)
"""What giver and taker do together at the vehicle."""
TYPED_NAMES = "Names are as they were typed: not checked who typed them, or what they are qualified for."


def together_section(giving: Handing) -> Section:
    """The walk round, a reading to take again, the two conditions that stand first, names and times."""
    walk, again, back = WALK_ROUND
    rows = (walk, f"{again}{_which(giving)}", f"{back}{_first_two(giving.job)}")
    lines = (
        Lines("Reading taken again: which, and its value"),
        Lines(f"The two most dangerous things, as {giving.to} said them back", 2),
        Lines(f"Given by {giving.by}: date, time, signature"),
        Lines(f"Taken over by {giving.to}: date, time, signature"),
    )
    return Section(TITLE, (*points(rows), *lines))


def signed_section(giving: Handing) -> Section:
    """On paper under the names what they don't say; then the cut, below which nothing but the slip stands."""
    walk = together_section(giving)
    foot = tuple(Paragraph(text, "small") for text in (TYPED_NAMES, FIRST_WORD))
    cut = Cut(f"{giving.job.about.title}: back to {giving.by}")
    return Section(TITLE, (*walk.blocks, *foot, cut))


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
    first = [f"“{_name(those[0])}{sides_of(those)}”" for those in open_rows(job)[:2]]
    if not first:
        return ""
    stand = "stands" if len(first) == 1 else "stand"
    return f" In the order of the record {joined(first)} {stand} first; the vehicle may know better."


def _name(one: OpenCondition) -> str:
    """Its tag; of what can't be read, and of somebody's own words, the words."""
    return (one.since and one.tag) or one.text


def _which(giving: Handing) -> str:
    """The reading that was taken last, with its instrument."""
    last = _last_reading(giving.job)
    if last is None or not isinstance(last.act, ReadingAct):
        return ""
    planned, name = giving.job.steps[last.entry.step or ""], last.act.reading
    value = giving.measured(planned, name)
    with_ = instrument(giving.job, planned, name)
    said = f"{reading_name(planned, name)}, “{step_name(planned)}”: {value}{with_ and f', {with_}'}"
    return f" The last one recorded: {said} ({giving.who(last)})."


def _last_reading(job: Job) -> Done | None:
    """The last reading that stands at its place in a step, and that can be taken again."""
    found = [
        done
        for done in job.view.of_kind(ReadingAct)
        if isinstance(done.act, ReadingAct)
        and done.entry.step in job.steps
        and done.act.reading in job.steps[done.entry.step].step.reading
        and done in job.places.reading(done.entry.step, done.act.reading).acts
        and not _is_a_setting(job.steps[done.entry.step], done.act.reading)
    ]
    return found[-1] if found else None


def _is_a_setting(planned: PlannedStep, name: str) -> bool:
    """Whether a reading is how the wrench was set: a torque in a step whose bolts are turned."""
    return bool(planned.step.torque) and planned.step.reading[name].unit == UNIT
