"""Times, and steps by their titles, as the pages say them; and the shared sentences that pages take from `sheets`."""

from __future__ import annotations

from datetime import datetime

from jobtrack.job.state.conditions import of_member
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import (
    CLOSED,
    FIRST_WORD,
    NO_CONDITION,
    OWN_LIMIT,
    counted,
    headed,
    lowered,
    next_sentence,
    stage_sentence,
    step_name,
)

NOT_RECORDED_YET = "NOT YET RECORDED"

__all__ = [
    "CLOSED",
    "FIRST_WORD",
    "NOT_RECORDED_YET",
    "NO_CONDITION",
    "OWN_LIMIT",
    "counted",
    "headed",
    "lowered",
    "next_sentence",
    "of_member",
    "stage_sentence",
    "step_name",
]


def named(job: Job, text: str) -> str:
    """A sentence about a step, its id in front replaced by its title and side, as a sentence."""
    for step, planned in job.steps.items():
        for behind in (": ", " is "):
            if text.startswith(step + behind):
                return step_name(planned) + text[len(step) :]
    return text[:1].upper() + text[1:]


def clock_time(at: datetime) -> str:
    """The time of day as it was recorded, at the place where it was."""
    return f"{at:%H:%M}"


def day_and_time(at: datetime) -> str:
    return f"{at.day} {at:%B %Y, %H:%M}"
