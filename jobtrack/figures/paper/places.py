"""Where texts go on paper: beside what they name, never over a line of something else or another text.

Lengths are in millimetres, x to the right, y down. A page is as wide as it is, and as long as it has to be.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import count
from math import ceil, floor
from typing import NamedTuple

from jobtrack.figures.drawing import Point, Side
from jobtrack.figures.paper.letters import ROW, text_width
from jobtrack.figures.placing import OTHERS
from jobtrack.figures.raster import Dot

DOT = 0.4
"""How finely it is known where there is ink."""
APART = 0.8
"""Kept free between two texts, and between a text and a line."""
AWAY: dict[Side, tuple[float, ...]] = {
    "middle": (0.0,),
    "above": (1.3, 2.4, 4.0),
    "below": (1.3, 2.4, 4.0),
    "left": (1.2, 2.5, 5.0, 8.0),
    "right": (1.2, 2.5, 5.0, 8.0),
}
"""How far a text stands from its point, the nearest first."""
SLIDES = (0.0, -0.15, 0.15, -0.3, 0.3, -0.45, 0.45)
"""How far a text may slide along, of its own width: it stays over its point."""
FURTHEST = 9
"""Half rows that a text may stand away at the end of a line that leads to it."""
STUB = 2.0
"""What is left of a measured line at either end of its text."""


class Box(NamedTuple):
    """A rectangle of paper."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Box:
        """With so much more on each side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def holds(self, at: Point) -> bool:
        """Whether a point lies in it."""
        return self.left <= at[0] <= self.right and self.top <= at[1] <= self.bottom

    def nearest(self, at: Point) -> Point:
        """The point of its edge from which a line leads to another point."""
        return min(max(at[0], self.left), self.right), min(max(at[1], self.top), self.bottom)

    def within(self, start: Point, end: Point) -> tuple[float, float]:
        """From which share of a line to which it runs through it; the second is no larger where it doesn't."""
        enters, leaves = 0.0, 1.0
        for axis in (0, 1):
            step, low, high = end[axis] - start[axis], self[axis] - start[axis], self[axis + 2] - start[axis]
            if step:
                shares = sorted((low / step, high / step))
                enters, leaves = max(enters, shares[0]), min(leaves, shares[1])
            elif not low < 0 < high:
                leaves = enters
        return enters, leaves

    def crossed(self, start: Point, end: Point) -> bool:
        """Whether a line runs through it."""
        enters, leaves = self.within(start, end)
        return enters < leaves


class Text(NamedTuple):
    """A text that wants a place at a point; the ink of its own shape may be broken by it."""

    text: str
    at: Point
    side: Side
    shape: int
    line: tuple[Point, Point] | None = None
    """The measured line that it belongs to."""


