"""Flanges with two patterns of holes: rectangles, and the best turn of a second pattern.

Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, at_most, gives, may_take, takes, working_out
from jobtrack.shopmath.common.checks import above_zero, between, magnitude, plain
from jobtrack.shopmath.flange.circles import MOST_HOLES

AGREE = 1
"""mm within which a typed circle has to agree with the rectangle's diagonal."""

ALIKE = 1e-9
"""deg, mm; what differs by less is equal."""


class RectangularPattern(NamedTuple):
    """The circle through four holes in a rectangle, mm, and their angle from its length axis, degrees."""

    diameter: Number
    half_angle: Number


@working_out(
    "rectangular-pattern",
    topic="flange",
    inputs=[takes("length", "mm"), takes("width", "mm")],
    results=gives(diameter="mm", half_angle="deg"),
    formula="diameter = root of (length squared plus width squared); "
    "half angle = the angle whose tangent is width divided by length",
    source="diagonal of a rectangle, plane geometry, arithmetic only",
    sentence="Holes {length} by {width}: circle of {diameter}, holes {half_angle} either side of the "
    "length axis.",
    example={"length": "60", "width": "80"},
    remarks=("Measure both diagonals: where they differ, the four holes are no rectangle.",),
)
def rectangular_pattern(length: Number, width: Number) -> RectangularPattern:
    """Circle through the corners of a rectangle, sqrt(a^2 + b^2), mm; holes at +-atan(b / a) from a, deg.

    Plane geometry; no source publishes figures, and the independent route is a circle fitted to the corners.
    Refuses lengths not above 0.
    """
    above_zero(length=length, width=width)
    return RectangularPattern(math.hypot(length, width), math.degrees(math.atan2(width, length)))


class SecondPattern(NamedTuple):
    """The smallest turn that leaves the most metal between old and new holes, degrees, and that metal, mm."""

    rotation: Number
    ligament: Number
    seat_clearance: Number | None
    """From the seat's edge to the nearest old hole, mm; null without a seat."""
    remarks: tuple[str, ...] = ()


@working_out(
    "second-pattern",
    topic="flange",
    inputs=[
        takes("first_holes", "count"),
        may_take("first_circle", "mm"),
        takes("first_hole", "mm"),
        takes("second_holes", "count"),
        takes("second_circle", "mm"),
        takes("second_hole", "mm"),
        may_take("first_length", "mm"),
        may_take("first_width", "mm"),
        may_take("seat", "mm"),
    ],
    results=gives(
        rotation="deg", ligament=at_most("mm", against=("0",)), seat_clearance=at_most("mm", against=("0",))
    ),
    formula="the smallest turn that leaves the largest smallest distance between old and new holes; "
    "ligament = that distance minus half of both holes; seat clearance = that distance minus half of seat "
    "and old hole",
    source="plane geometry, arithmetic only; no published rule for the metal between the holes of a "
    "driveline flange was found",
    sentence="Turned by {rotation}: {ligament} of metal between an old and a new hole; "
    "no published limit for a driveline flange was found.",
    example={
        "first_holes": "4",
        "first_circle": "100",
        "first_hole": "12",
        "second_holes": "4",
        "second_circle": "90",
        "second_hole": "11",
        "seat": "20",
    },
    hazards=(
        "WARNING: Cracked flange. Holes beside holes weaken the part that carries the shaft. "
        "Prefer the right flange for the spline, and have the flange maker or a balance shop judge this one.",
    ),
    remarks=(
        "Counted from one of the old holes, or from the length axis of a rectangle.",
        "A nut's seat must not lie on an old hole, however much metal is between: give its diameter as seat.",
    ),
    together=(("first_length", "first_width"),),
)
def second_pattern(
    first_holes: int,
    first_hole: Number,
    second_holes: int,
    second_circle: Number,
    second_hole: Number,
    first_circle: Number | None = None,
    first_length: Number | None = None,
    first_width: Number | None = None,
    seat: Number | None = None,
) -> SecondPattern:
    """The best turn of a regular pattern against a regular or rectangular one on the same centre, deg.

    Distance of two holes = sqrt(r1^2 + r2^2 - 2 r1 r2 cos(turn)), ligament = distance - (d1 + d2) / 2, mm.
    All pairs have the same radii, so the best turn stands in the middle of the widest gap between the old
    holes' angles, folded into one pitch of the new holes; two regular patterns give 180 / lcm(n1, n2).
    No source publishes figures; the independent route is to try every turn in small steps.
    Refuses fewer than 3 holes (or more than 100), lengths not above 0, a rectangle of other than 4 holes, a
    circle more than 1 mm off the rectangle, neither circle nor rectangle, holes that overlap within a pattern
    or at the best turn, and a seat not above the new hole. A seat over an old hole is a remark.
    """
    between("first_holes", first_holes, 3, MOST_HOLES)
    between("second_holes", second_holes, 3, MOST_HOLES)
    above_zero(first_hole=first_hole, second_circle=second_circle, second_hole=second_hole)
    circle, angles = _first_pattern(first_holes, first_circle, first_length, first_width)
    pitch = Fraction(360, second_holes)
    _refuse_overlap("first_hole", first_hole, circle, _narrowest(angles, Fraction(360)))
    _refuse_overlap("second_hole", second_hole, second_circle, pitch)
    rotation, apart = _widest_gap(angles, pitch)
    distance = _distance(circle / 2, second_circle / 2, apart)
    ligament = distance - (first_hole + second_hole) / 2
    if ligament < ALIKE:
        raise WorkingOutError(
            f"second_hole: overlaps an old hole by {max(-ligament, 0):.2f} mm even at the best turn; "
            "give smaller or fewer holes, or another circle"
        )
    clearance = None if seat is None else _seat_clearance(distance, seat, first_hole, second_hole)
    return SecondPattern(rotation, ligament, clearance, _seat_remarks(clearance))


