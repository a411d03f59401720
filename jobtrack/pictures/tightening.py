"""Bolts in the order in which a stage turns them: which are done, and which comes next."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from jobtrack.figures.drawing import Arc, Arrow, Circle, Drawing, Label, Line, Point, Shape, Side
from jobtrack.pictures.flanges import UP, holes_round
from jobtrack.pictures.parts import apart, between
from jobtrack.shopmath.fasteners.tightening import MOST_BOLTS, turning_order

NUMBERED = "Order {}. The numbers go round clockwise; begin at any bolt."
ROUND, LONG, WIDE = 100.0, 100.0, 70.0
"""Half of the circle, and of the rectangle in which four bolts stand."""


def tightening(bolts: int, done: Collection[int], stage: str) -> Drawing:
    """The bolts of one line, 1 to n, those turned in this stage with a mark across, an arrow to the next.

    `stage` says which one it is, in words. Four stand in a rectangle, as round a spring; any other number on
    a circle. More than the order is known for are only said.
    """
    if not 0 < bolts <= MOST_BOLTS:
        return Drawing((), f"{stage}: {bolts} bolts, too many to draw.")
    order = turning_order(bolts)
    following = next((bolt for bolt in order if bolt not in done), None)
    places, size = _places(bolts), _size(bolts)
    shapes: list[Shape] = [] if bolts == 4 else _circle(bolts, size)
    for number, place in enumerate(places, 1):
        shapes += _bolt(place, size, number in done, number == following)
        shapes.append(_label(place, size, _words(number, number in done, number == following)))
    if following is not None:
        shapes += _way(order, done, following, places, size)
    return Drawing(
        tuple(shapes), f"{stage}: {_how_far(order, done, following)}. {NUMBERED.format(_listed(order))}"
    )


def _places(bolts: int) -> list[Point]:
    if bolts == 4:
        return [(-LONG, WIDE), (LONG, WIDE), (LONG, -WIDE), (-LONG, -WIDE)]
    return holes_round(bolts, 2 * ROUND)


def _size(bolts: int) -> float:
    """The radius of a bolt; neighbours keep a gap."""
    return min(18.0, 0.6 * ROUND * math.sin(math.pi / max(bolts, 2)))


def _circle(bolts: int, size: float) -> list[Shape]:
    """The bolt circle, left out under the bolts."""
    hidden = 2 * math.degrees(math.asin(min(size / ROUND / 2, 1)))
    turn = 360 / bolts
    return [Arc((0, 0), ROUND, UP - place * turn - hidden, -(turn - 2 * hidden), dashed=True)
            for place in range(bolts)]  # fmt: skip


def _bolt(at: Point, size: float, done: bool, following: bool) -> list[Shape]:
    """A nut from above: marked across when it is turned, with a second ring when it comes next."""
    x, y = at
    mark: list[Shape] = [Line((x - size, y), (x + size, y))] if done else []
    ring: list[Shape] = [Circle(at, size / 2)] if following else []
    return [Circle(at, size), *mark, *ring]


def _words(number: int, done: bool, following: bool) -> str:
    return f"{number} done" if done else f"{number} NEXT" if following else str(number)


def _label(at: Point, size: float, text: str) -> Label:
    """Outside the circle of bolts."""
    x, y = at
    if abs(x) < 1:
        side: Side = "above" if y > 0 else "below"
        return Label((x, y + math.copysign(size, y)), text, side)
    return Label((x + math.copysign(size, x), y), text, "right" if x > 0 else "left")


def _way(
    order: Sequence[int], done: Collection[int], following: int, places: Sequence[Point], size: float
) -> list[Shape]:
    """From the bolt before it in the order, where that is done, to the one that comes next."""
    at = order.index(following)
    if at == 0 or order[at - 1] not in done:
        return []
    start, end = places[order[at - 1] - 1], places[following - 1]
    share = 1.6 * size / apart(start, end)
    return [Arrow(between(start, end, share), between(start, end, 1 - share))]


def _listed(bolts: Sequence[int]) -> str:
    return "-".join(map(str, bolts))


def _how_far(order: Sequence[int], done: Collection[int], following: int | None) -> str:
    turned = [bolt for bolt in order if bolt in done]
    if following is None:
        return f"all {len(order)} done"
    # with commas: "1-3" would be read as 1 to 3
    return f"next {following}; done {', '.join(map(str, turned))}" if turned else f"begin with {following}"
