"""The pictures of a step for a sheet: what a table doesn't show as well."""

from __future__ import annotations

from jobtrack.job.doing.tightening import tightening
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import OUTSIDE, TOO_CLOSE
from jobtrack.sheets.drawings.of_step import PLACE, TORQUE, Subject, drawn, subjects
from jobtrack.sheets.paper.blocks import Picture
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen


def pictures_in(job: Job, planned: PlannedStep, shown: Chosen) -> tuple[Picture, ...]:
    """The bolts that are still to be turned in their order, the step's own workings-out, and where a reading
    lies that isn't within its limits. A working-out of another step stands there.
    """
    own = dict.fromkeys(one for one in subjects(job, planned) if one.step == planned.id)
    found = (drawn(job, one, shown) for one in own if _is_shown(job, planned, one))
    return tuple(Picture(one.drawing, one.title, one.note) for one in found if one.drawing is not None)


def _is_shown(job: Job, planned: PlannedStep, one: Subject) -> bool:
    if one.kind == TORQUE:
        line = tightening(job, planned, one.name)
        return not line.counted or line.next is not None
    return one.kind != PLACE or job.now.verdict(planned.id, one.name) in (OUTSIDE, TOO_CLOSE)
