"""Fit by angles: levels turned end for end, wedges, and points of an axle that is turned.

Lengths in mm, angles in degrees. A slope is positive when the front of the part is higher than its rear.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from jobtrack.shopmath.catalogue import A_HUNDREDTH, Number, WorkingOutError, gives, shown, takes, working_out
from jobtrack.shopmath.common.checks import above_zero, magnitude, not_below_zero, plain, slopes
from jobtrack.shopmath.fit.perches import GEOMETRY

FOLDED = "A reading past 45 deg: check that both were taken from the same axis of the scale."


class LevelReversal(NamedTuple):
    """The slope of the face without the instrument's own error, and that error, degrees."""

    tilt: Number
    zero_error: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "level-reversal",
    topic="fit",
    inputs=[takes("normal", "deg"), takes("turned", "deg")],
    results=gives(tilt=shown("deg", step=A_HUNDREDTH), zero_error=shown("deg", step=A_HUNDREDTH)),
    formula="tilt = half of (normal minus turned); zero error = half of (normal plus turned)",
    source="reversal of a level, from memory: machine-tool alignment texts; the figures are arithmetic only",
    sentence="Normal {normal}, turned end for end {turned}: tilt {tilt}, "
    "of the instrument itself {zero_error}.",
    example={"normal": "2.35", "turned": "-1.95"},
    remarks=("Both readings on the same marks of the face, each signed as the instrument shows it.",),
)
def level_reversal(normal: Number, turned: Number) -> LevelReversal:
    """True tilt (r1 - r2) / 2 and zero error (r1 + r2) / 2 of one instrument turned end for end, deg.

    From memory: machine-tool alignment texts. The independent route is to make both readings from a tilt and
    an error and solve for them. Exact for Fractions. Refuses readings that reach 90 deg; past 45 deg a scale
    may have been folded: a remark.
    """
    slopes(normal=normal, turned=turned)
    steep = max(magnitude(normal), magnitude(turned)) > 45
    return LevelReversal((normal - turned) / 2, (normal + turned) / 2, (FOLDED,) if steep else ())


class Wedge(NamedTuple):
    """How much thicker the thick end is, mm, and what the figure doesn't cover."""

    rise: Number
    remarks: tuple[str, ...] = ()


WEDGE_SOURCE = (
    "tangent of a right triangle, plane geometry, arithmetic only; "
    "a version in circulation divides by the tangent and gives 1938.6 mm for 3 deg on 101.6 mm"
)


@working_out(
    "wedge",
    topic="fit",
    inputs=[takes("angle", "deg"), takes("length", "mm")],
    results=gives(rise="mm"),
    formula="length times the tangent of the angle",
    source=WEDGE_SOURCE,
    sentence="A wedge of {angle} and {length} long is {rise} thicker at one end than at the other.",
    example={"angle": "3", "length": "4 in"},
    remarks=("The length is along the flat face of the wedge. No published limit was found for a wedge.",),
)
def wedge(angle: Number, length: Number) -> Wedge:
    """Thick end minus thin end of an axle wedge: L tan(angle), mm.

    L lies along the flat face. Plane geometry; no source publishes figures, and the independent route is to
    turn a vector until it has risen. A negative angle gives a negative rise: the thick end is the other one.
    Refuses an angle that reaches 90 deg and a length not above 0.
    """
    slopes(angle=angle)
    above_zero(length=length)
    remark = "A negative angle: the thick end lies at the other end."
    return Wedge(length * math.tan(math.radians(angle)), (remark,) if angle < 0 else ())


class WedgeAngle(NamedTuple):
    """The angle between the two faces of a wedge, degrees."""

    angle: Number


@working_out(
    "wedge-angle",
    topic="fit",
    inputs=[takes("thick", "mm"), takes("thin", "mm"), takes("length", "mm")],
    results=gives(angle="deg"),
    formula="the angle whose tangent is (thick minus thin) divided by length",
    source=WEDGE_SOURCE,
    sentence="Thick end {thick}, thin end {thin} over {length}: {angle}.",
    example={"thick": "8.3", "thin": "3", "length": "101.6"},
    remarks=("The length lies between the two places where the thickness was measured, on the flat face.",),
)
def wedge_angle(thick: Number, thin: Number, length: Number) -> WedgeAngle:
    """Angle of a wedge from its two ends: atan((thick - thin) / L), deg.

    Plane geometry; no source publishes figures, and the independent route is the angle between two vectors.
    Refuses a length not above 0, a thin end below 0, and a thick end below the thin one.
    """
    above_zero(length=length)
    not_below_zero(thin=thin)
    if thick < thin:
        raise WorkingOutError(
            f"thick: {plain(thick)} mm is below the thin end of {plain(thin)} mm; give the larger as thick"
        )
    return WedgeAngle(math.degrees(math.atan((thick - thin) / length)))


class RotatedPoint(NamedTuple):
    """How far the point rises, mm."""

    rise: Number


@working_out(
    "rotated-point",
    topic="fit",
    inputs=[takes("ahead", "mm"), takes("angle", "deg")],
    results=gives(rise="mm"),
    formula="distance ahead of the axle's centre times the sine of the angle turned",
    source=GEOMETRY,
    sentence="A point {ahead} ahead of the centre, nose turned up by {angle}: {rise} up.",
    example={"ahead": "-130", "angle": "5"},
    remarks=("Behind the centre is negative; a negative rise is downwards.",),
)
def rotated_point(ahead: Number, angle: Number) -> RotatedPoint:
    """Rise of a point level with the centre when the axle is turned nose up: ahead sin(angle), mm.

    Plane geometry; no source publishes figures, and the independent route is to turn the point with a matrix.
    Refuses an angle that reaches 90 deg.
    """
    slopes(angle=angle)
    return RotatedPoint(ahead * math.sin(math.radians(angle)))
