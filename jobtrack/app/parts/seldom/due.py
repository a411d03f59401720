"""What was due afterwards and is done."""

from __future__ import annotations

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.job.compose import ending
from jobtrack.pages.job.outline import due_afterwards


class DueDone:
    """Chosen from the list, and recorded."""

    def __init__(self, desk: JobDesk, asks: Questions) -> None:
        self._desk = desk
        self._asks = asks

    def begin(self) -> None:
        """Choose which."""
        screen, names = self._desk.screen, list(self._desk.job.plan.template.due_afterwards)
        if not names:
            screen.entry.say("Nothing is due afterwards in this job; Enter goes on where you were.")
            return

        def chosen(number: int) -> None:
            self._asks.with_name(lambda: self._done(names[number]))

        screen.app.opening.choose("What is done?", due_afterwards(self._desk.job), chosen)

    def _done(self, name: str) -> None:
        self._desk.put(None, lambda made: ending.due_done(made, name))
