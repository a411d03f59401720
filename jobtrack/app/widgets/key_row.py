"""A row of keys with their words, each of which can be pressed with a mouse or a finger."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.message import Message
from textual.widgets import Static

from jobtrack.app.looks.content import content
from jobtrack.pages.pressing import Place, key_at, places
from jobtrack.pages.typeset import Line

DOUBLE_TAP = 0.4
"""Seconds in which a second press is taken for the end of a double tap: by then other words may stand there."""


class KeyRow(Static):
    """Says which key a press is meant for; what the key then does isn't its business."""

    class Pressed(Message):
        """A key was pressed by its words."""

        def __init__(self, key: str, time: float) -> None:
            super().__init__()
            self.key = key
            """As it stands in the row."""
            self.pressed = time
            """When, in the time of key events."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id, markup=False)
        self._places: list[list[Place]] = []
        self._taken = 0.0
        """When the last press was taken."""

    def show(self, lines: Sequence[Line], at: Sequence[Sequence[Place]] | None = None) -> None:
        """Show these rows; `at`: where the keys of each lie, where that doesn't follow from its text."""
        self.update(content(lines))
        self.display = bool(lines)
        self._places = [list(row) for row in at] if at is not None else [places(one.plain) for one in lines]

    def on_click(self, event: events.Click) -> None:
        """The key under it, or the nearest one; the second tap of a double tap is none."""
        row, cell = event.screen_y - self.content_region.y, event.screen_x - self.content_region.x
        key = key_at(self._places[row], cell) if 0 <= row < len(self._places) else ""
        if key and event.time - self._taken >= DOUBLE_TAP:
            self._taken = event.time
            self.post_message(self.Pressed(key, event.time))
