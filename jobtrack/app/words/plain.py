"""Names, times and the sentences that keep the tool honest."""

from __future__ import annotations

from datetime import datetime

from jobtrack.record.job import Job
from jobtrack.sheets.lines import CLOSED, FIRST_WORD, NEXT, NO_CONDITION, OWN_LIMIT
from jobtrack.template.plan import PlannedStep

NOT_RECORDED_YET = "NOT YET RECORDED"

__all__ = ["CLOSED", "FIRST_WORD", "NEXT", "NOT_RECORDED_YET", "NO_CONDITION", "OWN_LIMIT"]


def step_name(planned: PlannedStep) -> str:
    """A step's title with its side or vehicle."""
    return f"{planned.step.title}, {planned.member}" if planned.member else planned.step.title


def named(job: Job, text: str) -> str:
    """A sentence about a step, its id in front replaced by its title and side, as a sentence."""
    for step, planned in job.steps.items():
        for behind in (": ", " is "):
            if text.startswith(step + behind):
                return step_name(planned) + text[len(step) :]
    return text[:1].upper() + text[1:]


def of_member(text: str, member: str | None) -> str:
    return f"{text} ({member})" if member else text


def clock_time(at: datetime) -> str:
    """The time of day as it was recorded, at the place where it was."""
    return f"{at:%H:%M}"


def day_and_time(at: datetime) -> str:
    return f"{at.day} {at:%B %Y, %H:%M}"


def counted(number: int, one: str, more: str | None = None) -> str:
    """ "1 step", "3 steps"."""
    return f"{number} {one if number == 1 else more or one + 's'}"


def lowered(title: str) -> str:
    """A title inside a sentence: its first letter small, unless the word is written in capitals."""
    return title if title[:2].isupper() else title[:1].lower() + title[1:]


def stage_sentence(job: Job, planned: PlannedStep) -> str:
    """ "Stage 4 of 9, prepare the donor axle: 5 of 12 steps finished." """
    stages = list(job.plan.template.stage)
    stage = planned.step.stage
    steps = job.plan.in_stage(stage)
    finished = sum(job.state(one.id) == "finished" for one in steps)
    spared = sum(job.state(one.id) == "not needed" for one in steps)
    place = f"Stage {stages.index(stage) + 1} of {len(stages)}" if stage in stages else "Stage"
    not_needed = f", {spared} not needed" if spared else ""
    done = f"{finished} of {counted(len(steps), 'step')} finished{not_needed}"
    return f"{place}, {lowered(planned.stage.title)}: {done}."
