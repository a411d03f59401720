"""A long list, of which only the rows in sight are drawn, each as many lines high as it is; one of them is marked."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from jobtrack.app.widgets.page import Page
from jobtrack.pages.typeset import Line, item

Count = Callable[[], int]
Row = Callable[[int, bool], list[Line]]
"""The lines of a row by its number, and whether it is the marked one."""
Drawn = Callable[[int], list[Line]]


class Window:
    """The rows in sight, and the marker, which the arrows move."""

    def __init__(self, page: Page, count: Count, row: Row) -> None:
        self._page = page
        self._count = count
        self._row = row
        self.chosen = 0
        self._top = 0
        self._tall = 0
        self._last_in_sight = 0

    def draw(self) -> None:
        """The rows in sight, the marked one among them. The screen draws it again where the page has another height."""
        self._tall = max(self._page.size.height, 1)
        count = self._count()
        self.chosen = max(0, min(self.chosen, count - 1))
        drawn = cache(self._drawn)
        self._top = max(min(self._top, self.chosen), self._first_above(self.chosen, drawn))
        if count and count - self._top < self._tall:
            self._top = min(self._top, self._first_above(count - 1, drawn))
        shown = self._from_top(count, drawn)
        self._page.marked = self.chosen
        self._page.show(shown, self.chosen)

    def _first_above(self, last: int, drawn: Drawn) -> int:
        """The first row in sight where this one is the last, whole if it fits."""
        first, high = last, len(drawn(last)) if last < self._count() else 0
        while first > 0 and high + len(drawn(first - 1)) <= self._tall:
            first -= 1
            high += len(drawn(first))
        return first

    def _from_top(self, count: int, drawn: Drawn) -> list[Line]:
        """As many rows as are in sight; of one that fits only in part as much as does."""
        found: list[Line] = []
        number = self._last_in_sight = self._top
        while number < count and len(found) < self._tall:
            found += drawn(number)
            self._last_in_sight = number if len(found) <= self._tall else max(number - 1, self._top)
            number += 1
        return found if self.chosen == number - 1 else found[: self._tall]

    def begin(self) -> None:
        """Other rows: from their top."""
        self.chosen = self._top = 0

    def move(self, by: int) -> None:
        """Mark another one; past an end the marker stays on the last."""
        self.chosen += by

    def turn(self, key: str) -> None:
        """A page on or back, or to an end: what was last in sight is first, or the other way round."""
        last = max(0, self._count() - 1)
        if key == "pagedown":
            self.chosen = self._top = min(max(self._last_in_sight, self.chosen + 1), last)
        elif key == "pageup":
            self.chosen = max(0, min(self._first_above(self._top, self._drawn), self.chosen - 1))
        else:
            self.chosen = last if key == "end" else 0

    def _drawn(self, number: int) -> list[Line]:
        return item(self._row(number, number == self.chosen), number)