def _first_pattern(
    holes: int, circle: Number | None, length: Number | None, width: Number | None
) -> tuple[Number, Sequence[Number]]:
    """The circle of the old holes and their angles from a hole, or from the length axis."""
    if length is None or width is None:
        if circle is None:
            raise WorkingOutError("first_circle: missing; give it in mm, or first_length and first_width")
        above_zero(first_circle=circle)
        return circle, [Fraction(360 * hole, holes) for hole in range(holes)]
    above_zero(first_length=length, first_width=width)
    if holes != 4:
        raise WorkingOutError(f"first_holes: {holes} with a length and a width; a rectangle has 4")
    diagonal, half = rectangular_pattern(length, width)
    if circle is not None and magnitude(circle - diagonal) > AGREE:
        raise WorkingOutError(
            f"first_circle: {plain(circle)} mm doesn't belong to the rectangle, whose circle is "
            f"{plain(diagonal)} mm; leave it out, or give it within 1 mm"
        )
    return diagonal, [half, 180 - half, 180 + half, 360 - half]


def _narrowest(angles: Sequence[Number], turn: Number) -> Number:
    return min(after - before for before, after in _neighbours(angles, turn))


def _neighbours(angles: Sequence[Number], turn: Number) -> list[tuple[Number, Number]]:
    """Each angle with the one after it, the last with the first a turn later."""
    ordered = sorted(angles)
    return list(zip(ordered, [*ordered[1:], ordered[0] + turn], strict=True))


def _refuse_overlap(key: str, hole: Number, circle: Number, apart: Number) -> None:
    if _distance(circle / 2, circle / 2, apart) <= hole:
        raise WorkingOutError(
            f"{key}: holes of {plain(hole)} mm would overlap on their own circle of {plain(circle)} mm; "
            "give smaller holes or a larger circle"
        )


def _widest_gap(angles: Sequence[Number], pitch: Fraction) -> tuple[Number, Number]:
    """The smallest turn into the middle of a widest gap, and how far it is from the angles beside it."""
    folded = [angle % pitch for angle in angles]
    gaps = _neighbours(folded, pitch)
    widest = max(after - before for before, after in gaps)
    middles = [(before + after) / 2 % pitch for before, after in gaps if after - before > widest - ALIKE]
    rotation = min(0 if pitch - middle < ALIKE else middle for middle in middles)
    return rotation, widest / 2


def _distance(one: Number, other: Number, degrees: Number) -> float:
    """Between two points on circles of these radii; the half angle is good near zero."""
    half = math.sin(math.radians(degrees) / 2)
    return math.sqrt((one - other) ** 2 + 4 * one * other * half**2)


def _seat_clearance(distance: float, seat: Number, first_hole: Number, second_hole: Number) -> Number:
    if seat <= second_hole:
        raise WorkingOutError(
            f"seat: {plain(seat)} mm is not above the new hole of {plain(second_hole)} mm; "
            "give the diameter of the bolt's or nut's seat"
        )
    return distance - (seat + first_hole) / 2


def _seat_remarks(clearance: Number | None) -> tuple[str, ...]:
    if clearance is None:
        return ("Without a seat's diameter nothing is said of seats on old holes.",)
    if clearance > -ALIKE:
        return ()
    return (f"The seat lies over an old hole by {plain(float(-clearance))} mm.",)
