"""A ruled table in rows of text, its columns as wide as the page lets them be; too narrow, each row as a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jobtrack.sheets.paper.rows import cells, padded, rows

NARROWEST = 8
"""Cells below which a column isn't worth its rules."""
TALLEST = 4
"""Rows of text that a cell may take; words broken into more are read more easily across the page."""
BETWEEN = " | "


def ruled(head: Sequence[str], table: Sequence[Sequence[str]], width: int) -> list[tuple[str, str]]:
    """Each row of text with its look."""
    widths = _widths(head, table, width)
    if widths is None or any(_tall(row, widths) for row in table):
        return [each for row in table for each in _listed(head, row, width)]
    under = "-+-".join("-" * one for one in widths)
    return [
        *((text, "strong") for text in _row(head, widths)),
        (under, ""),
        *((text, "") for row in table for text in _row(row, widths)),
    ]


def _widths(head: Sequence[str], table: Sequence[Sequence[str]], width: int) -> list[int] | None:
    """The columns' widths, the widest of them shortened until they fit; None where there are too many."""
    room = width - len(BETWEEN) * (len(head) - 1)
    whole = [row for row in (head, *table) if len(row) == len(head)]
    wanted = [max(1, *(cells(row[number]) for row in whole)) for number in range(len(head))]
    while sum(wanted) > room:
        widest = max(wanted)
        if widest <= NARROWEST:
            return None
        wanted[wanted.index(widest)] -= 1
    return wanted


def _tall(texts: Sequence[str], widths: Sequence[int]) -> bool:
    """Whether a row of the table has a cell of too many rows of text."""
    return len(texts) == len(widths) and any(
        len(rows(text, width)) > TALLEST for text, width in zip(texts, widths, strict=True)
    )


def _row(texts: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    if len(texts) < len(widths):
        yield from rows(texts[0], sum(widths) + len(BETWEEN) * (len(widths) - 1))
        return
    columns = [rows(text, width) for text, width in zip(texts, widths, strict=True)]
    for number in range(max(map(len, columns))):
        parts = (
            padded(column[number] if number < len(column) else "", width)
            for column, width in zip(columns, widths, strict=True)
        )
        yield BETWEEN.join(parts).rstrip()


def _listed(head: Sequence[str], row: Sequence[str], width: int) -> Iterator[tuple[str, str]]:
    names = head if len(row) == len(head) else ("",)
    for name, text in zip(names, row, strict=True):
        for each in rows(f"{name}: {text}" if name else text, width):
            yield each, ""
    yield "", ""
