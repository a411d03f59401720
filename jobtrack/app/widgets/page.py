"""The one column that scrolls: lines, some of them an item's, one item chosen."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.geometry import Region
from textual.widgets import Static

from jobtrack.app.literal import content
from jobtrack.app.paper import Line


class Page(VerticalScroll, can_focus=False):
    """A page of lines. What is shown has been broken to the width already."""

    def compose(self) -> ComposeResult:
        yield Static(markup=False)

    @property
    def room(self) -> int:
        """Cells that a line may take."""
        return max(self.app.size.width - 4, 20)

    def show(self, lines: Sequence[Line], chosen: int | None = None) -> None:
        """Show these lines, and scroll as far as the chosen item needs."""
        self.query_one(Static).update(content(lines))
        rows = [row for row, one in enumerate(lines) if one.of is not None and one.of == chosen]
        if rows:
            self.call_after_refresh(self._reveal, rows[0], len(rows))

    def _reveal(self, first: int, height: int) -> None:
        self.scroll_to_region(Region(0, first, 1, height), animate=False, force=True)

    def top(self) -> None:
        """Scroll to the beginning."""
        self.scroll_home(animate=False)
