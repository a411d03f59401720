"""A drawing as plain data: lines, circles, arcs, arrows, labels and measured lines.

World coordinates are in any one unit, x to the right, y up; angles in degrees, counter-clockwise from x.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

Point: TypeAlias = tuple[float, float]

Side: TypeAlias = Literal["middle", "above", "below", "left", "right"]
"""Where a text stands, seen from the point that it belongs to."""


class FigureError(ValueError):
    """A drawing that can't be drawn: one line that says which shape and why."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Arrow:
    """A straight line with a head at its end; the head's size doesn't follow the scale."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle."""

    centre: Point
    radius: float
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle: from the angle `begin` on by `turn`, negative clockwise, both within 720 degrees."""

    centre: Point
    radius: float
    begin: float
    turn: float
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """A text at a point, on this side of it where there is room."""

    at: Point
    text: str
    side: Side = "middle"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measured line with a stop across each end, and what was measured."""

    start: Point
    end: Point
    text: str


Shape: TypeAlias = Line | Arrow | Circle | Arc | Label | Dimension


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes on one sheet, and the line above them: the view, and what isn't to scale."""

    shapes: tuple[Shape, ...]
    caption: str = ""


def corners(shape: Shape) -> Iterator[Point]:
    """Points between whose furthest the shape lies, its text left out."""
    match shape:
        case Circle(centre, radius):
            yield from _on_rim(centre, radius, (0, 90, 180, 270))
        case Arc(centre, radius, begin, turn):
            low, high = sorted((begin, begin + turn))
            quarters = [90 * each for each in range(-16, 17) if low < 90 * each < high]
            yield from _on_rim(centre, radius, (low, high, *quarters))
        case Label(at):
            yield at
        case _:
            yield shape.start
            yield shape.end


def _on_rim(centre: Point, radius: float, angles: Iterable[float]) -> Iterator[Point]:
    for angle in angles:
        turn = math.radians(angle)
        yield centre[0] + math.cos(turn) * radius, centre[1] + math.sin(turn) * radius
