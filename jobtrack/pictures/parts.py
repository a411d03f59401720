"""What the pictures are put together from: numbers out of a working-out, their texts, and common shapes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction
from typing import TypeAlias, cast

from jobtrack.figures.drawing import Drawing, Line, Point
from jobtrack.shopmath.catalogue import Number, Value
from jobtrack.units import show
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import as_typed

Values: TypeAlias = Mapping[str, Value]

Picture: TypeAlias = Callable[[Values, Values], Drawing]
"""From the inputs and the results of a working-out, in the catalogue's units."""

DECIMALS = {"mm": 1, "deg": 2, "kg": 1}
"""In a picture; a smaller figure is shown with two that count. The results beside it have them all."""


def number(values: Values, key: str) -> float:
    """A number of the working-out."""
    return float(cast(Number, values[key]))


def numbers(values: Values, key: str) -> tuple[float, ...]:
    """A list of numbers of the working-out."""
    return tuple(float(each) for each in cast("Sequence[Number]", values[key]))


def is_given(values: Values, key: str) -> bool:
    """Whether an input that can be left out is there."""
    return values.get(key) is not None


_SHOWN: ContextVar[Chosen] = ContextVar(
    "unit system of the picture that is being drawn", default=METRIC_FIRST
)


@contextmanager
def said_in(shown: Chosen) -> Iterator[None]:
    """Say the figures of what is drawn meanwhile in this unit system; what is drawn stays where it is."""
    before = _SHOWN.set(shown)
    try:
        yield
    finally:
        _SHOWN.reset(before)


def figure(value: float, unit: str) -> str:
    """A figure with its unit, short enough for a picture."""
    digits = DECIMALS[unit]
    if value and abs(value) < 10.0**-digits:
        digits = 1 - math.floor(math.log10(abs(value)))
    shown = _SHOWN.get()
    if shown.turns(unit):
        return shown.figure(as_typed(Fraction(f"{value:.{digits}f}"), unit)).words()
    return show(Fraction(value), unit, digits)


def mm(value: float) -> str:
    """A length."""
    return figure(value, "mm")


def deg(value: float) -> str:
    """An angle."""
    return figure(value, "deg")


def polygon(*points: Point, dashed: bool = False) -> tuple[Line, ...]:
    """The closed line through these points."""
    return tuple(Line(a, b, dashed) for a, b in zip(points, [*points[1:], points[0]], strict=True))


def rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Line, ...]:
    """An upright rectangle."""
    return polygon((left, bottom), (right, bottom), (right, top), (left, top))


def towards(start: Point, angle: float, length: float) -> Point:
    """The point at this length from another, in this direction in degrees."""
    turn = math.radians(angle)
    return start[0] + math.cos(turn) * length, start[1] + math.sin(turn) * length


def between(one: Point, other: Point, share: float = 0.5) -> Point:
    """The point on the way from one to the other."""
    return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share


def apart(one: Point, other: Point) -> float:
    """The distance of two points."""
    return math.dist(one, other)
