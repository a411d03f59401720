"""Fit: where the spring perches go, how level a face is, and how the pinion stands to the pads.

Lengths in mm, angles in degrees. A slope is positive when the front of the part is higher than its rear.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    Number,
    WorkingOutError,
    gives,
    may_take,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, not_below_zero, plain, slopes

GEOMETRY = "plane geometry, arithmetic only: no publication gives such figures"


class PerchShift(NamedTuple):
    """How far each perch goes, mm; inboard is positive, outboard negative."""

    left_inboard: Number
    right_inboard: Number


@working_out(
    "perch-shift",
    topic="fit",
    inputs=[takes("spacing_now", "mm"), takes("spacing_wanted", "mm")],
    results=gives(left_inboard="mm", right_inboard="mm"),
    formula="each side: half of (spacing now minus spacing wanted); inboard positive, outboard negative",
    source=GEOMETRY,
    sentence="Spacing now {spacing_now}, wanted {spacing_wanted}: left {left_inboard}, "
    "right {right_inboard}, inboard positive.",
    example={"spacing_now": "1012", "spacing_wanted": "965"},
    remarks=(
        "Right only where both perches stand equally far from their wheel faces: "
        "perch-shift-from-faces takes what is measured on each side.",
    ),
)
def perch_shift(spacing_now: Number, spacing_wanted: Number) -> PerchShift:
    """Half the change of spacing on each side: (S_now - S_wanted) / 2, mm, inboard positive.

    Plane geometry; no source publishes figures, and the independent route is to place the perches on a line
    and measure. Valid where the axle is symmetric. Refuses a spacing that isn't above 0.
    """
    above_zero(spacing_now=spacing_now, spacing_wanted=spacing_wanted)
    each = (spacing_now - spacing_wanted) / 2
    return PerchShift(each, each)


class PerchShiftFromFaces(NamedTuple):
    """The spacing as it is, the wanted face-to-perch distance, and how far each perch goes, mm."""

    spacing_now: Number
    face_to_perch: Number
    left_inboard: Number
    right_inboard: Number
    off_centre: Number
    """Half of (left face to perch minus right face to perch) as it is now."""


@working_out(
    "perch-shift-from-faces",
    topic="fit",
    inputs=[
        takes("face_distance", "mm"),
        takes("left_face_to_perch", "mm"),
        takes("right_face_to_perch", "mm"),
        takes("spacing_wanted", "mm"),
    ],
    results=gives(
        spacing_now="mm", face_to_perch="mm", left_inboard="mm", right_inboard="mm", off_centre="mm"
    ),
    formula="wanted face to perch = half of (face distance minus spacing wanted); "
    "each perch goes inboard by that minus its own distance now",
    source=GEOMETRY,
    sentence="Wanted {face_to_perch} from each wheel face; now {left_face_to_perch} left and "
    "{right_face_to_perch} right: left {left_inboard}, right {right_inboard}, inboard positive.",
    example={
        "face_distance": "1524",
        "left_face_to_perch": "262",
        "right_face_to_perch": "250",
        "spacing_wanted": "1016",
    },
    remarks=("The two sides may need different amounts: mark each from its own wheel face.",),
)
def perch_shift_from_faces(
    face_distance: Number, left_face_to_perch: Number, right_face_to_perch: Number, spacing_wanted: Number
) -> PerchShiftFromFaces:
    """What each perch moves so that both stand (W - S_wanted) / 2 from their wheel faces, mm.

    W is the distance between the wheel-mounting faces, a and b the distance from face to perch centre:
    S_now = W - a - b, left = t - a, right = t - b, off centre = (a - b) / 2; left + right = S_now - S_wanted.
    Plane geometry; no source publishes figures, and the independent route is to place the points on a line.
    Refuses W or the wanted spacing not above 0, a or b below 0, a + b >= W, and a wanted spacing >= W.
    """
    above_zero(face_distance=face_distance, spacing_wanted=spacing_wanted)
    not_below_zero(left_face_to_perch=left_face_to_perch, right_face_to_perch=right_face_to_perch)
    spacing_now = face_distance - left_face_to_perch - right_face_to_perch
    if spacing_now <= 0:
        raise WorkingOutError(
            "left_face_to_perch, right_face_to_perch: together not below the face distance "
            f"of {plain(face_distance)} mm; give two distances that leave a spacing"
        )
    if spacing_wanted >= face_distance:
        raise WorkingOutError(
            f"spacing_wanted: {plain(spacing_wanted)} mm is not below the face distance "
            f"of {plain(face_distance)} mm; give less"
        )
    face_to_perch = (face_distance - spacing_wanted) / 2
    return PerchShiftFromFaces(
        spacing_now,
        face_to_perch,
        face_to_perch - left_face_to_perch,
        face_to_perch - right_face_to_perch,
        (left_face_to_perch - right_face_to_perch) / 2,
    )


class CentreSpacing(NamedTuple):
    """Centre to centre, mm."""

    spacing: Number


@working_out(
    "centre-spacing",
    topic="fit",
    inputs=[takes("inner_gap", "mm"), takes("left_pin", "mm"), takes("right_pin", "mm")],
    results=gives(spacing="mm"),
    formula="inner gap plus half of (left pin diameter plus right pin diameter)",
    source=GEOMETRY,
    sentence="Inner gap {inner_gap} between pins of {left_pin} and {right_pin}: {spacing} centre to centre.",
    example={"inner_gap": "996", "left_pin": "16", "right_pin": "16"},
    remarks=("With two equal pins the distance between same edges is the spacing itself.",),
)
def centre_spacing(inner_gap: Number, left_pin: Number, right_pin: Number) -> CentreSpacing:
    """Spacing from edges: gap + (d1 + d2) / 2, mm, for two round pins.

    Plane geometry; no source publishes figures, and the independent route is to place the pins on a line.
    Refuses a gap or a diameter that isn't above 0.
    """
    above_zero(inner_gap=inner_gap, left_pin=left_pin, right_pin=right_pin)
    return CentreSpacing(inner_gap + (left_pin + right_pin) / 2)


class Level(NamedTuple):
    """The slope of a face, in degrees and in mm a metre along it."""

    angle: Number
    per_metre: Number


@working_out(
    "level",
    topic="fit",
    inputs=[takes("gap", "mm"), takes("length", "mm")],
    results=gives(angle=shown("deg", step=A_HUNDREDTH), per_metre="mm"),
    formula="the angle whose sine is gap divided by length, the length measured along the level",
    source="sine definition of a level's sensitivity, as quoted by a maker of vials (Eichhorn); "
    "0.5 mm/m as 0.029 deg and 1 mm/m as 0.057 deg, as quoted in an encyclopedia page on spirit levels",
    sentence="Gap {gap} under a level of {length}: {angle}, {per_metre} a metre along it.",
    example={"gap": "2.5", "length": "600"},
)
def level(gap: Number, length: Number) -> Level:
    """Slope from a feeler gap under one end: angle = asin(gap / length), deg; 1000 gap / length, mm a metre.

    The length lies along the level (sine); measured on the flat it would be the tangent, the same to 0.01 %
    below 0.8 deg. A negative gap is a slope the other way. Source: the sine definition of a vial's
    sensitivity, as quoted by its maker. Refuses a length not above 0 and a gap longer than the length.
    """
    above_zero(length=length)
    if not -length <= gap <= length:
        raise WorkingOutError(
            f"gap: {plain(gap)} mm is more than the length of {plain(length)} mm; give at most the length"
        )
    share = gap / length
    return Level(math.degrees(math.asin(share)), 1000 * share)


class RelativeLevel(NamedTuple):
    """How the face stands to the reference, degrees, and what the figure doesn't cover."""

    difference: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "relative-level",
    topic="fit",
    inputs=[takes("reference", "deg"), takes("face", "deg")],
    results=gives(difference="deg"),
    formula="reading on the face minus reading on the reference",
    source="common practice, no source: the stand's tilt and the instrument's zero are in both readings",
    sentence="Face {face}, reference {reference}: {difference} from the reference.",
    example={"reference": "1.8", "face": "5.2"},
    remarks=("Holds only for one instrument, the same way round on both faces, and one rule of sign.",),
)
def relative_level(reference: Number, face: Number) -> RelativeLevel:
    """Face minus reference, deg: on a stand that isn't level its tilt cancels, and so does the zero error.

    Common practice, no source; the independent route is to turn two vectors by the stand's tilt and compare
    them. Refuses a reading that reaches 90 deg; past 45 deg a scale may have been folded: a remark.
    """
    slopes(reference=reference, face=face)
    steep = not (-45 <= reference <= 45 and -45 <= face <= 45)
    remark = "A reading past 45 deg: check that both were taken from the same axis of the scale."
    return RelativeLevel(face - reference, (remark,) if steep else ())


