"""Flanges: circles of holes, the metal outside them and slip torque. Lengths in mm."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    Number,
    WorkingOutError,
    at_most,
    gives,
    may_take,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, between, plain
from jobtrack.shopmath.common.grades import too_small_bolts

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


class EdgeDistance(NamedTuple):
    """From the edge to the hole's centre and to the hole, mm, and the first in diameters of the hole."""

    to_centre: Number
    to_hole: Number
    in_holes: Number


@working_out(
    "edge-distance",
    topic="flange",
    inputs=[takes("flange", "mm"), takes("circle", "mm"), takes("hole", "mm")],
    results=gives(
        to_centre=at_most("mm"),
        to_hole=at_most("mm", against=("0",)),
        in_holes=at_most("ratio", step=A_HUNDREDTH, against=("1.25", "1.5", "1.75", "2")),
    ),
    formula="to centre = half of (flange minus circle); to hole = to centre minus half of the hole; "
    "in holes = to centre divided by hole",
    source="difference of radii, arithmetic only; AISC 360-16 table J3.4 as quoted in a copy, centre to "
    "edge: M16 22, M20 26, M22 28, M24 30 mm; 1/2 in 3/4, 5/8 in 7/8, 3/4 in 1 in; larger 1.25 diameters",
    sentence="Centre to edge {to_centre}, {in_holes} holes, {to_hole} of metal; AISC 360-16 lists from about "
    "1.25 to 1.5 bolt diameters for frames of buildings, and no limit for a driveline flange was found.",
    example={"flange": "120", "circle": "95", "hole": "11"},
    remarks=(
        "Others: aircraft sheet 2 diameters (AC 43.13-1B), machine design 1.5 to 2 (from memory), sheared "
        "edges in an older AISC table 1.75. None is a rule for a flange that carries torque and runs true.",
    ),
)
def edge_distance(flange: Number, circle: Number, hole: Number) -> EdgeDistance:
    """Metal outside a hole: (flange - circle) / 2 to its centre, less half the hole to its edge, mm.

    Exact for Fractions. No source publishes figures for a flange; the independent route is to place hole and
    edge on a line. Refuses lengths not above 0 and a hole that reaches beyond the edge.
    """
    above_zero(flange=flange, circle=circle, hole=hole)
    to_centre = (flange - circle) / 2
    if to_centre < hole / 2:
        raise WorkingOutError(
            f"hole: {plain(hole)} mm on a circle of {plain(circle)} mm reaches beyond the edge of a flange "
            f"of {plain(flange)} mm; give flange, circle and hole as diameters, the flange at least circle "
            "plus hole"
        )
    return EdgeDistance(to_centre, to_centre - hole / 2, to_centre / hole)


class FlangeSlipTorque(NamedTuple):
    """The torque at which clamped faces begin to slip, N*m, and what bolt bears its clamp force."""

    torque: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "flange-slip-torque",
    topic="flange",
    inputs=[
        takes("bolts", "count"),
        takes("clamp_force", "N"),
        takes("friction", "ratio"),
        takes("radius", "mm"),
    ],
    results=gives(torque=at_most("N*m")),
    formula="bolts times friction times clamp force of one bolt times radius of the bolt circle",
    source="friction of one pair of faces, from memory: Shigley; torque control scatters up to 30 % either "
    "way (a trade magazine, April 2018, read in a copy)",
    sentence="{bolts} bolts of {clamp_force}, friction {friction}, at radius {radius}: slips at {torque}; "
    "shaft-torque works out what the shaft carries.",
    example={"bolts": "4", "clamp_force": "25 kN", "friction": "0.15", "radius": "45"},
    hazards=(
        "WARNING: Slipping flange. Faces that slip shear their bolts, and the shaft comes off and strikes the "
        "floor. Compare with what the shaft carries, with the least clamp force, on clean dry faces.",
    ),
    remarks=(
        "The clamp force of a bolt tightened by torque scatters by up to 30 %: work it out with the least.",
        "Paint, grease and gaskets between the faces change the friction. Radius is half of the circle.",
    ),
)
def flange_slip_torque(bolts: int, clamp_force: Number, friction: Number, radius: Number) -> FlangeSlipTorque:
    """Slip torque of a friction flange: n mu F r, N*m; F in N for one bolt, r in mm, one pair of faces.

    Exact for Fractions. From memory: Shigley; no published figure was read, and the independent route is the
    sum of force vectors about the centre. Refuses fewer than 3 bolts (or more than 100), friction outside
    0 to 1, and lengths and forces not above 0. A bolt's grade isn't known here: tightening-torque knows it.
    """
    between("bolts", bolts, 3, MOST_HOLES)
    above_zero(clamp_force=clamp_force, friction=friction, radius=radius)
    between("friction", friction, 0, 1)
    return FlangeSlipTorque(bolts * friction * clamp_force * radius / 1000, too_small_bolts(clamp_force))
