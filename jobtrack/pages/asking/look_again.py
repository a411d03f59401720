"""Every step that is to be looked at again, with why, and which of them somebody has looked at."""

from __future__ import annotations

from jobtrack.job.state.job import LOOK_AGAIN, Job
from jobtrack.pages.wording import step_name
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import reason_words
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def steps_to_look_at(job: Job) -> list[str]:
    """The steps that are to be looked at again, in the order of the plan."""
    return [step for step in job.steps if job.state(step) == LOOK_AGAIN]


def step_heading(job: Job, step: str, looked_at: bool) -> str:
    """A step and whether it is to be recorded as standing."""
    return f"{step_name(job.steps[step])} - {'looked at, stands' if looked_at else 'left as it is'}"


def why_lines(job: Job, step: str, shown: Chosen = METRIC_FIRST) -> list[str]:
    """Why it is to be looked at again, and its hold, which a *stands* doesn't release."""
    why = [reason_words(one, step, Names(job), shown) for one in job.why_look_again(step)]
    hold = job.hold(step)
    held = [f"its hold point is released anew by somebody: {hold.ask}"] if hold is not None else []
    return why + held
