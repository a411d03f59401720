"""What the rows of everything else begin, by the name that the row has for it.

Each is imported when it is begun: a step is waiting to be drawn, and most need none of them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.questions import Questions


class Seldom:
    """Begins one of them, with who is there known."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._desk = desk
        self._asks = asks
        self.ways: Mapping[str, Callable[[], None]] = {
            "agreed": self._agreed, "hours": self._hours, "before": lambda: self._step(before=True),
            "after": lambda: self._step(before=False), "due": self._due, "tool": self._tool, "swap": self._swap,
            "paper": self._paper,
        }  # fmt: skip
        """By the name in the row."""

    def begin(self, what: str) -> None:
        """Begin one."""
        self._asks.with_name(self.ways[what])

    def _agreed(self) -> None:
        from jobtrack.app.parts.seldom.agreed import Agreed

        Agreed(self._desk).begin()

    def _hours(self) -> None:
        from jobtrack.app.parts.seldom.hours import Hours

        Hours(self._desk).begin()

    def _step(self, before: bool) -> None:
        from jobtrack.app.parts.seldom.added_step import AddedStep

        added = AddedStep(self._desk, self._desk.here)
        added.before() if before else added.after()

    def _due(self) -> None:
        from jobtrack.app.parts.seldom.due import DueDone

        DueDone(self._desk, self._asks).begin()

    def _tool(self) -> None:
        from jobtrack.app.parts.keeping import Keeping

        Keeping(self._desk, self._asks, self._desk.here.id).tool()

    def _swap(self) -> None:
        from jobtrack.app.parts.seldom.swapping import Swapping

        Swapping(self._desk, self._asks).begin()

    def _paper(self) -> None:
        from jobtrack.app.parts.seldom.on_paper import OnPaper

        OnPaper(self._desk).begin()
