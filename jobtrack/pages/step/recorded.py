"""What is recorded beside the answers: in a step on its page, for the job on the page of the job."""

from __future__ import annotations

from collections.abc import Iterable

from jobtrack.job.acts.entries import (
    Act,
    AddedStepAct,
    AgreedAct,
    BuyingAct,
    ClockAct,
    Entry,
    FinishedAct,
    GivenAct,
    HandoverAct,
    MarkAct,
    NoteAct,
    OpensAct,
    PlaceAct,
    ReadingAct,
    ReleasedAct,
    TakenOverAct,
    TickAct,
    UndoesAct,
    WorkedAct,
)
from jobtrack.job.state.job import Job
from jobtrack.pages.typeset import Line, wrap
from jobtrack.pages.wording import day_and_time, of_member, step_name
from jobtrack.sheets.words.acts import act_words
from jobtrack.sheets.words.readings import given_words
from jobtrack.template.plan import PlannedStep

IN_PLACE = (ReadingAct, TickAct, GivenAct, OpensAct, FinishedAct, ReleasedAct, ClockAct, UndoesAct)
"""What stands in a place of its own: table, checks, what is known, open conditions, state, hold, clock."""

OF_THE_JOB = (BuyingAct, PlaceAct, AgreedAct, WorkedAct, HandoverAct, TakenOverAct, AddedStepAct)
"""What concerns the whole job also where somebody recorded it in a step."""


def step_lines(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    """Everything recorded in a step that stands nowhere else on its page, a line an entry."""
    lines = [row for entry in job.view.counting_entries() if entry.step == planned.id
             for row in _entry(entry, _beside(entry.did), "", width)]  # fmt: skip
    return [*wrap("Recorded here:", width, "strong"), *lines] if lines else []


def job_lines(job: Job, width: int) -> list[Line]:
    """Everything recorded for the job, in a step too where it concerns the whole of it, a line an entry."""
    lines: list[Line] = []
    for entry in job.view.counting_entries():
        planned = job.steps.get(entry.step or "")
        here = [act for act in _beside(entry.did) if planned is None or isinstance(act, OF_THE_JOB)]
        where = f" in “{step_name(planned)}”" if planned is not None else _unplanned(entry.step)
        lines += _entry(entry, here, where, width)
    return [*wrap("Recorded for the job:", width, "strong"), *lines] if lines else []


def known_lines(job: Job, width: int) -> list[Line]:
    """What is known of the vehicles and of the job, and what isn't yet."""
    lines: list[Line] = []
    for name, given in job.plan.givens.items():
        found, owner = job.places.given(name), name.rpartition(".")[0]
        said = (
            (given_words(job, name) if found.value is not None else "don't know yet")
            if found.acts
            else "not yet said"
        )
        agreed = said if found.agreed else "disagreement; counts as not known until it is settled"
        lines += wrap(f"- {of_member(given.ask, owner or None)}: {agreed}", width, "", 2)
    return [*wrap("Known, or not yet:", width, "strong"), *lines] if lines else []


def _unplanned(step: str | None) -> str:
    return f" in {step}, a step that this job doesn't have" if step else ""


def _beside(did: Iterable[Act]) -> list[Act]:
    return [act for act in did if not isinstance(act, IN_PLACE)]


def _entry(entry: Entry, did: list[Act], where: str, width: int) -> list[Line]:
    """One entry: who, when, and what of it stands nowhere else."""
    if not did:
        return []
    said = "; ".join(dict.fromkeys(_whole(act) for act in did))
    return wrap(f"- {entry.by}, {day_and_time(entry.at)}{where}: {said}", width, "", 2)


def _whole(act: Act) -> str:
    """An act in words, a note with all of its text."""
    if isinstance(act, NoteAct):
        return f"note{' (private)' if act.private else ''}: {act.note}"
    return f"I am at: {act.mark}" if isinstance(act, MarkAct) else act_words(act)
