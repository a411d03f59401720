"""The pictures of a step for a sheet: what its table doesn't show as well."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import OUTSIDE, TOO_CLOSE
from jobtrack.sheets.drawings.of_step import PLACE, WORK, Subject, drawn, subjects
from jobtrack.sheets.paper.blocks import Picture
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen

DRAWN = frozenset(
    ("perch-shift", "perch-shift-from-faces", "pinion-to-pad", "wedge", "joint-pair", "second-pattern")
)
"""Workings-out whose picture tells what was changed: the axle from behind, its slope, the flange, the driveline."""


def pictures_in(job: Job, planned: PlannedStep, shown: Chosen) -> tuple[Picture, ...]:
    """The step's own workings-out of these kinds, and where a reading lies that isn't within its limits.

    A working-out of another step stands there, and bolts in their order stand with their table.
    """
    own = dict.fromkeys(one for one in subjects(job, planned) if one.step == planned.id)
    found = (drawn(job, one, shown) for one in own if _is_shown(job, planned, one))
    return tuple(Picture(one.drawing, one.title, one.note) for one in found if one.drawing is not None)


def _is_shown(job: Job, planned: PlannedStep, one: Subject) -> bool:
    if one.kind == PLACE:
        return job.now.verdict(planned.id, one.name) in (OUTSIDE, TOO_CLOSE)
    return one.kind == WORK and planned.step.work_out[one.name].use in DRAWN
