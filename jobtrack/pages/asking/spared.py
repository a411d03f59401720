"""What a step that isn't needed leaves as it is: its hold point, and what is open."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import RELEASED, Job
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.template.plan import PlannedStep, members


def spared_lines(job: Job, step: str) -> list[str]:
    """A line each for the hold that then stops nothing, and for what the step opened or would have closed."""
    hold, planned = job.hold(step), job.steps[step]
    lines = []
    if hold is not None and hold.state != RELEASED:
        lines.append(f"Its hold point then stops nothing any more: {hold.ask}")
    return lines + [f"Stays recorded as open: {condition_sentence(one)}" for one in _left(job, planned)]


def _left(job: Job, planned: PlannedStep) -> Iterator[OpenCondition]:
    """What the step itself opened, and what finishing it would close: of its own side, where it has one."""
    others = {*members(job.plan.template, planned.set)} - {planned.member}
    for one in job.all_open:
        if one.step == planned.id or (one.id in planned.step.closes and one.member not in others):
            yield one
