"""The levels of both seats beside a picture of the perches on their axle."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jobtrack.figures.drawing import Drawing
from jobtrack.job.state.job import Job
from jobtrack.pictures.axles import with_levels
from jobtrack.pictures.parts import Values
from jobtrack.pictures.tolerance import Reading, Said
from jobtrack.sheets.drawings.where_it_lies import as_drawn, is_level
from jobtrack.sheets.words.sentences import step_name
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen

PERCHES = ("perch-shift", "perch-shift-from-faces")
"""The workings-out whose pictures show both perches."""
SetBy = Callable[[PlannedStep], bool]
"""Whether a step sets its perch by the working-out that is drawn."""


def beside_perches(
    job: Job, drawing: Drawing, inputs: Values, set_by: SetBy, shown: Chosen
) -> tuple[Drawing, str]:
    """The picture with the level that was measured last, in the order of the steps, in a step of each side.

    With it what was measured, in the template's words.
    """
    steps = [one for one in job.steps.values() if set_by(one)]
    found = [_last(job, [one for one in steps if one.member == side]) for side in ("left", "right")]
    left, right = (_named(as_drawn(job, *one, shown, sure=False)) if one else None for one in found)
    said = "; ".join(_said(*one) for one in found if one is not None)
    return with_levels(drawing, inputs, left, right), f"Levels: {said}." if said else ""


def _last(job: Job, steps: Sequence[PlannedStep]) -> tuple[PlannedStep, str] | None:
    found = [
        (step, name)
        for step in steps
        for name in step.step.reading
        if is_level(job, step, name) and job.now.reading_value(step.id, name) is not None
    ]
    return found[-1] if found else None


def _said(planned: PlannedStep, name: str) -> str:
    return f"{planned.step.reading[name].say or name}, {step_name(planned)}"


def _named(reading: Reading) -> Reading:
    """Its figure said to be a level's."""
    measured = reading.measured
    return reading._replace(measured=Said(measured.worth, f"level {measured.words}") if measured else None)
