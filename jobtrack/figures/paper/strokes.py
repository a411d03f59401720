"""The shapes of a drawing as elements of SVG; coordinates in millimetres on paper, y down."""

from __future__ import annotations

import math
from collections.abc import Iterator

from jobtrack.figures.drawing import Arc, Arrow, Circle, Dimension, Line, Point, Shape
from jobtrack.figures.paper.places import APART, Box
from jobtrack.figures.raster import Frame

THIN, THICK = 0.18, 0.35
"""Widths of a line: measured and dashed ones are thin."""
HEAD, SLIM = 2.4, 0.45
"""Length of an arrow's head, and half of its width."""
STOP = 1.2
"""From a measured line to the end of its stops."""
LEAST = 0.3
"""Radius of a point that is to be seen."""


def strokes(shape: Shape, frame: Frame, gap: Box | None = None) -> Iterator[str]:
    """The elements of a shape but for its text; a measured line is broken where its text stands in the `gap`."""
    match shape:
        case Line(start, end, dashed):
            yield _line(frame.on_grid(start), frame.on_grid(end), _pen(dashed))
        case Arrow(start, end):
            yield from _arrow(frame.on_grid(start), frame.on_grid(end))
        case Dimension(start, end):
            yield from _measured(frame.on_grid(start), frame.on_grid(end), gap)
        case Circle(centre, radius, dashed):
            yield _circle(frame.on_grid(centre), radius * frame.scale, dashed)
        case Arc(centre, radius, begin, turn, dashed):
            yield _arc(frame.on_grid(centre), radius * frame.scale, begin, turn, dashed)
        case _:
            return


def leader(start: Point, end: Point) -> str:
    """A thin line from a text to its point, and a dot there."""
    x, y = end
    dot = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{LEAST}" fill="#000" stroke="none"/>'
    return _line(start, end, f'stroke-width="{THIN}"') + dot


def mm(value: float) -> str:
    """A coordinate to a hundredth of a millimetre."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _at(point: Point) -> str:
    return f"{mm(point[0])} {mm(point[1])}"


def _pen(dashed: bool) -> str:
    return f'stroke-width="{THIN}" stroke-dasharray="1.6 1.1"' if dashed else f'stroke-width="{THICK}"'


def _line(start: Point, end: Point, pen: str) -> str:
    return f'<path d="M{_at(start)}L{_at(end)}" {pen}/>'


def _arrow(start: Point, end: Point) -> Iterator[str]:
    length = math.dist(start, end)
    if not length:
        yield _line(start, end, _pen(False))
        return
    head = min(HEAD, length * 0.7)
    along = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    neck = end[0] - along[0] * head, end[1] - along[1] * head
    wide = SLIM * 2 * head / HEAD
    barbs = [(neck[0] + side * along[1] * wide, neck[1] - side * along[0] * wide) for side in (-1, 1)]
    yield _line(start, neck, _pen(False))
    yield f'<path d="M{_at(end)}L{_at(barbs[0])}L{_at(barbs[1])}Z" fill="#000" stroke="none"/>'


def _measured(start: Point, end: Point, gap: Box | None) -> Iterator[str]:
    pen = f'stroke-width="{THIN}"'
    for one, other in [(start, end)] if gap is None else _around(start, end, gap.grown(APART)):
        yield _line(one, other, pen)
    length = math.dist(start, end)
    across = ((end[1] - start[1]) / length, (start[0] - end[0]) / length) if length else (0.0, 1.0)
    for x, y in (start, end):
        stop = across[0] * STOP, across[1] * STOP
        yield _line((x - stop[0], y - stop[1]), (x + stop[0], y + stop[1]), pen)


def _around(start: Point, end: Point, gap: Box) -> Iterator[tuple[Point, Point]]:
    """What lies of a line before and behind a box across it."""
    enters, leaves = gap.within(start, end)
    if enters < leaves:
        yield start, _share(start, end, enters)
        yield _share(start, end, leaves), end
    else:
        yield start, end


def _share(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _circle(centre: Point, radius: float, dashed: bool) -> str:
    x, y = centre
    return f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{mm(max(radius, LEAST))}" {_pen(dashed)}/>'


def _arc(centre: Point, radius: float, begin: float, turn: float, dashed: bool) -> str:
    """In two halves, so that neither is as long as a whole turn, at which its ends would be one."""
    if radius < LEAST or abs(turn) >= 360:
        return _circle(centre, radius, dashed)
    start, half, end = (_on_rim(centre, radius, begin + turn * share) for share in (0, 0.5, 1))
    arc = f"A{mm(radius)} {mm(radius)} 0 0 {int(turn < 0)} "
    return f'<path d="M{_at(start)}{arc}{_at(half)}{arc}{_at(end)}" {_pen(dashed)}/>'


def _on_rim(centre: Point, radius: float, angle: float) -> Point:
    turn = math.radians(angle)
    return centre[0] + math.cos(turn) * radius, centre[1] - math.sin(turn) * radius
