"""What a screen asks of what it is about, at each moment of its life; here it is about nothing, and nothing is done."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.reckoner_place import ReckonerPlace
from jobtrack.template.plan import PlannedStep


class Desk:
    """What a screen's page lies on; the parts over a job do more at each of these moments."""

    def start(self) -> None:
        """The screen is there."""

    def resumed(self) -> None:
        """The screen is on top again."""

    def number(self, start: str) -> None:
        """Somebody begins to type a number where the page has no line for one."""

    def before_quitting(self, leave: Callable[[], None]) -> None:
        """End the program, perhaps with a question first."""
        leave()

    def beside_keys(self) -> str:
        """What stands at the end of the last row of keys."""
        return ""

    @property
    def here(self) -> PlannedStep | None:
        """The step that the page is about, if any."""
        return None

    def place(self) -> ReckonerPlace:
        """Where the reckoner would be opened."""
        return ReckonerPlace()
