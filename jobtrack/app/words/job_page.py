"""The page of the job: what is open, whole; what holds in every step; what is recorded beside the steps."""

from __future__ import annotations

from jobtrack.app.paper import Line, line, wrap
from jobtrack.app.words.conditions import all_lines
from jobtrack.app.words.hazards import whole_job_lines
from jobtrack.record.job import Job


def job_page(job: Job, width: int) -> list[Line]:
    """All of it, a part under the other."""
    parts = (
        [*wrap("Recorded as open", width, "strong"), *all_lines(job, width)],
        whole_job_lines(job, width, whole=True),
    )
    title = wrap(f"The job: {job.about.title}", width, "strong")
    return [*title, *(row for part in parts if part for row in (line(), *part))]
