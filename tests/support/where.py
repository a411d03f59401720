"""Where typing goes, as it is painted: the cursor of the field, the marker of a list, or the line that is asked."""

from __future__ import annotations

from rich.segment import Segment

from jobtrack.app.main import JobApp
from jobtrack.app.parts.listing import CHOSEN
from jobtrack.app.screens.base import PageScreen
from tests.support.invented_jobs import seen


def cursors(app: JobApp) -> int:
    """Cells that are painted as the cursor of the field."""
    screen = app.screen
    assert isinstance(screen, PageScreen)
    wanted = screen.entry.field.get_component_rich_style("input--cursor")
    return sum(
        (part.style.color, part.style.bgcolor) == (wanted.color, wanted.bgcolor) and part.text != ""
        for strip in screen._compositor.render_strips()
        for part in strip
        if isinstance(part, Segment) and part.style is not None
    )


def one_place(app: JobApp) -> str:
    """The one place: "field", "question", "list" or "line"; "nowhere" on a page that is only read."""
    screen = app.screen
    assert isinstance(screen, PageScreen)
    entry, painted = screen.entry, seen(app)
    assert screen.focused is entry.field
    asks = entry.asking is not None
    assert cursors(app) == (1 if asks else 0), painted
    if asks:
        return "field"
    if entry.waiting is not None:
        return "question"
    markers = painted.count(CHOSEN.strip())
    assert markers <= 1, painted
    if markers:
        return "list"
    return "line" if screen.query_one("#label").display else "nowhere"
