"""Lines of a page: text in a few looks, broken to a width in terminal cells. No Textual here."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace
from rich.cells import cell_len, set_cell_size

from jobtrack.literal import visible

NARROWEST = 8
"""Cells below which nothing is broken any further."""


UNDER = {"": "underlined", "strong": "ruled"}
"""The looks of a text with a rule under it."""


class Span(Struct, frozen=True):
    """A stretch of text in one look."""

    text: str
    look: str = ""
    """"", strong, small, underlined, ruled (strong and underlined), or a signal word."""


class Line(Struct, frozen=True):
    """One row of a page. `of` is the number of the item that it belongs to, where it belongs to one."""

    spans: tuple[Span, ...] = ()
    of: int | None = None

    @property
    def plain(self) -> str:
        """The text alone, without its looks."""
        return "".join(span.text for span in self.spans)


def line(text: str = "", look: str = "", of: int | None = None) -> Line:
    """A row in one look."""
    return Line((Span(visible(text), look),) if text else (), of)


def rows(text: str, width: int) -> list[str]:
    """People's text made visible and broken at spaces into rows of at most `width` cells."""
    width = max(width, NARROWEST)
    shown = visible(text)
    indent = shown[: len(shown) - len(shown.lstrip(" "))][: width // 2]
    found: list[str] = []
    row, filled = indent, False
    for word in _words(shown, width - len(indent)):
        joined = f"{row} {word}" if filled else row + word
        if filled and cell_len(joined) > width:
            found.append(row)
            joined = word
        row, filled = joined, True
    return [*found, row]


def _words(text: str, width: int) -> Iterator[str]:
    for word in text.split(" "):
        while cell_len(word) > width:
            part = _fitting(word, width)
            yield part
            word = word[len(part) :]
        if word:
            yield word


def _fitting(word: str, width: int) -> str:
    length = min(len(word), width)
    while length > 1 and cell_len(word[:length]) > width:
        length -= 1
    return word[:length]


def under(one: Line, width: int) -> Line:
    """A line with a rule under the whole of its width."""
    gap = Span(" " * max(width - cell_len(one.plain), 0))
    return Line(tuple(Span(span.text, UNDER.get(span.look, span.look)) for span in (*one.spans, gap)), one.of)


def rule_with(text: str, width: int) -> list[Line]:
    """A rule across the page with words in it; what doesn't fit into its row stands in rows below."""
    first, *more = rows(text, width - 6) if text else [""]
    head = f"── {first} " if first else "─"
    dashes = "" if more else "─" * (width - cell_len(head))
    return [line(head + dashes, "strong"), *(line(f"   {row}", "strong") for row in more)]


def wrap(text: str, width: int, look: str = "", hang: int = 0, of: int | None = None) -> list[Line]:
    """A text broken to `width`, its further rows set in by `hang`."""
    first, *more = rows(text, width)
    rest = rows(" ".join(more), width - hang) if more else []
    return [line(first, look, of), *(line(" " * hang + row, look, of) for row in rest)]


def shortened(text: str, width: int) -> str:
    """A text on one row, an ellipsis where it was cut."""
    shown = visible(text)
    return shown if cell_len(shown) <= width else set_cell_size(shown, max(width - 1, 1)).rstrip() + "…"


class Cell(Struct, frozen=True):
    """One field of a ruled table."""

    text: str
    look: str = ""
    hang: int = 0
    """By how much its further rows are set in."""


def ruled(cells: Sequence[Cell], widths: Sequence[int], of: int | None = None) -> list[Line]:
    """One row of a ruled table, as many lines high as its fullest cell."""
    columns = [_broken(cell, width) for cell, width in zip(cells, widths, strict=True)]
    height = max(len(column) for column in columns)
    return [_ruled_line(columns, cells, widths, row, of) for row in range(height)]


def _broken(cell: Cell, width: int) -> list[str]:
    return [row.plain for part in cell.text.split("\n") for row in wrap(part, width, "", cell.hang)]


def _ruled_line(
    columns: Sequence[list[str]], cells: Sequence[Cell], widths: Sequence[int], row: int, of: int | None
) -> Line:
    spans: list[Span] = []
    for column, cell, width in zip(columns, cells, widths, strict=True):
        text = column[row] if row < len(column) else ""
        spans += [Span("│ ")] if spans else []
        spans.append(Span(set_cell_size(text, width), cell.look))
    return Line(tuple(spans), of)


def ruled_head(names: Sequence[str], widths: Sequence[int]) -> list[Line]:
    """The heading of a ruled table and the rule under it."""
    under = "┼─".join("─" * width for width in widths)
    return [*ruled([Cell(name, "small") for name in names], widths), line(under)]


def item(lines: Sequence[Line], of: int) -> list[Line]:
    """The lines as those of one item."""
    return [replace(one, of=of) for one in lines]


def spaced(text: str) -> str:
    """S P A C E D  C A P I T A L S, a combining mark left on its letter."""
    return "   ".join(" ".join(_letters(word.upper())) for word in visible(text).split())


def _letters(word: str) -> list[str]:
    letters: list[str] = []
    for character in word:
        if letters and unicodedata.combining(character):
            letters[-1] += character
        else:
            letters.append(character)
    return letters


def spaced_rows(text: str, width: int) -> list[str]:
    """Spaced capitals broken between words, inside one only where it doesn't fit by itself; none of them cut."""
    found: list[str] = []
    row = ""
    for word in text.split():
        joined = f"{row}   {spaced(word)}" if row else spaced(word)
        if row and cell_len(joined) > width:
            found.append(row)
            joined = spaced(word)
        row = joined
    return [part for one in (*found, row) for part in ([one] if cell_len(one) <= width else rows(one, width))]
