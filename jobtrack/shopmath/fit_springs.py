"""Fit of U-bolts and shock absorbers.

Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import (
    Number,
    WorkingOutError,
    at_least,
    at_most,
    gives,
    may_take,
    takes,
    working_out,
)
from jobtrack.shopmath.checks import above_zero, not_below_zero, plain

LEAST_PROJECTION = Fraction("6.35")
"""1/4 in of thread beyond the nut: a state's vehicle inspection rule (COMAR 11.14.05.03), read in a copy."""

Bend = Literal["round", "square"]


class UBoltLeg(NamedTuple):
    """The length of a U-bolt's leg, inside of the crown to the tip, mm."""

    leg: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "u-bolt-leg",
    topic="fit",
    inputs=[
        takes("stack", "list mm"),
        takes("washer", "mm"),
        takes("nut", "mm"),
        takes("projection", "mm"),
    ],
    results=gives(leg=at_least("mm")),
    formula="everything clamped plus washer plus nut plus projection",
    source="sum of lengths, arithmetic only; 1/4 in of thread beyond the nut from a state's vehicle "
    "inspection rule (COMAR 11.14.05.03), read in a copy",
    sentence="Leg {leg}, with {projection} beyond the nut; a state inspection rule (COMAR 11.14.05.03) lists "
    "at least 6.35 mm.",
    example={"stack": "45, 12, 76.2, 10", "washer": "3", "nut": "14", "projection": "8"},
    hazards=(
        "WARNING: U-bolt used again. Threads are distorted by the first tightening and the clamp is lost. "
        "Fit new U-bolts and nuts, neither welded nor heated.",
    ),
    remarks=(
        "Inside of the crown to the tip. In the stack: spring pack, spacers, perch, tube or seat, plate.",
        "The torque of a U-bolt is its supplier's figure for that bolt and finish: ask.",
    ),
)
def u_bolt_leg(stack: Sequence[Number], washer: Number, nut: Number, projection: Number) -> UBoltLeg:
    """Leg length, inside of crown to tip: sum(stack) + washer + nut + projection, mm; exact for Fractions.

    No source publishes figures. No second way: a sum has one way only; the tests pile the parts up on a line.
    Refuses parts below 0, a stack or a nut not above 0; a projection below 6.35 mm gets a remark.
    """
    for part in stack:
        not_below_zero(stack=part)
    above_zero(stack=sum(stack), nut=nut)
    not_below_zero(washer=washer, projection=projection)
    remark = f"Projection {plain(projection)} mm: less than the inspection rule's 6.35 mm (1/4 in)."
    leg = sum(stack) + washer + nut + projection
    return UBoltLeg(leg, (remark,) if projection < LEAST_PROJECTION else ())


class UBoltBlank(NamedTuple):
    """The length of straight rod for one U-bolt, mm."""

    blank: Number


@working_out(
    "u-bolt-blank",
    topic="fit",
    inputs=[
        takes("inside_width", "mm"),
        takes("leg", "mm"),
        takes("rod", "mm", nominal=True),
        takes("bend", "round|square"),
        may_take("bend_radius", "mm"),
    ],
    results=gives(blank="mm"),
    formula="round: 2 (leg - width / 2) + pi (width + rod) / 2; "
    "square, r the inside bend radius: 2 (leg - r) + (width - 2 r) + pi (r + rod / 2)",
    source="length of the rod's centreline, plane geometry, arithmetic only; no allowance for stretch",
    sentence="Bent {bend}, {inside_width} inside, leg {leg}, rod {rod}: {blank} of rod.",
    example={"inside_width": "3 1/8 in", "leg": "7 in", "rod": "9/16 in", "bend": "round"},
    remarks=(
        "Width is between the legs, inside; one supplier measures leg centre to leg centre, "
        "a rod diameter more. Write down which.",
        "Bend one and measure it before cutting the rest.",
    ),
)
def u_bolt_blank(
    inside_width: Number, leg: Number, rod: Number, bend: Bend, bend_radius: Number | None = None
) -> UBoltBlank:
    """Rod for a U-bolt along its centreline, mm; B inside width, C leg to the inside of the crown, d rod.

    Round: 2 (C - B/2) + pi (B + d) / 2. Square with inside radius r: 2 (C - r) + (B - 2r) + pi (r + d/2).
    Plane geometry; no source publishes figures, and the independent route is to walk the centreline in small
    steps. Refuses lengths not above 0, a square bend without a radius, a radius below 0 or above half the
    width, a radius for a round bend, and a leg shorter than its bend.
    """
    above_zero(inside_width=inside_width, leg=leg, rod=rod)
    radius = _radius(inside_width, bend, bend_radius)
    if leg < radius:
        raise WorkingOutError(
            f"leg: {plain(leg)} mm is shorter than the bend, {plain(radius)} mm; give the length "
            "from the inside of the crown to the tip"
        )
    return UBoltBlank(2 * (leg - radius) + (inside_width - 2 * radius) + math.pi * (radius + rod / 2))


