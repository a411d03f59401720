"""Several items on a page, one of them chosen."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.widgets.page import Page
from jobtrack.pages.typeset import Line, item, wrap

CHOSEN, OTHER = "▸ ", "  "
Items = Callable[[], list[list[Line]]]
"""The items as they are now, each some lines."""


class Listing:
    """Items with a marker, which the arrows move."""

    def __init__(self, page: Page, entries: Items, before: Callable[[], list[Line]] = list) -> None:
        """`before`: what stands above the items."""
        self._page = page
        self._entries = entries
        self._before = before
        self.chosen = 0

    def draw(self) -> None:
        """The items with their marker, the chosen one in sight."""
        entries = self._entries()
        inside = max(0, min(self.chosen, len(entries) - 1))
        if inside != self.chosen:  # past an end: the marker stays on the last one
            self.chosen = inside
            entries = self._entries()
        lines = before = self._before()
        for number, entry in enumerate(entries):
            lines = lines + item(entry, number)
        self._page.show(lines, self.chosen if self.chosen or not before else None)

    def move(self, by: int, draw: Callable[[], None]) -> None:
        """Choose another one, and draw; up to the first goes to the top of the page."""
        self.chosen += by
        draw()
        if by < 0 and self.chosen <= 0:
            self._page.top()

    def marked(self, number: int, text: str, width: int) -> list[Line]:
        """An item's text with the marker in front where it is the chosen one."""
        mine = number == self.chosen
        return wrap(f"{CHOSEN if mine else OTHER}{text}", width, "strong" if mine else "", 4)
