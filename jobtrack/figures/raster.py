"""From shapes to dots: which dots of a grid a line or a circle runs through.

A dot is a square of side 1 round whole coordinates, x to the right, y down. The dots of a line lie within
half a dot of it, measured along the axis across its direction.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from jobtrack.figures.drawing import Arc, Arrow, Circle, Dimension, Line, Point, Shape, corners

Dot: TypeAlias = tuple[int, int]

DASH = 2
"""Dots of a dash, and of the gap after it."""

STOP = 1.5
"""Dots from a measured line to the end of its stops."""

HEAD = 3.0
"""Dots along each barb of an arrow's head, at most."""


@dataclass(frozen=True, slots=True)
class Frame:
    """How the world lies on the grid: `scale` dots a unit, `left` and `top` where (0, 0) of the world is."""

    scale: float
    left: float
    top: float

    def on_grid(self, point: Point) -> Point:
        """A point of the world in dots, x to the right, y down."""
        return self.left + point[0] * self.scale, self.top - point[1] * self.scale


def dots(shape: Shape, frame: Frame) -> Iterator[Dot]:
    """The dots of a shape; those of its text aren't among them."""
    match shape:
        case Line(start, end, dashed):
            yield from line(frame.on_grid(start), frame.on_grid(end), dashed)
        case Arrow(start, end):
            yield from _arrow(frame.on_grid(start), frame.on_grid(end))
        case Dimension(start, end):
            yield from _measured(frame.on_grid(start), frame.on_grid(end))
        case Circle(centre, radius, dashed):
            yield from arc(frame.on_grid(centre), radius * frame.scale, 0, 360, dashed)
        case Arc(centre, radius, begin, turn, dashed):
            yield from arc(frame.on_grid(centre), radius * frame.scale, begin, turn, dashed)
        case _:
            return


def line(start: Point, end: Point, dashed: bool = False) -> Iterator[Dot]:
    """The dots of a straight line, one for each step along its longer axis."""
    (x, y), across, down = start, end[0] - start[0], end[1] - start[1]
    if abs(down) > abs(across):
        yield from ((dot, step) for step, dot in line((y, x), (end[1], end[0]), dashed))
        return
    first, last = nearest(x), nearest(end[0])
    slope = down / across if across else 0.0
    for step in range(first, last + 1) if last >= first else range(first, last - 1, -1):
        if not dashed or abs(step - first) % (2 * DASH) < DASH:
            yield step, nearest(y + (step - x) * slope)


def arc(centre: Point, radius: float, begin: float, turn: float, dashed: bool = False) -> Iterator[Dot]:
    """The dots of an arc; where it is steep one for each row, where it is flat one for each column."""
    if radius < 0.5:
        yield nearest(centre[0]), nearest(centre[1])
        return
    ends = list(corners(Arc((centre[0], -centre[1]), radius, begin, turn)))
    across = min(x for x, _ in ends), max(x for x, _ in ends)
    down = min(-y for _, y in ends), max(-y for _, y in ends)
    for x, y in _rim(centre, radius, (across, down)):
        along = _along(math.degrees(math.atan2(centre[1] - y, x - centre[0])), begin, turn)
        if along is not None and not (dashed and int(math.radians(along) * radius) % (2 * DASH) >= DASH):
            yield nearest(x), nearest(y)


def _rim(centre: Point, radius: float, within: tuple[Point, Point]) -> Iterator[Point]:
    """Points of the circle whose x is whole where it runs flat, and whose y is whole where it is steep.

    `within` is from where to where it is wanted, across and down: a short arc can belong to a huge circle.
    """
    flat = radius * math.sqrt(0.5)
    for axis in (0, 1):
        middle, other = centre[axis], centre[1 - axis]
        first, last = max(middle - flat, within[axis][0]), min(middle + flat, within[axis][1])
        for step in range(math.ceil(first - 0.5), math.floor(last + 0.5) + 1):
            half = math.sqrt(max(radius**2 - (step - middle) ** 2, 0.0))
            for sign in (-1, 1):
                yield (step, other + sign * half) if axis == 0 else (other + sign * half, step)


def _along(angle: float, begin: float, turn: float) -> float | None:
    """Degrees from the arc's beginning to this angle; None outside the arc."""
    if turn < 0:
        return _along(-angle, -begin, -turn)
    past = (angle - begin) % 360
    return past if past <= turn else None


def _arrow(start: Point, end: Point) -> Iterator[Dot]:
    yield from line(start, end)
    across, down = end[0] - start[0], end[1] - start[1]
    length = math.hypot(across, down)
    if length < 1:
        return
    barb = min(HEAD, length / 2)
    for turn in (math.radians(145), math.radians(-145)):
        cos, sin = math.cos(turn) * barb / length, math.sin(turn) * barb / length
        yield from line(end, (end[0] + across * cos - down * sin, end[1] + across * sin + down * cos))


def _measured(start: Point, end: Point) -> Iterator[Dot]:
    yield from line(start, end)
    length = math.hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    across, down = (end[0] - start[0]) / length * STOP, (end[1] - start[1]) / length * STOP
    for x, y in (start, end):
        yield from line((x - down, y + across), (x + down, y - across))


def nearest(value: float) -> int:
    """The nearest whole number, of two the larger."""
    return math.floor(value + 0.5)
