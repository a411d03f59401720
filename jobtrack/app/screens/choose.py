"""A page on which one of several texts is chosen: arrows and Enter."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.keys import ALL_KEYS, ARROWS, key
from jobtrack.app.parts.listing import Listing
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.typeset import Line, wrap


class ChooseScreen(PageScreen):
    """One of several texts; the answer is its number, or None."""

    HELP = (
        "One of several things is to be chosen. Mark it with the arrows and press Enter; Escape goes back "
        "with nothing chosen."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "choose", "choose", "Choose the marked one."),
        key("escape", "back", "back", "Back, with nothing chosen."),
        *ARROWS,
        ALL_KEYS,
    ]

    def __init__(self, title: str, texts: Sequence[str]) -> None:
        super().__init__()
        self.title_text = title
        self.texts = list(texts)
        self.listing = Listing(self.page, self.entries)

    def entries(self) -> list[list[Line]]:
        """A text each."""
        return [self.listing.marked(number, text, self.room - 2) for number, text in enumerate(self.texts)]

    def draw(self) -> None:
        """The question and its answers."""
        self.show_part("head", [*wrap(self.title_text, self.room, "strong")])
        self.listing.draw()
        self.show_part("last", [])
        self.show_keys()

    def action_mark(self, by: int) -> None:
        """Choose another one."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def action_choose(self) -> None:
        """Give back the number of the marked one."""
        self.dismiss(self.listing.chosen if self.texts else None)

    def action_back(self) -> None:
        """Give back nothing."""
        self.dismiss(None)
