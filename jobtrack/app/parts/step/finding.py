"""The index, opened from a step: what was chosen there is done here, or turned to."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events

from jobtrack.app.parts import taking_keys
from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.widgets.entry import moment
from jobtrack.pages.look_up.find import Do, Offer, Row, Turn
from jobtrack.pages.look_up.found import destination


class Finding:
    """Opens the index over a step, and does what comes back."""

    def __init__(
        self, desk: StepDesk, go: Callable[[str], None], choose: Callable[[int | None], None]
    ) -> None:
        """`go` shows another step, `choose` marks a line of the one shown."""
        self._desk = desk
        self._screen = desk.screen
        self._go = go
        self._choose = choose
        self._deaf_until = 0.0
        """Until when Enter means nothing, in the time of key events."""

    def begin(self, offers: Sequence[Offer]) -> None:
        """Open it, with what the step does."""
        self._screen.app.opening.find(self._desk.file, self._desk.at.step, offers, self._found)

    def second_tap(self, event: events.Key) -> bool:
        """Whether a key is the Enter again that has just chosen something in the index, and means nothing here."""
        return event.key == "enter" and event.time < self._deaf_until and not self._screen.entry.text

    def _found(self, row: Row | None) -> None:
        """Do what was found, or go there."""
        self._deaf_until = moment() + taking_keys.SAME_PRESS
        if row is not None and isinstance(row.to, Do):
            self._run(row.to.action)
        elif row is not None and isinstance(row.to, Turn):
            self._turn(row, row.to)

    def _turn(self, row: Row, to: Turn) -> None:
        """Show the step and mark the line; what belongs to no step has a page of its own."""
        step, number = destination(self._desk.job, to)
        if step is not None:
            self._go(step)
        if number is not None:
            self._choose(number)
        if row.what == "part":
            self._screen.app.opening.parts(self._desk.file, self._desk.at.step, to.name)
        elif step is None:
            self._run("known" if row.what == "known" else "job_page")

    def _run(self, action: str) -> None:
        self._screen.call_later(self._screen.run_action, action)