@dataclass(slots=True)
class Page:
    """Paper with ink and texts."""

    width: float
    ink: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    """The dots of each row with ink in them, a bit each."""
    twice: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    """Those with the ink of several shapes."""
    own: dict[int, dict[int, int]] = field(default_factory=dict)
    """The dots of each shape."""
    boxes: list[Box] = field(default_factory=list)
    """Where a text stands."""
    taken: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    """The dots of each row on which or too near to which one stands."""
    leaders: list[tuple[Point, Point]] = field(default_factory=list)
    """Lines from a text to its point."""

    def draw(self, shape: int, dots: Iterable[Dot]) -> None:
        """Ink of a shape."""
        rows: dict[int, int] = defaultdict(int)
        for x, y in dots:
            if x >= 0:
                rows[y] |= 1 << x
        for y, row in rows.items():
            self.twice[y] |= self.ink[y] & row
            self.ink[y] |= row
        self.own[shape] = rows

    def place(self, text: Text) -> tuple[Side, Box] | None:
        """Take the first free place for a text; None where there is none."""
        for side, box in _places(text):
            if _leaves_line(text, side, box) and self._is_free(box, text.shape if side == "middle" else None):
                self._take(box)
                return side, box
        return None

    def lead(self, text: Text) -> tuple[Box, tuple[Point, Point]] | None:
        """Take a place further away, and a line from there to the point; None where there is none near enough."""
        wide = text_width(text.text)
        for ring in range(1, FURTHEST):
            for box in _round(text.at, wide, ring):
                leader = box.nearest(text.at), text.at
                if self._is_free(box, None) and self._is_clear(leader):
                    self._take(box)
                    self.leaders.append(leader)
                    return box, leader
        return None

    def mark(self, text: str, at: Point) -> Box:
        """Take the nearest place for the number of a text in the key, near its point over ink too."""
        wide = text_width(text)
        for ring in count():
            for box in _round(at, wide, ring):
                if self._is_paper(box) and (ring < 2 or self._is_bare(box, None)):
                    self._take(box)
                    return box
        raise AssertionError

    def _take(self, box: Box) -> None:
        self.boxes.append(box)
        for row, bits in _dots(box.grown(APART)):
            self.taken[row] |= bits

    def _is_free(self, box: Box, shape: int | None) -> bool:
        """Whether a text can stand here, over the ink of this shape alone."""
        return self._is_paper(box) and self._is_bare(box.grown(APART), shape)

    def _is_paper(self, box: Box) -> bool:
        """Whether it is on the paper and no text stands there, nor a line that leads to one."""
        if box.left < 0 or box.right > self.width or any(self.taken[row] & bits for row, bits in _dots(box)):
            return False
        return not any(box.crossed(*leader) for leader in self.leaders)

    def _is_clear(self, leader: tuple[Point, Point]) -> bool:
        """Whether a line runs through no text."""
        return not any(box.crossed(*leader) for box in self.boxes)

    def _is_bare(self, box: Box, shape: int | None) -> bool:
        """Whether there is no ink of another shape."""
        mine = self.own.get(shape, {}) if shape is not None else {}
        return not any(
            (self.ink[row] & ~mine.get(row, 0) | self.twice[row]) & bits
            for row, bits in _dots(box)
            if row in self.ink
        )


def _dots(box: Box) -> Iterator[tuple[int, int]]:
    """The dots of a box, row by row, a bit each; none left of the paper."""
    first, last = max(0, floor(box.left / DOT)), max(0, ceil(box.right / DOT))
    bits = (1 << last - first + 1) - 1 << first
    return ((row, bits) for row in range(floor(box.top / DOT), ceil(box.bottom / DOT) + 1))


def _places(text: Text) -> Iterator[tuple[Side, Box]]:
    """The side and the place, the best first."""
    wide = text_width(text.text)
    for side in OTHERS[text.side]:
        for away in AWAY[side]:
            for box in _beside(_point(text, side), side, away, wide):
                yield side, box


def _point(text: Text, side: Side) -> Point:
    """The point beside which a text stands on this side: of a measured line its end there."""
    if text.line is None or side == "middle":
        return text.at
    axis = 0 if side in ("left", "right") else 1
    one, other = sorted(text.line, key=lambda end: end[axis])
    if abs(other[axis] - one[axis]) < abs(other[1 - axis] - one[1 - axis]):
        return text.at
    return one if side in ("left", "above") else other


def _beside(at: Point, side: Side, away: float, wide: float) -> Iterable[Box]:
    x, y = at
    if side in ("left", "right"):
        left = x - away - wide if side == "left" else x + away
        return [Box(left, y - ROW / 2, left + wide, y + ROW / 2)]
    top = {"above": y - away - ROW, "below": y + away}.get(side, y - ROW / 2)
    lefts = (x - wide / 2 + slide * wide for slide in SLIDES)
    return [Box(left, top, left + wide, top + ROW) for left in lefts]


def _leaves_line(text: Text, side: Side, box: Box) -> bool:
    """Whether enough of a measured line is left to be seen on both sides of the text that stands in it."""
    if text.line is None or side != "middle":
        return True
    grown = box.grown(STUB)
    return not any(grown.holds(end) for end in text.line)


def _round(at: Point, wide: float, ring: int) -> Iterator[Box]:
    """Places round a point, each ring half a row further out; the page has room below in the end."""
    step = ROW / 2
    for across in range(-ring, ring + 1):
        for down in (-ring, ring) if abs(across) < ring else range(-ring, ring + 1):
            left, top = at[0] - wide / 2 + across * step, at[1] - ROW / 2 + down * step
            yield Box(left, top, left + wide, top + ROW)
