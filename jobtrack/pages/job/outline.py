"""The outline: stages and steps, each step with the word of its state and what stands against it."""

from __future__ import annotations

from jobtrack.job.acts.ending import DueDoneAct
from jobtrack.job.compose.ending import left_to_do
from jobtrack.job.remarks.of_job import job_problems
from jobtrack.job.state.job import Job
from jobtrack.pages.wording import counted, step_name
from jobtrack.sheets.words.problems import with_names


def stage_heads(job: Job) -> dict[str, str]:
    """For each step that begins a stage on the page, the stage's heading."""
    heads: dict[str, str] = {}
    shown: set[str] = set()
    for number, stage in enumerate(job.plan.template.stage, 1):
        steps = [one for one in job.steps.values() if one.step.stage == stage]
        if steps and stage not in shown:
            shown.add(stage)
            finished = sum(job.state(one.id) == "finished" for one in steps)
            title = job.plan.template.stage[stage].title
            heads[steps[0].id] = f"{number}. {title}: {finished} of {counted(len(steps), 'step')} finished"
    return heads


def step_line(job: Job, step: str) -> str:
    """A step's title and the word of its state, its hold point with it."""
    planned = job.steps[step]
    hold = job.hold(step)
    held = f"; hold {hold.state}" if hold and hold.state != "to come" else ""
    waits = (
        "; hold not released" if hold and hold.state == "to come" and job.state(step) == "finished" else ""
    )
    return f"{step_name(planned)} - {job.state(step)}{held}{waits}"


def ordered_steps(job: Job) -> list[str]:
    """The steps stage by stage; in a stage done one by one, member by member."""
    found: list[str] = []
    for stage in job.plan.template.stage:
        steps = list(job.plan.in_stage(stage))
        if steps and steps[0].stage.one_by_one:
            members = list(dict.fromkeys(one.member for one in steps))
            steps.sort(key=lambda one: members.index(one.member))
        found += [one.id for one in steps]
    return found + [step for step in job.steps if step not in found]


def due_afterwards(job: Job) -> list[str]:
    """What is to be done after the job is closed, and what of it is recorded as done."""
    done = {one.act.due for one in job.view.of_kind(DueDoneAct) if isinstance(one.act, DueDoneAct)}
    return [f"After {due.after}: {due.say or name}" + (" - recorded as done" if name in done else "")
            for name, due in job.plan.template.due_afterwards.items()]  # fmt: skip


def job_lines(job: Job) -> list[str]:
    """What stands against the job as a whole."""
    return [f"- {text}" for text in with_names(job, job_problems(job))]


def left_lines(job: Job) -> list[str]:
    """What keeps a job from being closed."""
    left = left_to_do(job)
    steps = [f"{step_name(job.steps[step])} is {job.state(step)}" for step in left.steps]
    return [*(f"Open: {one.words}" for one in left.conditions), *steps]


def summary(job: Job) -> str:
    """Where a job stands, in one sentence."""
    steps = list(job.steps)
    finished = sum(job.state(step) == "finished" for step in steps)
    spared = sum(job.state(step) == "not needed" for step in steps)
    again = sum(job.state(step) == "look again" for step in steps)
    parts = [f"{finished} of {len(steps)} steps finished"]
    parts += [f"{spared} not needed"] if spared else []
    parts += [f"{again} to be looked at again"] if again else []
    end = {"closed": "Closed: ", "stopped": "Stopped, not finished: "}.get(job.ended or "", "")
    return end + ", ".join(parts)