def _radius(inside_width: Number, bend: Bend, bend_radius: Number | None) -> Number:
    """The inside radius of the two bends: half the width where they make one round crown."""
    if bend == "round":
        if bend_radius is not None:
            raise WorkingOutError(
                "bend_radius: a round bend takes half its inside width; leave it out, or give bend=square"
            )
        return inside_width / 2
    if bend_radius is None:
        raise WorkingOutError("bend_radius: missing; a square bend needs its inside radius in mm")
    not_below_zero(bend_radius=bend_radius)
    if bend_radius > inside_width / 2:
        raise WorkingOutError(
            f"bend_radius: {plain(bend_radius)} mm is more than half of the inside width of "
            f"{plain(inside_width)} mm; give at most {plain(inside_width / 2)} mm"
        )
    return bend_radius


class ShockFit(NamedTuple):
    """The damper's length at both ends of the axle's travel, what is left there, mm, and where it rides."""

    length_at_bump: Number
    left_at_bump: Number
    length_at_droop: Number
    left_at_droop: Number
    ride_share: Number
    """0 closed, 1 open."""
    remarks: tuple[str, ...] = ()


@working_out(
    "shock-fit",
    topic="fit",
    inputs=[
        takes("collapsed", "mm"),
        takes("extended", "mm"),
        takes("ride_length", "mm"),
        takes("lean", "deg"),
        takes("bump", "mm"),
        takes("droop", "mm"),
    ],
    results=gives(
        length_at_bump="mm",
        left_at_bump=at_most("mm", against=("0",)),
        length_at_droop="mm",
        left_at_droop=at_most("mm", against=("0",)),
        ride_share="ratio",
    ),
    formula="length = root of ((ride length times sine of lean) squared plus (ride length times cosine of "
    "lean, less bump or plus droop) squared); left: from collapsed, and to extended",
    source="plane geometry, arithmetic only; lean of 30 deg from upright as quoted on a mounting page; "
    "margins of 10 to 25 mm from memory: makers' fitting notes",
    sentence="At bump {length_at_bump}, {left_at_bump} from the maker's collapsed length of {collapsed}; "
    "at droop {length_at_droop}, {left_at_droop} to the maker's extended length of {extended}.",
    example={
        "collapsed": "310",
        "extended": "490",
        "ride_length": "400",
        "lean": "30",
        "bump": "80",
        "droop": "80",
    },
    hazards=(
        "CAUTION: Damper used as a stop. A damper that closes or opens fully breaks its mounts. "
        "Let the axle meet its bump stop first.",
    ),
    remarks=("Lean is from upright. Bump and droop are how far the axle goes straight up and down.",),
)
def shock_fit(
    collapsed: Number, extended: Number, ride_length: Number, lean: Number, bump: Number, droop: Number
) -> ShockFit:
    """Damper length with the axle up or down by dz: sqrt((L sin)^2 + (L cos - dz)^2), mm; share of stroke.

    L is the length at ride height, lean the angle from upright; left at bump = length - collapsed, left at
    droop = extended - length, share = (L - collapsed) / (extended - collapsed). Plane geometry for a mount
    that moves straight up; no source publishes figures, the independent route is to place both mounts and
    measure. Refuses lengths not above 0, extended not above collapsed, a ride length outside both, a lean
    that reaches 90 deg, travel below 0 and bump that brings the mounts past each other. What is left can be
    below 0: a remark.
    """
    above_zero(collapsed=collapsed, ride_length=ride_length)
    not_below_zero(bump=bump, droop=droop)
    _refuse_stroke(collapsed, extended, ride_length)
    across, upright = _mounts(ride_length, lean, bump)
    at_bump, at_droop = math.hypot(across, upright - bump), math.hypot(across, upright + droop)
    left_at_bump, left_at_droop = at_bump - collapsed, extended - at_droop
    share = (ride_length - collapsed) / (extended - collapsed)
    return ShockFit(
        at_bump, left_at_bump, at_droop, left_at_droop, share, _reached(left_at_bump, left_at_droop)
    )


def _refuse_stroke(collapsed: Number, extended: Number, ride_length: Number) -> None:
    if extended <= collapsed:
        raise WorkingOutError(
            f"extended: {plain(extended)} mm is not above the collapsed length of {plain(collapsed)} mm; "
            "give the open length"
        )
    if not collapsed <= ride_length <= extended:
        raise WorkingOutError(
            f"ride_length: {plain(ride_length)} mm lies outside {plain(collapsed)} to {plain(extended)} mm, "
            "collapsed to extended"
        )


def _mounts(ride_length: Number, lean: Number, bump: Number) -> tuple[float, float]:
    """How far apart the mounts stand at ride height, across and upright."""
    if not -90 < lean < 90:
        raise WorkingOutError(
            f"lean: {plain(lean)} deg from upright lies flat or beyond; give one between -90 and 90 deg"
        )
    across = ride_length * math.sin(math.radians(lean))
    upright = ride_length * math.cos(math.radians(lean))
    if bump >= upright:
        raise WorkingOutError(
            f"bump: {plain(bump)} mm brings the mounts past each other; give less than {plain(upright)} mm"
        )
    return across, upright


def _reached(left_at_bump: float, left_at_droop: float) -> tuple[str, ...]:
    remarks = []
    if left_at_bump < 0:
        remarks.append(f"The damper is fully closed {-left_at_bump:.1f} mm before the end of bump.")
    if left_at_droop < 0:
        remarks.append(f"The damper is fully open {-left_at_droop:.1f} mm before the end of droop.")
    return tuple(remarks)
