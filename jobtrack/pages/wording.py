"""Times, and steps by their titles, as the pages say them; and the shared sentences that pages take from `sheets`."""

from __future__ import annotations

from datetime import datetime

from jobtrack.job.state.conditions import of_member
from jobtrack.sheets.words.sentences import (
    CLOSED,
    FIRST_WORD,
    NO_CONDITION,
    OWN_LIMIT,
    counted,
    headed,
    lowered,
    next_sentence,
    raised,
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
    "raised",
    "stage_sentence",
    "step_name",
]


def clock_time(at: datetime) -> str:
    """The time of day as it was recorded, at the place where it was."""
    return f"{at:%H:%M}"


def day_and_time(at: datetime) -> str:
    return f"{at.day} {at:%B %Y, %H:%M}"
