"""The one way by which a line of a page becomes content of a widget: no markup, no control character."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from jobtrack.app.looks.theme import STYLES
from jobtrack.literal import visible
from jobtrack.pages.typeset import Line


def content(lines: Sequence[Line]) -> Content:
    """The lines as one content, people's text in it literal."""
    return Content("\n").join(_row(one) for one in lines)


def _row(one: Line) -> Content:
    return Content.assemble(*((visible(span.text), STYLES.get(span.look, "")) for span in one.spans))
