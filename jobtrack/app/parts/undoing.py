"""Taking back one's own last entry, and again the one before it."""

from __future__ import annotations

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.app.session import Told
from jobtrack.job.acts.entry import Entry
from jobtrack.job.compose import mending
from jobtrack.pages.own_keys import named
from jobtrack.sheets.answer import stays_open
from jobtrack.sheets.words.doing.acts import named_entry_words


class Undoing:
    """Undoes, and says what."""

    def __init__(self, desk: JobDesk, asks: Questions) -> None:
        self._desk = desk
        self._asks = asks

    def undo(self, step: str | None) -> None:
        """Undo one's own last entry that still counts, wherever that was; recorded at the step at hand."""
        self._asks.with_name(lambda: self._undo(step))

    def _undo(self, step: str | None) -> None:
        undone: list[Entry] = []

        def said(told: Told) -> None:
            if told.recorded:
                again = f"{named('u', 'undo')} again goes one further back."
                what = named_entry_words(self._desk.job, undone[0])
                parts = (f"Undone: {what}.", stays_open(undone[0]), told.follows)
                self._desk.tell(" ".join([*filter(None, parts), again]))

        self._desk.put(step, lambda made: undone.append(mending.undo(made)), then=said)
