"""What the rows of everything else begin, by the name that the row has for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.keeping import Keeping
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.seldom.added_step import AddedStep
from jobtrack.app.parts.seldom.agreed import Agreed
from jobtrack.app.parts.seldom.due import DueDone
from jobtrack.app.parts.seldom.hours import Hours
from jobtrack.app.parts.seldom.swapping import Swapping


class Seldom:
    """Begins one of them, with who is there known."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._asks = asks
        self.ways: Mapping[str, Callable[[], None]] = {
            "agreed": Agreed(desk).begin,
            "hours": Hours(desk).begin,
            "before": lambda: AddedStep(desk, desk.here).before(),
            "after": lambda: AddedStep(desk, desk.here).after(),
            "due": DueDone(desk, asks).begin,
            "tool": lambda: Keeping(desk, asks, desk.here.id).tool(),
            "swap": Swapping(desk, asks).begin,
        }
        """By the name in the row."""

    def begin(self, what: str) -> None:
        """Begin one."""
        self._asks.with_name(self.ways[what])
