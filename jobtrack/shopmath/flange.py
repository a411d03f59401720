"""Flanges: circles of holes. Lengths in mm."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, may_take, takes, working_out
from jobtrack.shopmath.checks import above_zero, between, plain

Measured = Literal["centres", "inner edges", "outer edges", "same edges"]
"""Where a spacing between two holes was taken."""

MOST_HOLES = 100


class BoltCircle(NamedTuple):
    """The diameter of the circle through the hole centres, mm."""

    diameter: Number


@working_out(
    "bolt-circle",
    topic="flange",
    inputs=[
        takes("holes", "count"),
        takes("spacing", "mm"),
        takes("measured", "centres|inner edges|outer edges|same edges"),
        may_take("hole", "mm"),
        may_take("apart", "count", 1),
    ],
    results=gives(diameter="mm"),
    formula="centre distance divided by the sine of (holes apart times 180 deg divided by holes); "
    "inner edges: centre distance = spacing plus hole; outer edges: spacing minus hole; "
    "same edges: spacing itself",
    source="chord of a regular polygon, plane geometry; five-hole chords as printed in a wheel maker's chart "
    "(bolt centres, cerka.ca), skip-one factor 1.05 as quoted on a bolt-pattern page",
    sentence="{holes} holes, {spacing} over {measured}, {apart} apart: circle of {diameter}.",
    example={"holes": "4", "spacing": "58.71", "measured": "inner edges", "hole": "12"},
    remarks=(
        "Holds for holes evenly spaced on one circle: measure more than one pair.",
        "A flange is centred by its pilot; the same circle doesn't say that two flanges run true together.",
    ),
)
def bolt_circle(
    holes: int, spacing: Number, measured: Measured, hole: Number | None = None, apart: int = 1
) -> BoltCircle:
    """Circle through n evenly spaced holes: c / sin(k pi / n), c the centre distance of holes k apart, mm.

    Inner edges c = e + d, outer edges c = e - d, same edges and centres c = e (equal holes of diameter d).
    Opposite holes give the diameter itself; there, and one sixth of a turn apart, Fractions stay exact.
    Source: chord of a regular polygon; a printed chart of five-hole chords is in the tests.
    Refuses fewer than 3 holes (more than 100: a slip), k outside 1 to n / 2, edges without a hole diameter,
    lengths not above 0, and holes that would overlap.
    """
    between("holes", holes, 3, MOST_HOLES)
    between("apart", apart, 1, holes // 2)
    above_zero(spacing=spacing)
    if hole is not None:
        above_zero(hole=hole)
    diameter = _between_centres(spacing, measured, hole) / _sine(apart, holes)
    if hole is not None and diameter * _sine(1, holes) <= hole:
        raise WorkingOutError(
            f"spacing: holes of {plain(hole)} mm would overlap on a circle of {plain(diameter)} mm; "
            "give a larger spacing or a smaller hole"
        )
    return BoltCircle(diameter)


def _between_centres(spacing: Number, measured: Measured, hole: Number | None) -> Number:
    if measured in ("centres", "same edges"):
        return spacing
    if hole is None:
        raise WorkingOutError(f"hole: missing; {measured} need the hole's diameter in mm")
    if measured == "inner edges":
        return spacing + hole
    if spacing <= hole:
        raise WorkingOutError(
            f"spacing: {plain(spacing)} mm over outer edges is not above the hole of {plain(hole)} mm; "
            "give more"
        )
    return spacing - hole


def _sine(apart: int, holes: int) -> Number:
    """sin(apart pi / holes), exact where it is rational."""
    exact = {Fraction(1, 2): Fraction(1), Fraction(1, 6): Fraction(1, 2)}
    turn = Fraction(apart, holes)
    return exact[turn] if turn in exact else math.sin(math.pi * apart / holes)
