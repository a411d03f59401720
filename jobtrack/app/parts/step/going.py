"""Going from a step to another one: the one that comes next, the one beside it, one chosen from a list."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.step import asked
from jobtrack.pages.job.last_line import onward_step


class Going:
    """Finds the other step, and has it shown."""

    def __init__(self, desk: StepDesk, go: Callable[[str], None]) -> None:
        """`go` shows another step."""
        self._desk = desk
        self._go = go

    def on(self) -> None:
        """To the step that comes next."""
        at = self._desk.at
        found = onward_step(at.job, at.here)
        if found is None:
            self._desk.screen.entry.say(asked.onward(at))
        else:
            self._desk.leaving()
            self._go(found)

    def by(self, by: int) -> None:
        """So many steps on or back in their order, and round."""
        order = list(self._desk.at.job.steps)
        self._go(order[(order.index(self._desk.at.step) + by) % len(order)])

    def to(self, step: str | None) -> None:
        """To the one that was chosen from a list, if any was."""
        if step is not None:
            self._go(step)
