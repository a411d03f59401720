"""What a mouse or a finger does on any screen: it presses a key by its words, chooses a line, turns the page."""

from __future__ import annotations

from typing import Any

from textual import events, on
from textual.keys import key_to_character
from textual.screen import Screen

from jobtrack.app.widgets.entry import EntryLine
from jobtrack.app.widgets.key_row import KeyRow
from jobtrack.app.widgets.page import Page

WHEEL_ROWS = 3
"""Rows that one notch of a wheel turns."""


class PressedScreen(Screen[Any], inherit_bindings=False):
    """A page with its entry line; whatever is pressed goes the way that a key goes, with all that guards it."""

    def __init__(self, page: Page, entry: EntryLine) -> None:
        super().__init__()
        self.page = page
        self.entry = entry

    async def take_key(self, event: events.Key) -> bool:
        """Do what a key means here; False where it is text."""
        raise NotImplementedError

    @on(KeyRow.Pressed)
    async def _key_pressed(self, event: KeyRow.Pressed) -> None:
        """A key pressed by its words is the key, with all that guards it."""
        named = (name for name in self.active_bindings if key_to_character(name) == event.key)
        key = event.key.lower() if len(event.key) > 1 else next(named, event.key)
        pressed = events.Key(key, event.key if len(event.key) == 1 else None)
        pressed.time = event.pressed
        await self.take_key(pressed)

    @on(Page.Pressed)
    async def _line_pressed(self, event: Page.Pressed) -> None:
        await self.choose_line(event.number)

    async def choose_line(self, number: int) -> None:
        """Choose a line, as the arrows would; where something is typed or asked, that comes first."""
        if self.page.marked is not None and self.entry.waiting is None:
            await self.run_action(f"mark({number - self.page.marked})")

    @on(Page.Wheeled)
    async def _wheeled(self, event: Page.Wheeled) -> None:
        """On a list the marker goes along, so that Enter never takes what is out of sight."""
        if self.page.marked is None:
            self.wheel(event.by)
        elif self.entry.waiting is None:
            await self.run_action(f"mark({event.by})")

    def wheel(self, by: int) -> None:
        """Scroll by the wheel."""
        self.page.scrolled()
        self.page.scroll_relative(y=by * WHEEL_ROWS, animate=False, force=True)
