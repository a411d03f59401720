"""Which unit system a job's template speaks."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.units.chosen import spoken


def spoken_by(job: Job) -> str:
    """The system of most of the units that its readings ask for: metric where neither has more."""
    steps = job.plan.template.step.values()
    return spoken(reading.unit for step in steps for reading in step.reading.values())
