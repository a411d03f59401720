"""A rehearsal as it is being taken: a template walked on an invented job, with nothing of it on the disk."""

from __future__ import annotations

from pathlib import Path

from jobtrack.app.disk.open_job import Found, first_look
from jobtrack.app.session import Session
from jobtrack.pages.wording import counted
from jobtrack.store.file.beginning import rehearse
from jobtrack.store.file.rehearsed import Rehearsed
from jobtrack.template.proofread import remarks_of

REHEARSER = "whoever rehearses"
"""In whose name entries are where nobody is known to be there: nobody is asked."""
SAID = "Rehearsal: nothing is recorded on the disk."
OVER = "The rehearsal is over; nothing of it was recorded."


class Rehearsal:
    """Says in every sight that it is one; who was there before is there again when it is left."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._by = session.by
        session.by = session.by or REHEARSER

    def did(self, action: str) -> None:
        """No key means anything else than in a job."""

    def look(self, at_step: bool, busy: bool) -> str:
        """The row above the keys; where Escape ends it, that too."""
        return f"{SAID} Escape ends it." if at_step and not busy else SAID

    def over(self) -> str:
        """Put back who is there."""
        self._session.by = self._by
        return OVER


def rehearsed(template: Path) -> tuple[Rehearsed, Found, int]:
    """The invented job, and how many remarks there are on its template. Raises TemplateError where it has mistakes."""
    remarks = remarks_of(template)
    file = rehearse(template, REHEARSER)
    return file, first_look(file), len(remarks)


def begun_words(title: str, remarks: int) -> str:
    """What the first step says: what is rehearsed, and that something is remarked on."""
    found = (
        f" {counted(remarks, 'remark')} on the template: `jobtrack proofread` lists them." if remarks else ""
    )
    return f"{title}. An invented job: try whatever you like.{found}"