class PinionToPad(NamedTuple):
    """The pinion's slope in the vehicle and to the spring pads, degrees, front higher positive."""

    pinion_slope: Number
    pinion_to_pad: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "pinion-to-pad",
    topic="fit",
    inputs=[takes("gearbox_slope", "deg"), takes("pad_slope", "deg"), may_take("nose_down", "deg", 0)],
    results=gives(pinion_slope="deg", pinion_to_pad="deg"),
    formula="pinion slope = gearbox slope minus nose-down allowance; "
    "pinion to pad = pinion slope minus pad slope",
    source="parallel layout of a two-joint shaft: plane geometry, arithmetic only; "
    "sign as in an axle maker's maintenance manual (MM-96147, 2021, p. 79, read in a copy)",
    sentence="Gearbox {gearbox_slope}, pad {pad_slope}, nose-down allowance {nose_down}: "
    "pinion {pinion_slope}, {pinion_to_pad} to the pad.",
    example={"gearbox_slope": "3.5", "pad_slope": "0.5", "nose_down": "1.5"},
    remarks=(
        "Front higher is positive. Slopes belong at ride height with the weight on the springs.",
        "How far springs wind up under torque is opinion in the trade: the allowance is yours to choose.",
    ),
)
def pinion_to_pad(gearbox_slope: Number, pad_slope: Number, nose_down: Number = 0) -> PinionToPad:
    """Wanted pinion angles for the parallel layout, deg: gearbox slope - allowance; then minus the pad slope.

    Plane geometry; no source publishes figures, and the independent route is to build the vectors of gearbox,
    pad and pinion and measure. Refuses slopes and allowances that reach 90 deg.
    """
    slopes(gearbox_slope=gearbox_slope, pad_slope=pad_slope, nose_down=nose_down)
    pinion_slope = gearbox_slope - nose_down
    remark = "A negative allowance puts the nose up, not down."
    return PinionToPad(pinion_slope, pinion_slope - pad_slope, (remark,) if nose_down < 0 else ())
