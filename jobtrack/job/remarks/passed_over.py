"""What would be passed over by leaving a step, or by ending the job."""

from __future__ import annotations

from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, RELEASED, Job

BEGUN = (IN_HAND, FINISHED, LOOK_AGAIN)


def passes_over(job: Job, step: str, finishing: bool = False) -> bool:
    """Whether leaving or finishing a step passes over its hold, or over what somebody recorded there as open.

    What the template opens in a step is meant to stay open until a later one closes it; and nobody passes over the
    hold of a step that they only looked at.
    """
    known = job.plan.template.condition
    own = any(one.step == step and one.id not in known for one in job.all_open)
    return own or ((finishing or job.state(step) in BEGUN) and _held(job, step))


def ends_over(job: Job) -> bool:
    """Whether ending the job passes over an open condition, or over the hold of a step that was begun."""
    return bool(job.all_open) or any(_held(job, step) for step in job.steps if job.state(step) in BEGUN)


def _held(job: Job, step: str) -> bool:
    hold = job.hold(step)
    return hold is not None and hold.state != RELEASED
