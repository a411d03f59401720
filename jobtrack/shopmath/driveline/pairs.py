"""Drivelines: the two joints of a shaft together, and whose limits there are for a joint.

Angles in degrees, speeds in rpm. A slope is positive when the front of the part is higher than its rear.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    Number,
    WorkingOutError,
    at_least,
    at_most,
    gives,
    may_take,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, magnitude, plain, slopes
from jobtrack.shopmath.driveline.joints import beyond
from jobtrack.shopmath.driveline.tables import J3311_1, JOINT_SETS, JointLimits, JointRow, joint_limits

_LISTED = tuple(
    str(float(angle))
    for each in JOINT_SETS.values()
    for angle in (each.smallest, *(row.angle for row in each.rows))
)
"""Every angle that a set lists, deg."""


class JointPair(NamedTuple):
    """Two joints of one shaft: their angles and difference, and what is left of the swing."""

    first: Number
    second: Number
    difference: Number
    """Without sign."""
    residual: Number
    """The angle of the single joint that would swing as much, deg."""
    acceleration: Number | None
    """rad/s^2; null without a speed."""
    remarks: tuple[str, ...] = ()
    limit: str = ""


@working_out(
    "joint-pair",
    topic="driveline",
    inputs=[
        takes("ahead_slope", "deg"),
        takes("shaft_slope", "deg"),
        takes("behind_slope", "deg"),
        may_take("speed", "rpm"),
        may_take("set", "text", J3311_1.name),
    ],
    results=gives(
        first=shown("deg", against=_LISTED),
        second=shown("deg", against=_LISTED),
        difference=at_least("deg", against=("0.5", "1", "1.5", "3")),
        residual="deg",
        acceleration=at_least("rad/s^2", against=("300", "400", "1000")),
    ),
    formula="each joint = difference of the slopes of its two parts, without sign; cosine of residual = "
    "cosine of the larger divided by cosine of the smaller; acceleration = (speed times residual) squared",
    source="slopes as in MM-96147 p. 79 and J3311-1 p. 7; residual of two joints in phase, from memory: "
    "Norton, Design of Machinery, and Seherr-Thoss; acceleration from memory: SAE AE-7",
    sentence="Joints {first} and {second}, {difference} apart, residual {residual}; {limit}.",
    example={"ahead_slope": "3", "shaft_slope": "7", "behind_slope": "3", "speed": "3000"},
    hazards=(
        "WARNING: Failing shaft. A joint that binds or shakes can break and let the shaft strike the floor. "
        "Look at angles at ride height, unloaded and loaded, before a drive.",
    ),
    remarks=(
        "For yokes in phase and all parts in one upright plane; out of phase the swings add.",
        "Others list 0.5, 1.5 or 3 deg between the two ends; the maker of this shaft wins over all of them.",
    ),
)
def joint_pair(
    ahead_slope: Number,
    shaft_slope: Number,
    behind_slope: Number,
    speed: Number | None = None,
    set: str = J3311_1.name,
) -> JointPair:
    """Angles |shaft - part| of both joints, deg; cos r = cos larger / cos smaller, in phase, in one plane;
    (w r)^2, rad/s^2. The residual is worked out by sines, good where both angles are equal.

    Published examples are in the tests; the independent route is to turn two joints in small steps. The set
    of limits is named in the sentence. Refuses slopes and angles that reach 90 deg, a speed not above 0 and
    an unknown set; ends that aren't parallel get a remark.
    """
    slopes(ahead_slope=ahead_slope, shaft_slope=shaft_slope, behind_slope=behind_slope)
    limits = joint_limits(set)
    signed = (ahead_slope - shaft_slope, behind_slope - shaft_slope)
    first, second = magnitude(signed[0]), magnitude(signed[1])
    for key, bend in (("ahead_slope", first), ("behind_slope", second)):
        _refuse_upright(key, bend)
    residual = _residual(max(first, second), min(first, second))
    acceleration = None if speed is None else _acceleration(speed, residual)
    remarks = beyond(max(first, second)) + _not_parallel(*signed)
    return JointPair(
        first, second, magnitude(first - second), residual, acceleration, remarks, _beside(limits, speed)
    )


def _refuse_upright(key: str, bend: Number) -> None:
    if bend >= 90:
        raise WorkingOutError(f"{key}: {plain(bend)} deg from the shaft; give slopes less than 90 deg apart")


def _residual(larger: Number, smaller: Number) -> float:
    """From sin^2 r = sin(larger - smaller) sin(larger + smaller) / cos^2 smaller."""
    a, b = math.radians(larger), math.radians(smaller)
    return math.degrees(math.atan2(math.sqrt(math.sin(a - b) * math.sin(a + b)), math.cos(a)))


def _acceleration(speed: Number, residual: float) -> float:
    above_zero(speed=speed)
    return (speed * math.pi / 30 * math.radians(residual)) ** 2


def _not_parallel(ahead: Number, behind: Number) -> tuple[str, ...]:
    if ahead * behind >= 0:
        return ()
    return (
        "The ends lean to opposite sides of the shaft, not parallel: a trade page (drivetrain.com) lists "
        "a tenth of the shaft's length in inches as the most degrees then, a fifth for parallel ends.",
    )


def _beside(limits: JointLimits, speed: Number | None) -> str:
    """The limits of this set, and whose, for the sentence."""
    between = f"{plain(limits.smallest)} deg"
    apart = f"and ends within {plain(limits.apart)} deg of each other"
    if not limits.flat and speed is None:
        return f"{limits.title}, lists at least {between}, at most by speed, {apart}"
    if not limits.flat and speed is not None and speed > limits.rows[-1].speed:
        return f"{limits.title}, ends at {limits.rows[-1].speed} rpm; it lists at least {between}, {apart}"
    row = _row(limits, speed or 0)
    at = "" if limits.flat else f" up to {row.speed} rpm"
    most = f"{plain(row.angle)} deg{at}{_recalled(row)}"
    return f"{limits.title}, lists {between} to {most}, {apart}"


def _recalled(row: JointRow) -> str:
    return " (this row from memory)" if row.read == "from memory" else ""


def _row(limits: JointLimits, speed: Number) -> JointRow:
    """The row of this speed, else of the next higher one."""
    if limits.flat:
        return limits.rows[0]
    for row in limits.rows:
        if speed <= row.speed:
            return row
    raise WorkingOutError(
        f"speed: {plain(speed)} rpm is above the table of {limits.name}, which ends at "
        f"{limits.rows[-1].speed} rpm; give a speed up to that, or ask the maker of the shaft"
    )


class JointLimit(NamedTuple):
    """The largest joint angle of a set at this speed, degrees."""

    angle: Number
    remarks: tuple[str, ...] = ()
    limit: str = ""


@working_out(
    "joint-limit",
    topic="driveline",
    inputs=[takes("speed", "rpm", nominal=True), may_take("set", "text", J3311_1.name)],
    results=gives(angle=at_most("deg")),
    formula="the row of the table at this speed, else of the next higher speed in it",
    source="J3311-1 (2005/2008): rows from 3500 rpm up as restated on the joint maker's page, slower ones "
    "from memory; 3-degree: trade pages and a pump manual, undated, read in copies",
    sentence="At {speed}: {angle}, by {limit}.",
    example={"speed": "3200", "set": "J3311-1"},
    hazards=(
        "WARNING: Failing shaft. A joint beyond its angle wears, shakes and can break, and the shaft strikes the "
        "floor. Measure both joints at ride height, bump and droop, and keep to the shaft maker's figure.",
    ),
    remarks=(
        "The sets disagree; the vehicle's or the shaft's maker wins over both.",
        "Down to 0.5 deg in both sets, so that the needles roll; a pump manual says 1 deg.",
    ),
)
def joint_limit(speed: Number, set: str = J3311_1.name) -> JointLimit:
    """Largest joint angle at a shaft speed, deg, by a named set; between rows that of the next higher speed.

    Below the slowest row that row counts. Source and date of each row stand in `tables.py`; published
    figures are the rows themselves, four of them read again, so a second route would be the same table.
    Refuses a speed not above 0, a speed above a table's last row and an unknown set.
    """
    above_zero(speed=speed)
    limits = joint_limits(set)
    row = _row(limits, speed)
    at = "at any speed" if limits.flat else f"row {row.speed} rpm{_recalled(row)}"
    remark = f"The row of {row.speed} rpm is from memory and was not read again."
    recalled = (remark,) if _recalled(row) else ()
    return JointLimit(row.angle, (*recalled, *_other_sets(limits, speed)), f"{limits.title}, {at}")


def _other_sets(limits: JointLimits, speed: Number) -> tuple[str, ...]:
    return tuple(_other_set(each, speed) for each in JOINT_SETS.values() if each is not limits)


def _other_set(other: JointLimits, speed: Number) -> str:
    if not other.flat and speed > other.rows[-1].speed:
        return f"The other set, {other.name}, {other.title}, ends at {other.rows[-1].speed} rpm."
    row = _row(other, speed)
    return f"The other set, {other.name}, {other.title}, lists {plain(row.angle)} deg here{_recalled(row)}."
