"""How square an axle stands in a vehicle, and how straight its housing is.

Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from jobtrack.shopmath.catalogue import A_HUNDREDTH, Number, WorkingOutError, gives, shown, takes, working_out
from jobtrack.shopmath.common.checks import above_zero, magnitude, plain
from jobtrack.shopmath.fit.perches import GEOMETRY

DIAGONALS_APART = 5
"""mm that the diagonals may differ from those of the sides before it is said; a choice of ours, no source."""

MOST_SKEW = 10
"""deg out of square that a frame can be and still be one; common practice, no source."""


class ThrustAngle(NamedTuple):
    """How far the axle points beside the vehicle's line, degrees."""

    angle: Number


@working_out(
    "thrust-angle",
    topic="fit",
    inputs=[takes("wheelbase_left", "mm"), takes("wheelbase_right", "mm"), takes("track", "mm")],
    results=gives(angle=shown("deg", step=A_HUNDREDTH, against=("0.2", "-0.2"))),
    formula="the angle whose tangent is (wheelbase left minus wheelbase right) divided by track",
    source="plane geometry, arithmetic only; 0.0 plus or minus 0.2 deg from a service bulletin on a "
    "leaf-sprung axle, undated, read in a copy",
    sentence="Left {wheelbase_left}, right {wheelbase_right} over a track of {track}: {angle}; "
    "a service bulletin on a leaf-sprung axle lists 0.0 ± 0.2 deg.",
    example={"wheelbase_left": "2703", "wheelbase_right": "2700", "track": "1500"},
    remarks=(
        "The vehicle maker's own figure wins. From memory of alignment practice: 0.1 to 0.15 deg.",
        "Positive when the left wheelbase is longer: the axle then steers the rear to the left "
        "and the vehicle to the right.",
    ),
)
def thrust_angle(wheelbase_left: Number, wheelbase_right: Number, track: Number) -> ThrustAngle:
    """Thrust angle from the two wheelbases: atan((left - right) / track), deg, positive when left is longer.

    Plane geometry; the independent route is to put both wheel centres on the floor and turn the axle's line
    square. A trade note (7 ft of drift a mile for 1/16 in) has its base length only inferred.
    Refuses lengths not above 0 and wheelbases that differ by the track or more (mixed units).
    """
    above_zero(wheelbase_left=wheelbase_left, wheelbase_right=wheelbase_right, track=track)
    apart = wheelbase_left - wheelbase_right
    if magnitude(apart) >= track:
        raise WorkingOutError(
            f"wheelbase_left, wheelbase_right: {plain(magnitude(apart))} mm apart, not less than the "
            f"track of {plain(track)} mm; give all three in one unit"
        )
    return ThrustAngle(math.degrees(math.atan(apart / track)))


class SquareByDiagonals(NamedTuple):
    """By how much a parallelogram is skewed, degrees, and what the figure doesn't cover."""

    skew: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "square-by-diagonals",
    topic="fit",
    inputs=[
        takes("length", "mm"),
        takes("width", "mm"),
        takes("first_diagonal", "mm"),
        takes("second_diagonal", "mm"),
    ],
    results=gives(skew=shown("deg", step=A_HUNDREDTH)),
    formula="the angle whose sine is (first diagonal squared minus second diagonal squared) "
    "divided by (4 times length times width)",
    source="law of cosines in a parallelogram, plane geometry, arithmetic only",
    sentence="Diagonals {first_diagonal} and {second_diagonal} over {length} by {width}: {skew} of skew.",
    example={
        "length": "3300",
        "width": "900",
        "first_diagonal": "3422.9",
        "second_diagonal": "3418.1",
    },
    remarks=(
        "Holds where both lengths are equal and both widths are equal: measure those first.",
        "A trade note, weak: trailers' diagonals equal within 1/8 in. No standard for it was found.",
    ),
)
def square_by_diagonals(
    length: Number, width: Number, first_diagonal: Number, second_diagonal: Number
) -> SquareByDiagonals:
    """Skew s of a parallelogram from its diagonals: sin(s) = (d1^2 - d2^2) / (4 l w), deg, d1 longer plus.

    Plane geometry; no source publishes figures, and the independent route is to draw the four corners and
    measure. Diagonals that don't belong to these sides get a remark. Refuses lengths not above 0, both
    diagonals no longer than the longer side, diagonals that no parallelogram of these sides has, and a skew
    over 10 deg.
    """
    above_zero(length=length, width=width, first_diagonal=first_diagonal, second_diagonal=second_diagonal)
    longer = max(length, width)
    if max(first_diagonal, second_diagonal) <= longer:
        raise WorkingOutError(
            "first_diagonal, second_diagonal: neither is longer than the side of "
            f"{plain(longer)} mm; give the two corner-to-corner distances"
        )
    sine = (first_diagonal**2 - second_diagonal**2) / (4 * length * width)
    if magnitude(sine) >= 1:
        raise WorkingOutError(
            f"first_diagonal, second_diagonal: {plain(first_diagonal)} and {plain(second_diagonal)} mm "
            "can't belong to one parallelogram of these sides; give diagonals that differ by less"
        )
    skew = math.degrees(math.asin(sine))
    if abs(skew) > MOST_SKEW:
        raise WorkingOutError(
            f"first_diagonal, second_diagonal: {plain(first_diagonal)} and {plain(second_diagonal)} mm make "
            f"{abs(skew):.1f} deg of skew; a frame over {MOST_SKEW} deg out of square is none any more "
            "(common practice, no source), so one of the four is a slip: measure them again"
        )
    off = math.sqrt((first_diagonal**2 + second_diagonal**2) / 2) - math.hypot(length, width)
    return SquareByDiagonals(skew, _beside_the_sides(off))


