"""The one field that text is typed in. It always has the focus, so that no key overtakes another."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import ClassVar

from rich.highlighter import Highlighter
from rich.text import Text
from textual import events
from textual.binding import BindingType
from textual.widgets import Input

from jobtrack.literal import visible

Takes = Callable[[events.Key], Awaitable[bool]]
"""Takes a key before the field does; False: it is text for the field."""


class Literal(Highlighter):
    """Shows a stand-in for each control character that was pasted into a field; the value keeps it."""

    def __call__(self, text: str | Text) -> Text:
        """The text as it is shown, on one line however long it is."""
        return Text(visible(str(text)), no_wrap=True, overflow="ignore", end="")

    def highlight(self, text: Text) -> None:
        """Nothing is coloured."""


class Field(Input, inherit_bindings=False):
    """Takes text while it is open; else hands each key on, in the order of typing.

    Keys aren't left to bubble up to the bindings of the screen: on its way through the queues of the
    widgets between, a key could be overtaken by the next one, which goes to the field at once.
    """

    BINDINGS: ClassVar[list[BindingType]] = [*Input.BINDINGS]
    """The keys that edit, without those by which an input scrolls."""

    def __init__(self, takes: Takes) -> None:
        super().__init__(highlighter=Literal(), compact=True, select_on_focus=False)
        self._takes = takes
        self.open = False
        """Whether a question for text is asked; without one the keys that edit mean something else."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """The keys that edit are the field's while it is open; Enter is never its own."""
        return self.open and action != "submit"

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Only while it is open are letters text; else they are keys of the screen."""
        return self.open and super().check_consume_key(key, character)

    async def on_key(self, event: events.Key) -> None:
        """Handled here and at once."""
        if await self._takes(event):
            event.stop()
            event.prevent_default()
