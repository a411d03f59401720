"""The reading or the check that was recorded last in a step, with where it lies."""

from __future__ import annotations

from msgspec import Struct

from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import NO_VERDICT
from jobtrack.pages.step.table import lies_rule
from jobtrack.pages.wording import of_member
from jobtrack.sheets.words.values.in_units import measured_in, wanted_in
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen

RULE_CELLS = 64
"""How long the drawn tolerance is."""


class Recorded(Struct, frozen=True):
    """What was recorded last in the step."""

    name: str
    """The reading with its side, or the check."""
    value: str = ""
    """What was measured; empty for a check."""
    lies: str = ""
    """Where it lies, or the answer; empty where there is neither."""
    wanted: str = ""
    rule: str = ""
    """Its place in the tolerance, drawn."""


def last_recorded(job: Job, planned: PlannedStep, shown: Chosen) -> Recorded | None:
    """The reading or the check that the last entry of the step records."""
    mine = [entry for entry in job.view.counting_entries() if entry.step == planned.id]
    acts = [act for act in mine[-1].did if isinstance(act, ReadingAct | TickAct)] if mine else []
    if not acts:
        return None
    act = acts[-1]
    if isinstance(act, TickAct):
        tick = planned.step.tick.get(act.tick)
        return Recorded(tick.ask if tick else act.tick, lies="yes" if act.yes else "no")
    return _reading(job, planned, act.reading, shown) if act.reading in planned.step.reading else None


def _reading(job: Job, planned: PlannedStep, name: str, shown: Chosen) -> Recorded:
    verdict = job.now.verdict(planned.id, name)
    label = of_member(planned.step.reading[name].say or name, planned.member)
    limited = job.now.limits(planned.id, name).known
    return Recorded(
        label,
        measured_in(job, planned, name, shown),
        "" if verdict == NO_VERDICT else verdict,
        wanted_in(job, planned, name, shown) if limited else "",
        "" if verdict == NO_VERDICT else lies_rule(job, planned, name, RULE_CELLS, RULE_CELLS),
    )
