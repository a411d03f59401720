"""The page of the job: what is open, whole; what holds in every step; what is recorded beside the steps."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.job.state.job import Job
from jobtrack.job.time.clock import times
from jobtrack.pages.job.conditions import all_lines
from jobtrack.pages.job.outline import job_lines as against_job
from jobtrack.pages.step.hazards import whole_job_lines
from jobtrack.pages.step.recorded import job_lines, known_lines
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.sheets.as_json.job import hours_json


def job_page(job: Job, width: int, trouble: Sequence[str] = ()) -> list[Line]:
    """All of it, a part under the other; `trouble` is what the file has against it."""
    parts = (
        [row for text in trouble for row in wrap(text, width, "strong", 2)],
        [*wrap("Recorded as open", width, "strong"), *all_lines(job, width)],
        [row for text in against_job(job) for row in wrap(text, width, "", 2)],
        whole_job_lines(job, width, whole=True),
        known_lines(job, width),
        job_lines(job, width),
        wrap(labour_words(job), width),
    )
    title = wrap(f"The job: {job.about.title}", width, "strong")
    return [*title, *(row for part in parts if part for row in (line(), *part))]


def labour_words(job: Job) -> str:
    """The hours worked, by whom, and whose clock runs."""
    hours = hours_json(job)
    people = ", ".join(f"{name} {worked:.2f} h" for name, worked in hours["by_person"].items())
    on_break = times(job).on_break
    running = "".join(
        f" {name} is on a break." if name in on_break else f" The clock of {name} runs."
        for name in hours["running"]
    )
    return f"Labour: {hours['total_hours']:.2f} h{f' ({people})' if people else ''}.{running}"
