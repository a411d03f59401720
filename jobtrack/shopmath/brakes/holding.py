"""Brakes: wear of a drum, and holding on a slope. Length in mm, force in N."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    Number,
    WorkingOutError,
    at_least,
    at_most,
    gives,
    may_take,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, magnitude, not_below_zero, plain

GRAVITY = Fraction("9.80665")
"""m/s^2, standard gravity, exact."""

DISCARD_OVER_NEW = Fraction("2.286")
"""mm, 0.090 in over the new diameter where the drum bears no figure: a trade page and two service manuals."""

TURNING_BELOW_DISCARD = Fraction("0.762")
"""mm, 0.030 in: turned no further than that below the discard diameter; same source."""

WRONG_DRUM = Fraction(1, 2)
"""mm below the new diameter beyond which it is another drum or a slip; common practice, no source."""

GAUGE_TELLS = Fraction(1, 20)
"""mm that a drum gauge can't tell. Common practice, no source."""


class DrumWear(NamedTuple):
    """What is left to the discard diameter, mm, and whether the turning and discard limits are passed."""

    left_to_discard: Number
    above_turning_limit: bool
    beyond_discard: bool
    remarks: tuple[str, ...] = ()
    limit: str = ""


@working_out(
    "drum-wear",
    topic="brakes",
    inputs=[takes("new", "mm"), takes("measured", "mm"), may_take("discard", "mm")],
    results=gives(
        left_to_discard=at_most("mm", step=A_HUNDREDTH, against=("0",)),
        above_turning_limit="yes/no",
        beyond_discard="yes/no",
    ),
    formula="discard diameter minus measured; turning limit = discard minus 0.762 mm (0.030 in); without a "
    "figure on the drum discard = new plus 2.286 mm (0.090 in)",
    source="drum page of a trade site (smileeauto.com) and two service manuals: the cast figure is the discard "
    "diameter, not the turning one",
    sentence="Measured {measured}; {limit}: {left_to_discard} left to the discard diameter.",
    example={"new": "10 in", "measured": "10.062 in", "discard": "10.090 in"},
    hazards=(
        "WARNING: Worn drum. A drum beyond its discard diameter can crack, and the pistons can leave their "
        "cylinders. Replace it.",
    ),
    remarks=("Measure at several places round and across: the largest counts.",),
)
def drum_wear(new: Number, measured: Number, discard: Number | None = None) -> DrumWear:
    """Left to discard = discard - measured, mm; turning limit = discard - 0.762; both limits belong to the range.

    Source: trade page and service manuals; their 10 in and 250 mm drums are in the tests. The figure cast into
    the drum wins; without one new + 2.286 counts, with a remark.
    Refuses diameters not above 0, a discard not above new, and a measured diameter more than 0.5 mm below new.
    """
    above_zero(new=new, measured=measured)
    if discard is not None and discard <= new:
        raise WorkingOutError(
            f"discard: {plain(discard)} mm is not above the new diameter of {plain(new)} mm; "
            "give the figure cast into the drum, or leave it out"
        )
    if measured < new - WRONG_DRUM:
        raise WorkingOutError(
            f"measured: {plain(measured)} mm is more than {plain(WRONG_DRUM)} mm below the new diameter: another "
            f"drum, or a slip; give {plain(new - WRONG_DRUM)} mm or more"
        )
    assumed = (
        "No discard figure was given: new plus 2.286 mm (0.090 in) is taken; the figure on the drum wins."
    )
    limit = new + DISCARD_OVER_NEW if discard is None else discard
    turning = limit - TURNING_BELOW_DISCARD
    whose = "new plus 0.090 in, a trade page's rule" if discard is None else "as typed off the drum"
    beside = f"discard {plain(limit)} mm, turning limit {plain(turning)} mm ({whose})"
    remarks = (*((assumed,) if discard is None else ()), *_at_the_marks(measured, limit, turning))
    return DrumWear(limit - measured, measured > turning, measured > limit, remarks, beside)


def _at_the_marks(measured: Number, discard: Number, turning: Number) -> tuple[str, ...]:
    """What is said of a drum over its marks, and of one that a gauge can't tell from its discard diameter."""
    said = ["The measured diameter is beyond the discard diameter."] if measured > discard else []
    if turning < measured <= discard:
        said.append("The measured diameter is above the turning limit.")
    if magnitude(measured - discard) <= GAUGE_TELLS:
        said.append(
            f"Within {plain(GAUGE_TELLS)} mm of the discard diameter: a drum gauge can't tell it from beyond (common "
            "practice, no source). Count it as beyond, or measure with a finer instrument."
        )
    return tuple(said)


class ForceOnGrade(NamedTuple):
    """The force along the slope, N, and the angle of the slope, degrees."""

    force: Number
    angle: Number


@working_out(
    "force-on-grade",
    topic="brakes",
    inputs=[takes("mass", "kg"), takes("grade", "percent")],
    results=gives(force=at_least("N"), angle="deg"),
    formula="angle = the angle whose tangent is grade / 100; force = mass times 9.80665 times its sine",
    source="statics; grades of 20 and 30 % in 49 CFR 571.105 S5.2 (an agency letter on 30 %, 20 % from memory)",
    sentence="{mass} on {grade} ({angle}): {force} along the slope; the parking brake's test grade in "
    "49 CFR 571.105 is 30 % for cars, 20 % for heavier vehicles (from memory).",
    example={"mass": "2350", "grade": "30"},
    hazards=(
        "WARNING: Roll-away. A vehicle on a slope moves when brake or shaft lets go. Chock the wheels first.",
    ),
    remarks=("What the wheels must hold together, without the resistance of the tyres.",),
)
def force_on_grade(mass: Number, grade: Number) -> ForceOnGrade:
    """F = m g sin(atan(grade / 100)), N; g 9.80665 m/s^2.

    Statics; nobody publishes a figure, the independent route projects gravity on the slope as vectors, and the
    work over a length is that of the height. Refuses a mass not above 0 and a grade below 0.
    """
    above_zero(mass=mass)
    not_below_zero(grade=grade)
    angle = math.atan(grade / 100)
    return ForceOnGrade(float(mass * GRAVITY) * math.sin(angle), math.degrees(angle))
