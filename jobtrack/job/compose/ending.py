"""Ending a job, and ticking off what is due afterwards: which acts that makes, and when it is refused."""

from __future__ import annotations

from msgspec import Struct

from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct, JobStoppedAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import NoReason, Refused, known
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import Job


def due_done(draft: Draft, due: str) -> None:
    """Something that is due afterwards is done."""
    lines = draft.job.plan.template.due_afterwards
    if due not in lines:
        raise Refused(f"nothing due afterwards is called {due!r}{known(lines)}")
    draft.add(DueDoneAct(due))


def stop_job(draft: Draft, because: str) -> None:
    """Stop the job, with a reason."""
    if not because.strip():
        raise NoReason("a job is stopped with a reason; say why")
    draft.add(JobStoppedAct(because=because, of=draft.before.view.loose_ends))


def close_job(
    draft: Draft,
    differently: str | None = None,
    tool_lacked: str | None = None,
    broke: str | None = None,
) -> None:
    """Close the job, with what was learnt."""
    left = left_to_do(draft.job)
    said = [f"open: {one.words}" for one in left.conditions]
    said += [f"{step} is {draft.job.state(step)}" for step in left.steps]
    if said:
        raise Refused("the job can't be closed yet: " + "; ".join(said))
    ends = draft.before.view.loose_ends
    draft.add(JobClosedAct(differently=differently, tool_lacked=tool_lacked, broke=broke, of=ends))


class Left(Struct, frozen=True):
    """What keeps a job from being closed: what is recorded as open, and steps neither finished nor not needed."""

    conditions: tuple[OpenCondition, ...]
    steps: tuple[str, ...]


def left_to_do(job: Job) -> Left:
    """What keeps a job from being closed."""
    return Left(
        tuple(one for one in job.all_open if one.passes_to is None),
        tuple(step for step in job.steps if not job.settled(step)),
    )