def _beside_the_sides(off: float) -> tuple[str, ...]:
    """What to say when the diagonals together are longer or shorter than the sides give."""
    if abs(off) <= DIAGONALS_APART:
        return ()
    return (
        f"The diagonals are on average {abs(off):.1f} mm {'longer' if off > 0 else 'shorter'} than the sides "
        "give: measure all four again.",
    )


class HousingStraightness(NamedTuple):
    """How the two wheel faces of a housing stand to each other, degrees, both sides together."""

    toe: Number
    camber: Number


@working_out(
    "housing-straightness",
    topic="fit",
    inputs=[
        takes("bar", "mm"),
        takes("front", "mm"),
        takes("rear", "mm"),
        takes("top", "mm"),
        takes("bottom", "mm"),
    ],
    results=gives(toe=shown("deg", step=A_HUNDREDTH), camber=shown("deg", step=A_HUNDREDTH)),
    formula="toe = the angle whose tangent is (rear minus front) divided by bar; "
    "camber = minus the angle whose tangent is (bottom minus top) divided by bar",
    source=GEOMETRY,
    sentence="Bars of {bar}, tip to tip {front} front, {rear} rear, {top} top, {bottom} bottom: "
    "toe {toe}, camber {camber}, both sides together.",
    example={"bar": "600", "front": "1499", "rear": "1500", "top": "1500.5", "bottom": "1500"},
    remarks=(
        "Toe is plus when the front is narrower, camber minus when the top is narrower.",
        "Turn both hubs half a turn and measure again: a bent face or bar changes sign, a bent tube doesn't.",
    ),
)
def housing_straightness(
    bar: Number, front: Number, rear: Number, top: Number, bottom: Number
) -> HousingStraightness:
    """Toe atan((rear - front) / bar) and camber -atan((bottom - top) / bar), deg, of straight bars on both
    wheel faces, measured tip to tip; bar is the whole length of each bar. Totals of both sides.

    Plane geometry for small angles (within 0.001 deg up to 1 deg a side); no source publishes figures, and
    the independent route is to place the tips. On a bar of 600 mm 1 mm is 0.0955 deg.
    Refuses lengths not above 0 and tips that differ by the bar or more.
    """
    above_zero(bar=bar, front=front, rear=rear, top=top, bottom=bottom)
    _within_the_bar(bar, rear=rear, front=front)
    _within_the_bar(bar, bottom=bottom, top=top)
    toe = math.degrees(math.atan((rear - front) / bar))
    return HousingStraightness(toe, -math.degrees(math.atan((bottom - top) / bar)))


def _within_the_bar(bar: Number, **tips: Number) -> None:
    (one, larger), (other, smaller) = tips.items()
    if magnitude(larger - smaller) >= bar:
        raise WorkingOutError(
            f"{one}, {other}: {plain(magnitude(larger - smaller))} mm apart, not less than the bar of "
            f"{plain(bar)} mm; give the tip-to-tip distances"
        )
