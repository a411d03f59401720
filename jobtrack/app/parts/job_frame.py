"""What stands around the page of a job: what its file has against it, what is open, whose clock runs, what is next."""

from __future__ import annotations

from jobtrack.app.open_job import OpenJob
from jobtrack.job.state.job import Job
from jobtrack.pages.job.conditions import MOST, top_lines
from jobtrack.pages.job.last_line import clock_words, last_line
from jobtrack.pages.typeset import Line, wrap
from jobtrack.template.plan import PlannedStep


def head(file: OpenJob, here: PlannedStep | None, room: int, short: bool) -> list[Line]:
    """What the file has against it, and the open conditions."""
    trouble = [row for text in file.trouble for row in wrap(text, room, "strong")]
    return [*trouble, *top_lines(file.job, room, 2 if short else MOST, here)]


def last(job: Job, here: PlannedStep | None, room: int, short: bool) -> list[Line]:
    """Whose clock runs, and what comes next."""
    # A sentence cut short could promise something, so a short terminal has none of them.
    return wrap(clock_words(job) if short else last_line(job, here), room)
