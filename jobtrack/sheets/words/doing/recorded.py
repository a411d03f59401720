"""What was recorded besides values, checks and holds: under its step, or for the job as a whole.

An undone act doesn't count, nor one that a later act of its place replaces; of a bolt the last stage stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.job.acts.base import APART, IN_STEP, OF_JOB, keys
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.state.conditions import of_member, openings
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import day_and_clock


def in_step(job: Job, step: str) -> list[Done]:
    """What was recorded in a step, in order."""
    return _standing(job, (done for done in job.view.in_step(step) if done.act.under == IN_STEP))


def of_job(job: Job) -> list[Done]:
    """What was recorded for the job as a whole, in order; and in a step that isn't there any more."""
    kinds = (kind for kind in KINDS.values() if kind.under != APART)
    found = [done for kind in kinds for done in job.view.of_kind(kind) if _of_job(job, done)]
    return _standing(job, sorted(found, key=lambda done: done.order))


def _of_job(job: Job, done: Done) -> bool:
    return done.act.under == OF_JOB or done.entry.step not in job.steps


def _standing(job: Job, acts: Iterable[Done]) -> list[Done]:
    """Without what was replaced: a place, a state of buying, an earlier stage of the same bolt."""
    found = list(acts)
    last = {_spot(done): done.name for done in found}
    kinds = {type(done.act) for done in found if "replaces" in keys(type(done.act))}
    gone = {name for kind in kinds for done in job.view.of_kind(kind) for name in done.act.replaced()}
    return [done for done in found if done.name not in gone and last[_spot(done)] == done.name]


def _spot(done: Done) -> tuple[str, ...]:
    """What a later act of the same stands for: a bolt of a step; for most, nothing but itself."""
    spot = done.act.spot()
    return (done.name,) if spot is None else (done.act.kind, done.entry.step or "", *spot)


def row(job: Job, done: Done) -> str:
    """An act in words, with who recorded it and when: "photo a1.jpg (Wim, 2 Apr 09:41)"."""
    return f"{words(job, done)} ({done.entry.by}, {day_and_clock(done.entry.at)})"


def words(job: Job, done: Done) -> str:
    """An act in words, with all of it; what was closed by its name."""
    if isinstance(done.act, ClosesAct):
        return f"closed: {'; '.join(_closed(job, done.act)) or 'a condition that was not open'}"
    return done.act.whole_words()


def _closed(job: Job, act: ClosesAct) -> Iterator[str]:
    """What a closing closes, each condition once; what isn't an opening of this file by its name."""
    known = {one.done.name: (one.id, one.member) for one in openings(job.plan, job.view)}
    yield from dict.fromkeys(_condition(job, *known.get(name, (name, None))) for name in act.closes)


def _condition(job: Job, id: str, member: str | None) -> str:
    condition = job.plan.template.condition.get(id)
    return of_member(condition.text if condition else _own_text(job, id), member)


def _own_text(job: Job, id: str) -> str:
    """The text of a condition in somebody's own words, which goes by its opening's name."""
    opened = [done.act for done in job.view.of_kind(OpensAct, undone=True) if done.name == id]
    return next((act.opens for act in opened if isinstance(act, OpensAct)), id)
