"""What stands against a job as a whole: not understood, in disagreement, beside its end. Put into words at the edge."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.remarks.taken_over import TakenOverUnseen, taken_over_unseen
from jobtrack.job.state.job import FINISHED, TO_COME, Job

SHOWN = 10
"""So many of the keys that this program doesn't know are named one by one."""


class NewerFormat(Struct, frozen=True):
    """The file has a format newer than this program."""

    format: int


class PassedOver(Struct, frozen=True):
    """A key of a newer header that isn't known here."""

    key: str


class MorePassedOver(Struct, frozen=True):
    """So many more of these."""

    count: int


class GivenApart(Struct, frozen=True):
    """A given that several recorded, not knowing of each other; it counts as not known."""

    given: str


class NotUnderstood(Struct, frozen=True):
    """Something that somebody recorded of a kind that isn't known here."""

    by: str


class BesideClosing(Struct, frozen=True):
    """An entry that no closing of a closed job has seen; step None: for the job as a whole."""

    step: str | None
    by: str


class LeftInClosed(Struct, frozen=True):
    """A step of a closed job that isn't finished after such an entry."""

    step: str
    state: str


OfHeader = NewerFormat | PassedOver | MorePassedOver
OfJob = OfHeader | GivenApart | NotUnderstood | BesideClosing | LeftInClosed | TakenOverUnseen


def job_problems(job: Job) -> list[OfJob]:
    """What stands against the job as a whole."""
    return [
        *_header(job),
        *(GivenApart(name) for name in job.plan.givens if not job.places.given(name).agreed),
        *(NotUnderstood(done.entry.by) for done in job.view.of_kind(UnknownAct)),
        *taken_over_unseen(job),
        *_beside_the_end(job),
    ]


def _header(job: Job) -> Iterator[OfHeader]:
    """What a newer header holds that can't be understood here; the first of its keys by name."""
    about = job.about
    if about.newer is None:
        return
    yield NewerFormat(about.newer)
    yield from (PassedOver(key) for key in about.passed_over[:SHOWN])
    if len(about.passed_over) > SHOWN:
        yield MorePassedOver(len(about.passed_over) - SHOWN)


def _beside_the_end(job: Job) -> Iterator[BesideClosing | LeftInClosed]:
    """What no closing of a closed job has seen, and the steps that this left unfinished."""
    unseen = _unseen(job) if job.ended == "closed" else []
    yield from (BesideClosing(entry.step, entry.by) for entry in unseen)
    worked = {entry.step for entry in unseen if any(act.work for act in entry.did)}
    for step in job.steps:
        if step in worked and job.state(step) not in (FINISHED, TO_COME):
            yield LeftInClosed(step, job.state(step))


def _unseen(job: Job) -> list[Entry]:
    """The entries that no closing has seen, but for those that may come behind it."""
    seen = _seen_by_closings(job)
    return [
        entry
        for entry in job.view.counting_entries()
        if not seen >> job.view.bit(entry) & 1
        and any(not isinstance(act, DueDoneAct | NoteAct) for act in entry.did)
    ]


def _seen_by_closings(job: Job) -> int:
    """Every closing, and all that one follows, as a mask."""
    seen = 0
    for done in job.view.of_kind(JobClosedAct):
        seen |= 1 << job.view.bit(done.entry)
        for end in done.act.of if isinstance(done.act, JobClosedAct) else ():
            bit = job.view.history.bit(end)
            if bit is not None and bit in job.view:
                seen |= job.view.ancestors[end] | 1 << bit
    return seen
