"""Several items on a page, one of them chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jobtrack.app.widgets.page import Page
from jobtrack.pages.typeset import Line, item, wrap

CHOSEN, OTHER = "▸ ", "  "
Items = Callable[[], list[list[Line]]]
"""The items as they are now, each some lines."""

PAGES = {"pageup": -1, "pagedown": 1}


def page_on(sizes: Sequence[int], chosen: int, by: int, tall: int) -> int:
    """The item a page of `tall` rows up (-1) or down (1) from the chosen one, of items of so many rows each."""
    rows = 0
    while 0 <= chosen + by < len(sizes) and (not rows or rows + sizes[chosen + by] <= tall):
        chosen += by
        rows += sizes[chosen]
    return chosen


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
        self._page.marked = self.chosen
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

    def turn(self, key: str, draw: Callable[[], None]) -> bool:
        """The marker goes along with a page, so that Enter never takes what is out of sight; whether it did.

        A long item is read to its end first.
        """
        sizes = [len(one) for one in self._entries()]
        if not sizes or (key == "pageup" and self._first(sizes) < self._page.scroll_offset.y):
            return False
        if key == "pagedown" and self._read_on(sizes):
            return True
        self.chosen = {"home": 0, "end": len(sizes) - 1}.get(key, self.chosen)
        if key in PAGES:
            self.chosen = page_on(sizes, self.chosen, PAGES[key], self._page.size.height)
        draw()
        if self.chosen == 0:
            self._page.top()
        return key != "end" or self.chosen == 0

    def _first(self, sizes: Sequence[int]) -> int:
        """The row of the page on which the marked item begins."""
        return len(self._before()) + sum(sizes[: self.chosen])

    def _read_on(self, sizes: Sequence[int]) -> bool:
        """Scroll on inside the marked item where it goes on below; whether it did."""
        last = self._first(sizes) + sizes[self.chosen] - 1
        top, tall = self._page.scroll_offset.y, self._page.size.height
        if last < top + tall or top >= self._page.max_scroll_y:
            return False
        self._page.scrolled()
        self._page.scroll_to(y=min(top + tall, last), animate=False, force=True)
        return True

    def marked(self, number: int, text: str, width: int) -> list[Line]:
        """An item's text with the marker in front where it is the chosen one."""
        mine = number == self.chosen
        return wrap(f"{CHOSEN if mine else OTHER}{text}", width, "strong" if mine else "", 4)
