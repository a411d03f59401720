"""A page on which one of several lines is chosen: arrows and Enter, or its number."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.app.paper import Line, item, wrap
from jobtrack.app.screens.card import Card, Command

CHOSEN, OTHER = "▸ ", "  "


PAGES = {"pageup": -1, "pagedown": 1}


def page_on(sizes: Sequence[int], chosen: int, by: int, tall: int) -> int:
    """The item a page of `tall` rows up (-1) or down (1) from the chosen one, of items of so many rows each."""
    rows = 0
    while 0 <= chosen + by < len(sizes) and (not rows or rows + sizes[chosen + by] <= tall):
        chosen += by
        rows += sizes[chosen]
    return chosen


class Listing(Card):
    """A page of items one of which is chosen."""

    chosen = 0

    def entries(self) -> list[list[Line]]:
        """The items, each some lines; subclasses say which."""
        return []

    def before(self) -> list[Line]:
        """What stands above the items."""
        return []

    def draw_items(self) -> None:
        """The items with their marker, the chosen one in sight."""
        entries = self.entries()
        inside = max(0, min(self.chosen, len(entries) - 1))
        if inside != self.chosen:  # past an end: the marker stays on the last one
            self.chosen = inside
            entries = self.entries()
        lines = self.before()
        for number, entry in enumerate(entries):
            lines += item(entry, number)
        self.page.show(lines, self.chosen if self.chosen or not self.before() else None)

    def up(self) -> None:
        """Choose the one above."""
        self.chosen -= 1
        self.draw()
        self.page.top() if self.chosen <= 0 else None

    def down(self) -> None:
        """Choose the one below."""
        self.chosen += 1
        self.draw()

    def _scroll(self, key: str) -> None:
        """The marker goes along, so that Enter never takes what is out of sight; a long item is read to its end."""
        sizes = [len(one) for one in self.entries()]
        if not sizes or (key == "pageup" and self._first(sizes) < self.page.scroll_offset.y):
            super()._scroll(key)
            return
        if key == "pagedown" and self._read_on(sizes):
            return
        self.chosen = {"home": 0, "end": len(sizes) - 1}.get(key, self.chosen)
        if key in PAGES:
            self.chosen = page_on(sizes, self.chosen, PAGES[key], self.page.size.height)
        self.draw()
        if self.chosen == 0:
            self.page.top()
        elif key == "end":
            super()._scroll(key)

    def _first(self, sizes: Sequence[int]) -> int:
        """The row of the page on which the marked item begins."""
        return len(self.before()) + sum(sizes[: self.chosen])

    def _read_on(self, sizes: Sequence[int]) -> bool:
        """Scroll on inside the marked item where it goes on below; whether it did."""
        last = self._first(sizes) + sizes[self.chosen] - 1
        top, tall = self.page.scroll_offset.y, self.page.size.height
        if last < top + tall or top >= self.page.max_scroll_y:
            return False
        self.page.scrolled()
        self.page.scroll_to(y=min(top + tall, last), animate=False, force=True)
        return True

    def marked(self, number: int, text: str, width: int) -> list[Line]:
        """An item's text with the marker in front where it is the chosen one."""
        mine = number == self.chosen
        return wrap(f"{CHOSEN if mine else OTHER}{text}", width, "strong" if mine else "", 4)


ARROWS = (
    Command("Up", "", "up", "Choose the one above.", shown=False),
    Command("Down", "", "down", "Choose the one below.", shown=False),
)


class ChooseScreen(Listing):
    """One of several texts; the answer is its number, or None."""

    COMMANDS_HERE = (
        Command("Enter", "choose", "choose", "Choose the marked one."),
        Command("Escape", "back", "back", "Back, with nothing chosen."),
        *ARROWS,
        Command("?", "all keys", "keys", "This page."),
    )

    def __init__(self, title: str, texts: Sequence[str]) -> None:
        super().__init__()
        self.title_text = title
        self.texts = list(texts)

    def entries(self) -> list[list[Line]]:
        return [self.marked(number, text, self.room - 2) for number, text in enumerate(self.texts)]

    def draw(self) -> None:
        """The question and its answers."""
        self.show_part("head", [*wrap(self.title_text, self.room, "strong")])
        self.draw_items()
        self.show_part("last", [])
        self.show_keys()

    def choose(self) -> None:
        """Give back the number of the marked one."""
        self.dismiss(self.chosen if self.texts else None)

    def back(self) -> None:
        """Give back nothing."""
        self.dismiss(None)
