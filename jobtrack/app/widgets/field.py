"""The one field that text is typed in. It always has the focus, so that no key overtakes another."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from rich.highlighter import Highlighter
from rich.text import Text
from textual import events
from textual.widgets import Input

from jobtrack.literal import visible

if TYPE_CHECKING:
    from jobtrack.app.screens.base import Card


class Literal(Highlighter):
    """Shows a stand-in for each control character that was pasted into a field; the value keeps it."""

    def __call__(self, text: str | Text) -> Text:
        return Text(visible(str(text)), no_wrap=True, overflow="ignore", end="")

    def highlight(self, text: Text) -> None:
        """Nothing is coloured."""


class Field(Input):
    """Takes text while a question is asked; else hands each key to its screen, in the order of typing."""

    def __init__(self) -> None:
        super().__init__(highlighter=Literal(), compact=True, select_on_focus=False)

    def on_key(self, event: events.Key) -> None:
        """Handled here and at once: a key that bubbled up could be overtaken by the next one."""
        if self.app.screen is not self.screen:
            event.stop()
            event.prevent_default()
            self.app.screen.post_message(event)
            return
        card = cast("Card", self.screen)
        if card.belongs(event.key):
            event.stop()
            event.prevent_default()
            card.press(event)
