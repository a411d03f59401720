"""Who took a job over without having seen something that was open. Put into words at the edge."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from jobtrack.job.acts.people import TakenOverAct
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job


class TakenOverUnseen(Struct, frozen=True):
    """Somebody took the job over without having seen what was open then and is open still."""

    by: str
    conditions: tuple[OpenCondition, ...]


def taken_over_unseen(job: Job) -> Iterator[TakenOverUnseen]:
    """Each taking over with what it left unseen, until that is closed, or seen by whoever takes over after it.

    What can't be read isn't counted: nobody can tell whether it could be read when the job was taken over.
    """
    takings = [
        (done, done.act) for done in job.view.of_kind(TakenOverAct) if isinstance(done.act, TakenOverAct)
    ]
    for done, act in takings:
        seen = {*act.seen, *_seen_elsewhere(job, done, takings)}
        unseen = tuple(
            one for one in job.open_conditions if one.name not in seen and _was_open(job, done, one)
        )
        if unseen:
            yield TakenOverUnseen(done.entry.by, unseen)


def _seen_elsewhere(job: Job, done: Done, takings: list[tuple[Done, TakenOverAct]]) -> Iterator[str]:
    """What was seen by those who took over after, or beside it: not by those who had it before."""
    before = job.view.ancestors[done.entry.hash]
    for other, act in takings:
        if not before >> job.view.bit(other.entry) & 1:
            yield from act.seen


def _was_open(job: Job, done: Done, one: OpenCondition) -> bool:
    """Whether a taking over followed one of the openings by which a condition is open now."""
    before = job.view.ancestors[done.entry.hash]
    openings = (opening for name in one.openings for opening in job.view.named(name))
    return any(before >> job.view.bit(opening.entry) & 1 for opening in openings)
