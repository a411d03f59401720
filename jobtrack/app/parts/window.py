"""A long list of one-line rows, of which only those in sight are drawn; one of them is marked."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from jobtrack.app.parts.listing import PAGES
from jobtrack.app.widgets.page import Page
from jobtrack.pages.typeset import Line

Count = Callable[[], int]
Row = Callable[[int, bool], Line]
"""A row by its number, and whether it is the marked one."""


class Window:
    """The rows in sight, and the marker, which the arrows move."""

    def __init__(self, page: Page, count: Count, row: Row) -> None:
        self._page = page
        self._count = count
        self._row = row
        self.chosen = 0
        self._top = 0
        self._tall = 0

    def draw(self) -> None:
        """The rows in sight, the marked one among them. The screen draws it again where the page has another height."""
        self._tall = max(self._page.size.height, 1)
        count = self._count()
        self.chosen = max(0, min(self.chosen, count - 1))
        top = min(self._top, self.chosen, max(0, count - self._tall))
        self._top = max(self.chosen - self._tall + 1, top)
        shown = range(self._top, min(count, self._top + self._tall))
        self._page.marked = self.chosen
        self._page.show(
            [replace(self._row(number, number == self.chosen), of=number) for number in shown], self.chosen
        )

    def begin(self) -> None:
        """Other rows: from their top."""
        self.chosen = self._top = 0

    def move(self, by: int) -> None:
        """Mark another one; past an end the marker stays on the last."""
        self.chosen += by

    def turn(self, key: str) -> None:
        """A page on or back, or to an end."""
        last = max(0, self._count() - 1)
        page = self.chosen + PAGES.get(key, 0) * max(self._tall - 1, 1)
        self.chosen = min({"home": 0, "end": last}.get(key, page), last)
