"""A sheet in rows of plain text: for a printer of text, and, with a look for each row, for the pages of the app."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from msgspec import Struct

from jobtrack.figures.cells import in_cells
from jobtrack.figures.drawing import Drawing, FigureError
from jobtrack.sheets.paper.blocks import (
    Blank,
    Block,
    Box,
    Cut,
    Inline,
    Lines,
    Look,
    Message,
    Named,
    Paragraph,
    Photo,
    Picture,
    Point,
    Points,
    Section,
    Sheet,
    Shout,
    Strong,
    Table,
    Text,
)
from jobtrack.sheets.paper.rows import cells, rows
from jobtrack.sheets.paper.ruled import ruled
from jobtrack.sheets.words.hazards import hazard_message

COLUMNS = 80
STANDING_OUT: tuple[Look, ...] = ("large", "strong")
WIDEST, HIGHEST = 100, 24
"""Columns and rows that a drawing takes at most: a larger one is no easier to read."""


class Row(Struct, frozen=True):
    """One row of a sheet."""

    text: str = ""
    look: str = ""
    """"", strong, small, or a signal word, which is then the look of the row's first word alone."""


def text(sheet: Sheet) -> str:
    """The sheet in 80 columns, ASCII but for what was typed and for units."""
    found = (one.text.rstrip() for one in sheet_rows(sheet, COLUMNS, plain=True))
    return "\n".join(found) + "\n"


def sheet_rows(sheet: Sheet, width: int, *, plain: bool = False) -> list[Row]:
    """The sheet in rows of at most `width` cells; `plain` draws with ASCII."""
    head = [*_wrapped(sheet.title, width, "strong"), *([Row("=" * width)] if plain else [])]
    found = [*head, *(row for one in sheet.head for row in _wrapped(as_words(one), width))]
    for one in sheet.sections:
        found += [Row(), *_section(one, width, plain)]
    if sheet.foot:
        found += [Row(), *(row for one in sheet.foot for row in _wrapped(one, width, "small"))]
    return found


def _section(one: Section, width: int, plain: bool) -> Iterator[Row]:
    head = _wrapped(one.title, width, "strong")
    yield from head
    if plain:
        yield Row("-" * max(cells(row.text) for row in head))
    for number, block in enumerate(one.blocks):
        if number and not _close(one.blocks[number - 1], block):
            yield Row()
        yield from block_rows(block, width, plain)
    for inner in one.sections:
        yield Row()
        yield from _section(inner, width, plain)


def _close(before: Block, after: Block) -> bool:
    """Whether two blocks follow each other without a row between them."""
    return isinstance(before, Paragraph | Points) and isinstance(after, Paragraph | Points)


def block_rows(block: Block, width: int, plain: bool) -> list[Row]:
    """The rows of one block."""
    if isinstance(block, Picture):
        return _picture(block, width, plain)
    return list(WRITTEN[type(block)](block, width))


def as_words(text: Text) -> str:
    """A row of words as one string, squares and frames drawn with signs."""
    return text if isinstance(text, str) else "".join(map(_inline, text))


def _inline(one: Inline) -> str:
    match one:
        case Strong(words):
            return words
        case Box(words):
            return f"[ ] {words}".rstrip()
        case Blank(words, letters):
            return f"{'_' * letters} {words}".rstrip()
        case _:
            return one


def _wrapped(text: str, width: int, look: str = "", begin: str = "") -> list[Row]:
    """A text in rows, set in behind what it begins with."""
    indent = " " * cells(begin)
    found = rows(text, width - len(indent))
    return [Row(f"{indent if number else begin}{row}", look) for number, row in enumerate(found)]


def _paragraph(one: Paragraph, width: int) -> list[Row]:
    return _wrapped(as_words(one.text), width, _in_rows(one.look))


def _in_rows(look: Look) -> str:
    """A look where all letters are as large as each other."""
    return "strong" if look in STANDING_OUT else look


def _points(one: Points, width: int) -> list[Row]:
    return [row for each in one.points for row in _point(each, width, "", _in_rows(one.look))]


def _point(one: Point, width: int, indent: str, look: str = "") -> Iterator[Row]:
    """A point and what is under it; the look is its own alone."""
    yield from _wrapped(as_words(one.text), width, look, f"{indent}- ")
    for each in one.under:
        yield from _point(each, width, f"{indent}  ")


def _table(one: Table, width: int) -> list[Row]:
    found = ruled(one.head, [tuple(map(as_words, row)) for row in one.rows], width)
    return [Row(text, look) for text, look in found]


def _named(one: Named, width: int) -> list[Row]:
    return [row for name, text in one.rows for row in _wrapped(f"{name}: {as_words(text)}", width)]


def _message(one: Message, width: int) -> list[Row]:
    first, *more = _wrapped(hazard_message(one), width, "", f"{one.signal}: ")
    return [Row(first.text, one.signal), *more]


def _picture(one: Picture, width: int, plain: bool) -> list[Row]:
    drawn = [Row(row) for row in drawn_rows(one.drawing, width, plain)]
    note = _wrapped(one.note, width) if one.note else []
    return [*_wrapped(one.title, width, "strong"), *drawn, *note]


def drawn_rows(drawing: Drawing, width: int, plain: bool) -> list[str]:
    """A drawing in the cells of a terminal, or one line that says why it can't be drawn."""
    try:
        return in_cells(drawing, min(width, WIDEST), HIGHEST, plain=plain)
    except FigureError as error:  # a template's unit may be any text
        return rows(f"Can't be drawn: {error}.", width)


def _photo(one: Photo, width: int) -> list[Row]:
    return _wrapped(f"Photo: {one.title}", width)


def _shout(one: Shout, width: int) -> list[Row]:
    rule = Row("=" * min(width, 40))
    under = [row for each in one.under for row in _wrapped(each, width)]
    return [rule, *_wrapped(one.words, width, "strong"), rule, *under]


def _lines(one: Lines, width: int) -> list[Row]:
    return [*_wrapped(one.ask, width), *(row for _ in range(one.rows) for row in (Row(), Row("_" * width)))]


def _cut(one: Cut, width: int) -> list[Row]:
    return [Row(("- " * width)[: width - 1]), *_wrapped(cut_words(one), width, "small")]


def cut_words(one: Cut) -> str:
    """What stands at the line along which the paper is cut."""
    return f"cut here: {one.text}" if one.text else "cut here"


WRITTEN: dict[type, Callable[[Any, int], Sequence[Row]]] = {
    Paragraph: _paragraph, Points: _points, Table: _table, Named: _named, Message: _message, Photo: _photo,
    Shout: _shout, Lines: _lines, Cut: _cut,
}  # fmt: skip
