"""Which acts mean that somebody has begun on a step."""

from __future__ import annotations

from jobtrack.job.acts.entries import (
    Act,
    ClosesAct,
    DueDoneAct,
    GivenAct,
    HandoverAct,
    JobClosedAct,
    JobStoppedAct,
    NoteAct,
    NotNeededAct,
    PhotoAct,
    SetAsideAct,
    StandsAct,
    TakenInAct,
    TakenOverAct,
    UndoesAct,
    UnknownAct,
)

NO_WORK = (
    NoteAct,
    PhotoAct,
    GivenAct,
    NotNeededAct,
    StandsAct,
    UndoesAct,
    ClosesAct,
    HandoverAct,
    TakenOverAct,
    DueDoneAct,
    JobClosedAct,
    JobStoppedAct,
    TakenInAct,
    SetAsideAct,
    UnknownAct,
)
"""Words, photos and givens, and what is said about the record itself."""


def is_work(act: Act) -> bool:
    """Whether an act puts its step *in hand*."""
    return not isinstance(act, NO_WORK)
