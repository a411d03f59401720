"""The last line of a job's screens: whose clock runs, and what comes next with its honest sentence."""

from __future__ import annotations

from jobtrack.job.state import order
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, RELEASED, TO_COME, Job
from jobtrack.job.time.clock import times
from jobtrack.pages.wording import CLOSED, next_sentence, step_name
from jobtrack.template.plan import PlannedStep


def last_line(job: Job, planned: PlannedStep | None) -> str:
    """Whose clock runs and what comes next."""
    return f"{clock_words(job)} {next_words(job, planned)}"


def clock_words(job: Job) -> str:
    """Whose clocks run in this job, or that none does."""
    found = times(job)
    on = [name for name in found.running if name not in found.on_break]
    on_break = f"On a break: {', '.join(found.on_break)}." if found.on_break else ""
    clock = f"Clock on: {', '.join(on)}." if on else ""
    return " ".join(filter(None, (clock, on_break))) or "No clock runs."


def short_clock_words(job: Job, by: str | None) -> str:
    """The same in as few words as can be, and in whose name is recorded."""
    if times(job).running:
        return clock_words(job).rstrip(".")
    return f"{by}: clock off" if by else "clock off"


def next_words(job: Job, planned: PlannedStep | None) -> str:
    """The step that comes next, and what that doesn't mean; or how the job ended."""
    if job.ended == "closed":
        return f"This job is closed. {CLOSED}"
    if job.ended == "stopped":
        return "This job was stopped, not finished; what is recorded as open stays open."
    found = next_step(job, planned)
    if found is None:
        return _none_next(job, planned)
    said = next_sentence(step_name(job.steps[found]))
    if planned is not None and found == planned.id:
        return f"This step is next. {said}"
    if planned is not None and job.state(planned.id) == IN_HAND:
        return f"This step is in hand. Another is next. {said}"
    return said


def _none_next(job: Job, planned: PlannedStep | None) -> str:
    """A hold on this page alone, what is in hand; else the order or an open condition stops everything."""
    held = _held_here(job, planned) if planned is not None else None
    if held is not None:
        return held
    if planned is not None and job.state(planned.id) == IN_HAND:
        hold = job.hold(planned.id)
        released = " and its hold released" if hold is not None and hold.state != RELEASED else ""
        return f"This step is in hand, and no other is next before it is finished{released}."
    in_hand = [step_name(one) for one in job.steps.values() if job.state(one.id) == IN_HAND]
    if in_hand:
        return f"No step is next. In hand: {'; '.join(in_hand)}."
    return (
        "No step is next: the order of steps or what is recorded as open stops each of them. See the outline."
    )


def _held_here(job: Job, planned: PlannedStep) -> str | None:
    """The hold of the step on the screen, where it is all that stops another step."""
    hold = job.hold(planned.id)
    alone = {order.Blocker("hold", planned.id)}
    waiting = [one for one in job.steps.values()
               if job.state(one.id) == TO_COME and set(order.blockers(job, one)) == alone]  # fmt: skip
    if hold is None or not waiting:
        return None
    return (
        f"No step is next. The hold point of this step isn't released: {hold.ask} "
        f"It alone stops “{step_name(waiting[0])}”."
    )


def next_step(job: Job, planned: PlannedStep | None) -> str | None:
    """The first step that is next behind the one on the screen; else the first of all."""
    steps = list(job.steps)
    here = steps.index(planned.id) if planned and planned.id in steps else -1
    behind = [step for step in job.next_steps if steps.index(step) >= here]
    return next(iter(behind or job.next_steps), None)


def onward_step(job: Job, planned: PlannedStep) -> str | None:
    """Where one goes on from a step: to what is next, else to another that is in hand or to be looked at again."""
    found = next_step(job, planned)
    if found is not None and found != planned.id:
        return found
    begun = (one for one in job.steps if one != planned.id and job.state(one) in (IN_HAND, LOOK_AGAIN))
    return next(begun, None)


def where_to_open(job: Job) -> str | None:
    """The step on which somebody is: the one recorded in last, while it is in hand; else what is next."""
    for entry in reversed(list(job.view.counting_entries())):
        if entry.step in job.steps and job.state(entry.step or "") in (IN_HAND, LOOK_AGAIN):
            return entry.step
    return next_step(job, None) or next(iter(job.steps), None)
