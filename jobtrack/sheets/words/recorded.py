"""What was recorded besides values, checks and holds: under its step, or for the job as a whole.

An undone act doesn't count, nor one that a later act of its place replaces; of a bolt the last stage stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.job.acts.entries import (
    Act,
    AddedStepAct,
    AgreedAct,
    BuyingAct,
    ClosesAct,
    DueDoneAct,
    FinishedAct,
    HandoverAct,
    JobClosedAct,
    JobStoppedAct,
    MarkAct,
    MetAct,
    NoteAct,
    NotNeededAct,
    OpensAct,
    PartAct,
    PhotoAct,
    PlaceAct,
    SetAsideAct,
    StandsAct,
    SwappedAct,
    TakenInAct,
    TakenOverAct,
    TorqueAct,
    WeldAct,
    WorkedAct,
)
from jobtrack.job.state.conditions import of_member, openings
from jobtrack.job.state.history import Done, replaced_by
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.acts import act_words
from jobtrack.sheets.words.sentences import day_and_clock

OF_STEP: tuple[type[Act], ...] = (
    FinishedAct,
    NotNeededAct,
    StandsAct,
    AddedStepAct,
    SwappedAct,
    ClosesAct,
    TorqueAct,
    WeldAct,
    PartAct,
    PlaceAct,
    PhotoAct,
    MetAct,
    MarkAct,
    NoteAct,
)
"""What stands under the step in which it was recorded; under the job where that was in none."""
OF_JOB: tuple[type[Act], ...] = (
    BuyingAct,
    AgreedAct,
    WorkedAct,
    HandoverAct,
    TakenOverAct,
    DueDoneAct,
    TakenInAct,
    SetAsideAct,
    JobClosedAct,
    JobStoppedAct,
)
"""What is about the job as a whole, wherever it was recorded."""


def in_step(job: Job, step: str) -> list[Done]:
    """What was recorded in a step, in order."""
    return _standing(job, (done for done in job.view.in_step(step) if isinstance(done.act, OF_STEP)))


def of_job(job: Job) -> list[Done]:
    """What was recorded for the job as a whole, in order; and in a step that isn't there any more."""
    found = [done for kind in OF_JOB for done in job.view.of_kind(kind)]
    found += [done for kind in OF_STEP for done in job.view.of_kind(kind) if done.entry.step not in job.steps]
    return _standing(job, sorted(found, key=lambda done: done.order))


def _standing(job: Job, acts: Iterable[Done]) -> list[Done]:
    """Without what was replaced: a place, a state of buying, an earlier stage of the same bolt."""
    found = list(acts)
    last = {_bolt(done): done.name for done in found if isinstance(done.act, TorqueAct)}
    kinds = {type(done.act) for done in found} & {BuyingAct, PlaceAct}
    gone = {name for kind in kinds for done in job.view.of_kind(kind) for name in replaced_by(done.act)}
    return [done for done in found if done.name not in gone and last.get(_bolt(done), done.name) == done.name]


def _bolt(done: Done) -> tuple[str, str, str] | None:
    """Which bolt of which step an act tightens; None: none."""
    act = done.act
    return (done.entry.step or "", act.torque, act.member or "") if isinstance(act, TorqueAct) else None


def row(job: Job, done: Done) -> str:
    """An act in words, with who recorded it and when: "photo a1.jpg (Wim, 2 Apr 09:41)"."""
    return f"{words(job, done)} ({done.entry.by}, {day_and_clock(done.entry.at)})"


def words(job: Job, done: Done) -> str:
    """An act in words, a note whole, what was closed by its name."""
    match done.act:
        case NoteAct():
            return f"{'private note' if done.act.private else 'note'}: {done.act.note}"
        case ClosesAct():
            return f"closed: {'; '.join(_closed(job, done.act)) or 'a condition that was not open'}"
        case StandsAct():
            because = f": {done.act.because}" if done.act.because else ""
            return f"looked at again, {', '.join(done.act.stands)} stands{because}"
        case _:
            return act_words(done.act)


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
