"""A sheet as the app shows it: the same rows as its plain text, each in its look."""

from __future__ import annotations

from jobtrack.pages.typeset import Line, Span, line
from jobtrack.sheets.paper.blocks import Sheet
from jobtrack.sheets.paper.text import Row, sheet_rows
from jobtrack.sheets.words.hazards import WORST


def paper_lines(sheet: Sheet, width: int, *, plain: bool = False) -> list[Line]:
    """The sheet in lines of at most `width` cells; `plain` draws with ASCII."""
    return [_line(one) for one in sheet_rows(sheet, width, plain=plain)]


def _line(one: Row) -> Line:
    if one.look not in WORST:
        return line(one.text, one.look)
    return Line((Span(one.look, one.look), Span(one.text.removeprefix(one.look))))
