"""Where texts go on a sheet of cells: beside what they name, never over a line, another text or the edge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import product
from typing import TypeAlias

from jobtrack.figures.drawing import Side

Cell: TypeAlias = tuple[int, int]
"""Column and row, from 0, the row downwards."""

FURTHEST = {"middle": 1, "above": 2, "below": 2, "left": 4, "right": 4}
"""Cells that a text may be moved away on each side."""

OTHERS: dict[Side, tuple[Side, ...]] = {
    "middle": ("middle", "above", "below", "right", "left"),
    "above": ("above", "right", "left", "below"),
    "below": ("below", "right", "left", "above"),
    "left": ("left", "above", "below", "right"),
    "right": ("right", "above", "below", "left"),
}
"""The sides to try, the wanted one first."""


@dataclass(frozen=True, slots=True)
class Text:
    """A text that wants a place at a cell; the ink of its own shape may be written over."""

    text: str
    at: Cell
    side: Side
    shape: int
    mark_over_ink: bool = False


@dataclass(slots=True)
class Sheet:
    """Cells with ink and text. One blank is kept between two texts of a row."""

    columns: int
    rows: int
    ink: dict[Cell, int] = field(default_factory=dict)
    """The pattern of dots in a cell."""
    owners: dict[Cell, set[int]] = field(default_factory=dict)
    """The shapes whose ink is in a cell."""
    written: dict[Cell, str] = field(default_factory=dict)
    moved: int = 0
    """Texts that stand on another side than the wanted one."""

    def place(self, text: Text) -> bool:
        """Write the text at the first free place; False where there is none."""
        for side, column, row, gap in _places(text):
            if self._is_free(text, column, row, gap):
                self.written.update(((column + offset, row), each) for offset, each in enumerate(text.text))
                self.moved += side != text.side
                return True
        return False

    def _is_free(self, text: Text, column: int, row: int, gap: int) -> bool:
        end = column + len(text.text)
        if not (0 <= row < self.rows and column >= 0 and end <= self.columns):
            return False
        if any((each, row) in self.written for each in range(column - 1, end + 1)):
            return False
        if text.mark_over_ink:
            return True
        cells = ((each, row) for each in range(column - gap, end + gap))
        return all(self.owners.get(cell, set()) <= {text.shape} for cell in cells)


def _places(text: Text) -> Iterator[tuple[Side, int, int, int]]:
    """The side, column and row of the first character, and the blanks to keep from lines; the best first."""
    for side, gap in product(OTHERS[text.side], (1, 0)):
        for away in range(1, FURTHEST[side] + 1):
            for column, row in _beside(text, side, away):
                yield side, column, row, gap


def _beside(text: Text, side: Side, away: int) -> Iterable[Cell]:
    (column, row), length = text.at, len(text.text)
    if side == "left":
        return [(column - length - away, row)]
    if side == "right":
        return [(column + 1 + away, row)]
    line = {"above": row - away, "below": row + away}.get(side, row)
    return [(column - length // 2 + slide, line) for slide in _slides(length // 2)]


def _slides(most: int) -> Iterator[int]:
    """0, -1, 1, -2, 2 and so on: the text stays over its cell."""
    yield 0
    for slide in range(1, most + 1):
        yield -slide
        yield slide
