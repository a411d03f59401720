"""The one column that scrolls: lines, some of them an item's, one item chosen."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.message import Message
from textual.widgets import Static

from jobtrack.app.looks.content import content
from jobtrack.pages.typeset import Line


class Page(VerticalScroll, can_focus=False):
    """A page of lines. What is shown has been broken to the width already."""

    class Resized(Message):
        """The page has another height: what fits on it may be something else."""

    class Pressed(Message):
        """A line of an item was pressed with a mouse or a finger."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number
            """The item's."""

    class Wheeled(Message):
        """A wheel was turned over the page."""

        def __init__(self, by: int) -> None:
            super().__init__()
            self.by = by
            """Up (-1) or down (1)."""

    marked: int | None = None
    """The item with the marker of a list, which the arrows move."""
    items: tuple[int | None, ...] = ()
    """The item of each row."""
    _chosen: tuple[int, int] | None = None
    """The first and last row of the item that stays in sight."""

    def compose(self) -> ComposeResult:
        """One widget holds all lines: a page is drawn in one piece."""
        yield Static(markup=False)

    @property
    def room(self) -> int:
        """Cells that a line may take."""
        return max(self.app.size.width - 4, 20)

    def show(self, lines: Sequence[Line], chosen: int | None = None) -> None:
        """Show these lines, and scroll as far as the chosen item needs."""
        self.query_one(Static).update(content(lines))
        self.items = tuple(one.of for one in lines)
        rows = [row for row, one in enumerate(lines) if one.of is not None and one.of == chosen]
        self._chosen = (rows[0], rows[-1]) if rows else None
        self.call_after_refresh(self._reveal)

    def on_resize(self) -> None:
        """The lines below may have taken room or given some: the chosen item stays in sight."""
        self.post_message(self.Resized())
        self.call_after_refresh(self._reveal)

    def _reveal(self) -> None:
        """The chosen item at the bottom, as much above it as fits; where that is doesn't depend on what was before."""
        if self._chosen is not None:
            first, last = self._chosen
            self.scroll_to(y=min(first, max(0, last + 1 - self.size.height)), animate=False, force=True)

    def scrolled(self) -> None:
        """Somebody has scrolled by hand: stay there."""
        self._chosen = None

    def on_click(self, event: events.Click) -> None:
        """A line is chosen by pressing it."""
        row = event.screen_y - self.content_region.y + self.scroll_offset.y
        number = self.items[row] if 0 <= row < len(self.items) else None
        if number is not None:
            self.post_message(self.Pressed(number))

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel turns the page as the screen says, not as a widget would by itself."""
        event.prevent_default()
        self.post_message(self.Wheeled(1))

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """As down."""
        event.prevent_default()
        self.post_message(self.Wheeled(-1))

    @property
    def at_end(self) -> bool:
        """Whether the last line is in sight."""
        return self.scroll_offset.y >= self.max_scroll_y

    def top(self) -> None:
        """Scroll to the beginning."""
        self.scrolled()
        self.scroll_home(animate=False)
