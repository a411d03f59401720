"""Drivelines: angles of universal joints, and what one joint does to the speed.

Angles in degrees, speeds in rpm. A slope is positive when the front of the part is higher than its rear; a
joint's angle has no sign.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    ONE,
    Number,
    WorkingOutError,
    at_least,
    gives,
    may_take,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.checks import above_zero, magnitude, plain, slopes

JOINT_END = 30
"""deg; beyond, most joints have no room. From memory, no source."""

RADIANS = 0.2
"""Where all slopes are below this, radians may have been typed."""


class JointAngle(NamedTuple):
    """The angle between two parts in space, degrees."""

    angle: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "joint-angle",
    topic="driveline",
    inputs=[
        takes("side_ahead", "deg"),
        takes("side_behind", "deg"),
        may_take("plan_ahead", "deg", 0),
        may_take("plan_behind", "deg", 0),
    ],
    results=gives(angle="deg"),
    formula="the angle between two lines in space, each with its slope in side view and in plan",
    source="angle between two vectors (1, tan plan, tan side), exact; by the makers' approximation, root of "
    "side squared plus plan squared (J3311-1 p. 13; MM-96147 p. 87; read in copies), "
    "ordinary angles differ by less than 0.01 deg",
    sentence="Ahead {side_ahead} side, {plan_ahead} plan; behind {side_behind} and {plan_behind}: {angle}.",
    example={"side_ahead": "3", "side_behind": "5.3", "plan_ahead": "0", "plan_behind": "1.4"},
    remarks=(
        "Front higher is plus for both parts: a pinion with its nose up 4 deg is +4, and no other end is "
        "read. Plan: one side plus, the same side for both.",
    ),
)
def joint_angle(
    side_ahead: Number, side_behind: Number, plan_ahead: Number = 0, plan_behind: Number = 0
) -> JointAngle:
    """Joint angle, deg: atan2(|u x v|, u . v) with u, v = (1, tan plan, tan side), good near zero.

    Side is the slope in side view, plan the angle seen from above. The published examples use the root of
    squares, which agrees for ordinary angles; the independent route is the arc cosine at high precision.
    Refuses slopes that reach 90 deg; above 30 deg, and where all slopes are below 0.2, a remark.
    """
    slopes(side_ahead=side_ahead, side_behind=side_behind, plan_ahead=plan_ahead, plan_behind=plan_behind)
    angle = _between(_axis(side_ahead, plan_ahead), _axis(side_behind, plan_behind))
    typed = (side_ahead, side_behind, plan_ahead, plan_behind)
    return JointAngle(angle, beyond(angle) + _radians(*typed))


Axis = tuple[float, float, float]


def _axis(side: Number, plan: Number) -> Axis:
    return 1.0, math.tan(math.radians(plan)), math.tan(math.radians(side))


def _between(u: Axis, v: Axis) -> float:
    cross = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    return math.degrees(math.atan2(math.hypot(*cross), sum(a * b for a, b in zip(u, v, strict=True))))


def beyond(angle: Number) -> tuple[str, ...]:
    """What to say of an angle that most joints don't reach."""
    if angle <= JOINT_END:
        return ()
    return (
        "Above 30 deg most joints have no room to turn (from memory, no source): look up the joint's own limit.",
    )


def _radians(*slopes: Number) -> tuple[str, ...]:
    if not 0 < max(magnitude(slope) for slope in slopes) < RADIANS:
        return ()
    return ("Every angle is below 0.2 deg: check that none was read in radians.",)


class PlanAngle(NamedTuple):
    """The angle of a shaft seen from above, degrees."""

    angle: Number


@working_out(
    "plan-angle",
    topic="driveline",
    inputs=[takes("offset", "mm"), takes("length", "mm")],
    results=gives(angle="deg"),
    formula="the angle whose tangent is offset divided by length",
    source="MM-96147 (2021) p. 87, read in a copy; J3311-1 has the same as a chart of offset against length",
    sentence="{offset} to one side over {length} along the vehicle: {angle} in plan.",
    example={"offset": "35", "length": "1400"},
    remarks=("Offset is how much further one joint lies to one side than the other.",),
)
def plan_angle(offset: Number, length: Number) -> PlanAngle:
    """Plan angle from offsets: atan(offset / length), deg; length along the vehicle between the joints.

    Source: an axle maker's manual; no figures of it were read, and the independent route is the angle of the
    vector between two points. Refuses a length not above 0 and an offset larger than the length.
    """
    above_zero(length=length)
    if magnitude(offset) > length:
        raise WorkingOutError(
            f"offset: {plain(offset)} mm is more than the length of {plain(length)} mm; "
            "give at most the length"
        )
    return PlanAngle(math.degrees(math.atan(offset / length)))


class JointMotion(NamedTuple):
    """The speeds between which one joint swings twice a turn, rpm, and its peak acceleration, rad/s^2."""

    fastest: Number
    slowest: Number
    peak_acceleration: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "joint-motion",
    topic="driveline",
    inputs=[takes("angle", "deg"), takes("speed", "rpm")],
    results=gives(
        fastest=shown("rpm", step=ONE, against=("speed",)),
        slowest=shown("rpm", step=ONE, against=("speed",)),
        peak_acceleration=at_least("rad/s^2", against=("300", "400", "1000")),
    ),
    formula="fastest = speed divided by the cosine of the angle, slowest = speed times the cosine; "
    "peak of the output's acceleration over one turn",
    source="kinematics of one universal joint, tan a2 = tan a1 / cos angle (joint makers' catalogues, "
    "read in copies); a limit of 1000 rad/s^2 from memory: DSAG-0200, SAE AE-7",
    sentence="At {angle} and {speed}: between {slowest} and {fastest} twice a turn, "
    "peak acceleration {peak_acceleration}.",
    example={"angle": "3", "speed": "3000"},
    remarks=(
        "From memory (DSAG-0200, SAE AE-7): inertia 1000 rad/s^2, torsion about 300 to 400 rad/s^2; "
        "a handbook site's table works out to about 402 rad/s^2.",
    ),
)
def joint_motion(angle: Number, speed: Number) -> JointMotion:
    """Speeds N / cos b and N cos b, rpm, and the exact peak of w^2 cos b sin^2 b sin 2a / (1 - sin^2 b
    cos^2 a)^2, rad/s^2, for one joint at angle b and steady input speed N.

    The peak lies where cos 2a solves (s/2) x^2 + (1 - s/2) x - s = 0 with s = sin^2 b; textbooks give an
    approximation of that place. Published factors at 30 deg are in the tests, and the independent route is to
    turn the joint in small steps. Refuses an angle that reaches 90 deg and a speed not above 0.
    """
    slopes(angle=angle)
    above_zero(speed=speed)
    cosine = math.cos(math.radians(angle))
    peak = (speed * math.pi / 30) ** 2 * _peak(math.radians(angle))
    return JointMotion(speed / cosine, speed * cosine, peak, beyond(magnitude(angle)))


def _peak(bend: float) -> float:
    """The largest output acceleration for one rad/s of steady input."""
    s = math.sin(bend) ** 2
    b = 1 - s / 2
    x = 2 * s / (b + math.sqrt(b**2 + 2 * s**2))
    return math.cos(bend) * s * math.sqrt(1 - x**2) / (1 - s * (1 + x) / 2) ** 2
