"""What stands against a step or a job, and what its hours don't say, in the words that scripts read, by ids."""

from __future__ import annotations

from jobtrack.job.remarks import of_job, of_step, of_time
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.hours import time_words
from jobtrack.sheets.words.named import Ids
from jobtrack.sheets.words.problems import reason_words, with_ids


def step_problems(job: Job, step: str) -> list[str]:
    """What stands against a step."""
    return with_ids(job, of_step.step_problems(job, step))


def left_open(job: Job, step: str) -> list[str]:
    """What finishing a step now would leave open."""
    return with_ids(job, of_step.left_open(job, step))


def job_problems(job: Job) -> list[str]:
    """What stands against the job as a whole."""
    return with_ids(job, of_job.job_problems(job))


def why_look_again(job: Job, step: str) -> list[str]:
    """Why a step is to be looked at again."""
    return [reason_words(why, step, Ids()) for why in job.why_look_again(step)]


def time_problems(job: Job) -> list[str]:
    """What two copies say of one person's time."""
    return [time_words(one, Ids()) for one in of_time.time_problems(job)]


def typed_remarks(job: Job) -> list[str]:
    """How hours typed afterwards are counted."""
    return [time_words(one, Ids()) for one in of_time.typed_remarks(job)]
