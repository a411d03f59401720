"""A page on which one of several lines is chosen: arrows and Enter, or its number."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.app.screens.base import Card, Command
from jobtrack.pages.typeset import Line, item, wrap

CHOSEN, OTHER = "▸ ", "  "


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
