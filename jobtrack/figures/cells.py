"""A drawing in the cells of a terminal: braille dots, or plain ASCII, with its texts beside the lines.

A cell is taken as twice as high as wide, so that dots are square and a circle is round.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from jobtrack.figures.checked import refuse, spelt_out
from jobtrack.figures.drawing import Dimension, Drawing, Label, Point
from jobtrack.figures.fitting import fitted
from jobtrack.figures.placing import Cell, Sheet, Text
from jobtrack.figures.raster import Frame, dots, nearest

TOO_SMALL = "The picture needs more room: make the window larger."
"""Said instead of a picture that would lack one of its texts."""

MARGINS = ((0, 0), (4, 0), (0, 1), (8, 1), (12, 1), (12, 2), (16, 2), (20, 3))
"""Columns and rows left free round the lines for texts; the best picture of these is taken."""

IN_THE_KEY, MOVED = 0.75, 0.9
"""A text in the key counts as much as a picture smaller by this factor, one on another side as this."""


@dataclass(frozen=True, slots=True)
class Ink:
    """Dots across and down a cell, and the first of the characters that show their patterns."""

    across: int
    down: int

    def bit(self, x: int, y: int) -> int:
        """The dot's share of its cell's pattern."""
        return 1 << (y % self.down) * self.across + x % self.across

    def character(self, pattern: int) -> str:
        """The character that shows the pattern."""
        if self.across == 1:
            return " '.:"[pattern]
        order = (0, 3, 1, 4, 2, 5, 6, 7)
        return chr(0x2800 + sum(1 << order[bit] for bit in range(8) if pattern >> bit & 1))


BRAILLE, PLAIN = Ink(2, 4), Ink(1, 2)


def in_cells(drawing: Drawing, columns: int, rows: int, *, plain: bool = False) -> list[str]:
    """At most `rows` lines of at most `columns` characters: caption, picture, key.

    A text without room beside what it names stands as "(1)" there and in a key under the picture. Where not
    every text finds a place, TOO_SMALL stands alone. `plain` draws with ASCII. Raises FigureError on numbers
    that aren't finite, radii below 0, and texts that aren't one row of narrow characters.
    """
    if columns < 1 or rows < 1:
        return []
    refuse(drawing)
    drawn = spelt_out(drawing) if plain else drawing
    caption = textwrap.wrap(drawn.caption, columns)
    if not drawn.shapes:
        return caption[:rows]
    page = _best(drawn, columns, rows - len(caption), PLAIN if plain else BRAILLE)
    if page is None:
        return textwrap.wrap(TOO_SMALL, columns)[:rows]
    return [*caption, *page.lines]


@dataclass(frozen=True, slots=True)
class _Page:
    lines: list[str]
    worth: float
    """The scale, less for each text that isn't where it was wanted."""


def _best(drawing: Drawing, columns: int, rows: int, ink: Ink) -> _Page | None:
    best: _Page | None = None
    for margin in MARGINS:
        hoped = _fitted(drawing, columns, rows, ink, margin).scale
        if best is None or hoped > best.worth:
            page = _with_key(drawing, columns, rows, ink, margin)
            best = max((each for each in (best, page) if each), key=lambda each: each.worth, default=None)
    return best


def _with_key(drawing: Drawing, columns: int, rows: int, ink: Ink, margin: tuple[int, int]) -> _Page | None:
    """The picture with as many rows kept for the key as it needs; None where there is no room."""
    kept = 0
    while rows - kept - 2 * margin[1] >= 1 and columns - 2 * margin[0] >= 1:
        sheet = Sheet(columns, rows - kept)
        frame = _fitted(drawing, columns, rows - kept, ink, margin)
        keyed = _draw(sheet, drawing, frame, ink)
        key = _key(keyed, columns)
        if key is None:
            return None
        if len(key) <= kept:
            worth = frame.scale * IN_THE_KEY ** len(keyed) * MOVED**sheet.moved
            return _Page(_trimmed(sheet, ink) + key, worth)
        kept = len(key)
    return None


def _fitted(drawing: Drawing, columns: int, rows: int, ink: Ink, margin: tuple[int, int]) -> Frame:
    """The largest scale that leaves the margins; the picture stands in the middle."""
    free = margin[0] * ink.across, margin[1] * ink.down
    return fitted(drawing, columns * ink.across - 1, rows * ink.down - 1, free)


def _draw(sheet: Sheet, drawing: Drawing, frame: Frame, ink: Ink) -> list[str]:
    """Ink, then texts; what found no place, and so wants the key."""
    for number, shape in enumerate(drawing.shapes):
        for x, y in dots(shape, frame):
            cell = x // ink.across, y // ink.down
            if 0 <= cell[0] < sheet.columns and 0 <= cell[1] < sheet.rows:
                sheet.ink[cell] = sheet.ink.get(cell, 0) | ink.bit(x, y)
                sheet.owners.setdefault(cell, set()).add(number)
    homeless = [text for text in _texts(drawing, frame, ink) if not sheet.place(text)]
    for number, text in enumerate(homeless, 1):
        sheet.place(Text(f"({number})", text.at, "middle", text.shape, mark_over_ink=True))
    return [text.text.strip() for text in homeless]


def _texts(drawing: Drawing, frame: Frame, ink: Ink) -> Iterator[Text]:
    for number, shape in enumerate(drawing.shapes):
        if isinstance(shape, Label):
            yield Text(shape.text, _cell(frame.on_grid(shape.at), ink), shape.side, number)
        elif isinstance(shape, Dimension):
            middle = (shape.start[0] / 2 + shape.end[0] / 2, shape.start[1] / 2 + shape.end[1] / 2)
            yield Text(f" {shape.text} ", _cell(frame.on_grid(middle), ink), "middle", number)


def _cell(dot: Point, ink: Ink) -> Cell:
    return nearest(dot[0]) // ink.across, nearest(dot[1]) // ink.down


def _key(texts: list[str], columns: int) -> list[str] | None:
    """Rows of the key, several texts a row; None where a text is longer than a row."""
    lines: list[str] = []
    for number, text in enumerate(texts, 1):
        item = f"({number}) {text}"
        if len(item) > columns:
            return None
        if lines and len(lines[-1]) + 3 + len(item) <= columns:
            lines[-1] += f"   {item}"
        else:
            lines.append(item)
    return lines


def _trimmed(sheet: Sheet, ink: Ink) -> list[str]:
    """The rows as text, without empty ones above and below."""
    used = [row for _, row in (*sheet.ink, *sheet.written)]
    return [_row(sheet, ink, row) for row in range(min(used), max(used) + 1)] if used else []


def _row(sheet: Sheet, ink: Ink, row: int) -> str:
    cells = ((column, row) for column in range(sheet.columns))
    shown = (sheet.written.get(cell) or _inked(sheet, ink, cell) for cell in cells)
    return "".join(shown).rstrip()


def _inked(sheet: Sheet, ink: Ink, cell: Cell) -> str:
    return ink.character(sheet.ink[cell]) if cell in sheet.ink else " "
