"""Notes, marks and surprises: acts from what was typed, and the refusals."""

from __future__ import annotations

from jobtrack.job.acts.said import MET, MarkAct, MetAct, NoteAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused


def note(draft: Draft, text: str) -> None:
    """A note; `Draft.done` refuses one that is too long."""
    draft.add(NoteAct(text))


def private_note(draft: Draft, text: str) -> None:
    """A note that stays off the sheets."""
    draft.add(NoteAct(text, private=True))


def mark(draft: Draft, text: str) -> None:
    """Where somebody is inside the step."""
    draft.add(MarkAct(text))


def met(draft: Draft, what: str, part: str | None = None, text: str | None = None) -> None:
    """Something met on the way that endangers nobody: what, on which part, and more in words."""
    if what not in MET:
        raise Refused(f"what was met is one of {', '.join(MET)}; not {what!r}")
    draft.add(MetAct(what, part, text))
