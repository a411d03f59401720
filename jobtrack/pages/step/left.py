"""What finishing a step leaves open: readings, checks and a hold that have no answer yet."""

from __future__ import annotations

from jobtrack.job.remarks.of_step import left_open
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.problems import with_names
from jobtrack.template.plan import PlannedStep


def left_lines(job: Job, planned: PlannedStep) -> list[str]:
    """What finishing now would leave open, a line each under its heading; none where nothing is left."""
    found = with_names(job, left_open(job, planned.id))
    return ["Finishing it now leaves this open:", *(f"- {text}" for text in found)] if found else []
