"""Drivelines: the shaft's length, critical speed and torque.

Lengths in mm, speeds in rpm, torque in N*m.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

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
from jobtrack.shopmath.checks import above_zero, between, plain
from jobtrack.shopmath.tables_sets import CRITICAL_SHARES, named

STEEL_MODULUS = 207e9
"""Pa."""
STEEL_DENSITY = 7850
"""kg/m^3."""

SHARE = Fraction(3, 4)
"""Of the critical speed."""

GRAVITY = Fraction("9.80665")
"""m/s^2, standard."""

MOST_GRIP = 2
"""Tyre on road; more is a slip of the keys. From memory, no source."""


class ShaftCriticalSpeed(NamedTuple):
    """The critical speed of a plain steel tube, and the share of it that is kept below, rpm."""

    critical: Number
    at_share: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "shaft-critical-speed",
    topic="driveline",
    inputs=[
        takes("outside", "mm"),
        takes("wall", "mm"),
        takes("length", "mm"),
        may_take("share", "ratio", SHARE, nominal=True),
    ],
    results=gives(critical=at_most("rpm"), at_share=at_most("rpm")),
    formula="7.5 pi times the speed of sound in the steel, times the root of (outside squared plus inside "
    "squared), divided by length squared",
    source="uniform beam on two supports, first principles (E 207 GPa, 7850 kg/m^3); printed constants, each "
    "with its own units, lie within 2 %: 121,000,000 in mm (ims-ltd.co.uk), 4,760,000 in inches "
    "(Machinery's Handbook, 31st ed., p. 205), 4,705,000 in inches (from memory: driveline guides)",
    sentence="Tube {outside} by {wall}, {length} between joints: critical {critical}; "
    "{share} of it is {at_share}; shaft makers' pages list 0.70 for vehicles and 0.75.",
    example={"outside": "76.2", "wall": "2.1", "length": "1500"},
    hazards=(
        "WARNING: Whirling shaft. Near its critical speed a shaft bows, breaks and comes off. "
        "Keep its highest speed below the share, the shaft maker's where there is one.",
    ),
    remarks=(
        "Joints, slip, dents and run-out make the real value lower, about a tenth (from memory: DSAG-0200).",
        "Length is from joint centre to joint centre; of a two-piece shaft each piece, to the bearing.",
        "A shaft maker's page also keeps 8 % away from half the critical speed. Steel only.",
        "The sets of shares disagree; the shaft maker's own wins over all of them.",
    ),
)
def shaft_critical_speed(
    outside: Number, wall: Number, length: Number, share: Number = SHARE
) -> ShaftCriticalSpeed:
    """First bending critical speed of a steel tube: 7.5 pi sqrt(E / rho) sqrt(D^2 + d^2) / L^2, rpm.

    D, d outside and inside diameter, L between joint centres, in mm here; E 207 GPa, rho 7850 kg/m^3. The
    independent route is a beam in finite differences; published constants are in the tests. The sets that
    list the share are named (`tables_sets`). Valid for L of at least 3 D. Refuses lengths not above 0, a wall
    of half the diameter or more, L below 3 D and a share outside 0 to 1.
    """
    above_zero(outside=outside, wall=wall, length=length, share=share)
    if 2 * wall >= outside:
        raise WorkingOutError(
            f"wall: {plain(wall)} mm is not below half of the outside diameter of {plain(outside)} mm; "
            "give the tube's wall"
        )
    if length < 3 * outside:
        raise WorkingOutError(
            f"length: {plain(length)} mm is below three diameters, where the beam formula ends; "
            f"give {plain(3 * outside)} mm or more"
        )
    if share > 1:
        raise WorkingOutError(f"share: {plain(share)} is above 1; give a share from 0 to 1, as 0.75")
    inside = outside - 2 * wall
    sound = 1000 * math.sqrt(STEEL_MODULUS / STEEL_DENSITY)
    critical = 7.5 * math.pi * sound * math.hypot(outside, inside) / length**2
    whose = named("Share", share, CRITICAL_SHARES)
    return ShaftCriticalSpeed(critical, share * critical, (whose,))


class ShaftLength(NamedTuple):
    """Joint centre to joint centre, mm, and the slope in side view, degrees."""

    length: Number
    slope: Number


@working_out(
    "shaft-length",
    topic="driveline",
    inputs=[takes("along", "mm"), may_take("across", "mm", 0), takes("vertical", "mm")],
    results=gives(length="mm", slope="deg"),
    formula="length = root of (along squared plus across squared plus vertical squared); "
    "slope = the angle whose tangent is vertical divided by along",
    source="distance of two points, plane geometry, arithmetic only; installed length as in a shaft maker's "
    "vehicle catalogue p. 31 (collapsed plus a third of the extension), read in a copy",
    sentence="{along} along, {across} across, {vertical} higher in front: {length} between centres, "
    "slope {slope}.",
    example={"along": "1400", "across": "35", "vertical": "130"},
    remarks=(
        "A shaft maker's catalogue installs at the collapsed length plus a third of the extension. "
        "Common practice, no source: a slip yoke 19 to 25 mm out from bottomed at ride height.",
        "Measure at ride height, and again at full bump and droop.",
    ),
)
def shaft_length(along: Number, vertical: Number, across: Number = 0) -> ShaftLength:
    """Distance of the joint centres: sqrt(along^2 + across^2 + vertical^2), mm; side slope, deg.

    Vertical is plus when the front joint is higher. No source publishes figures; the independent route is to
    add the arc in small steps. Refuses a distance along the vehicle not above 0.
    """
    above_zero(along=along)
    return ShaftLength(math.hypot(along, across, vertical), math.degrees(math.atan(vertical / along)))


class ShaftTorque(NamedTuple):
    """What the shaft can be asked to carry, N*m: by the engine, by the tyres, and the smaller of both."""

    by_engine: Number
    by_grip: Number
    carried: Number


@working_out(
    "shaft-torque",
    topic="driveline",
    inputs=[
        takes("engine_torque", "N*m"),
        takes("gear_ratio", "ratio"),
        takes("axle_load", "kg"),
        takes("grip", "ratio"),
        takes("tyre_radius", "mm"),
        takes("axle_ratio", "ratio"),
    ],
    results=gives(by_engine=at_least("N*m"), by_grip=at_least("N*m"), carried=at_least("N*m")),
    formula="by engine = engine torque times gear ratio; by grip = grip times axle load times gravity times "
    "tyre radius divided by axle ratio; carried = the smaller",
    source="statics, arithmetic only; standard gravity 9.80665 m/s^2",
    sentence="By the engine {by_engine}, by the tyres' grip {by_grip}: the shaft carries {carried}.",
    example={
        "engine_torque": "180",
        "gear_ratio": "3.5",
        "axle_load": "900",
        "grip": "0.8",
        "tyre_radius": "330",
        "axle_ratio": "4.1",
    },
    remarks=(
        "Steady torque: letting the clutch in and load thrown onto the axle go beyond it.",
        "The flange is compared by flange-slip-torque.",
    ),
)
def shaft_torque(
    engine_torque: Number,
    gear_ratio: Number,
    axle_load: Number,
    grip: Number,
    tyre_radius: Number,
    axle_ratio: Number,
) -> ShaftTorque:
    """Shaft torque, N*m: engine torque times gear ratio, and mu m g r / i by grip; the smaller is carried.

    r the tyre's radius in mm, i the axle ratio. Exact for Fractions. No source publishes figures; the
    independent route is the balance of power at the wheels. Refuses any input not above 0, grip above 2.
    """
    above_zero(
        engine_torque=engine_torque,
        gear_ratio=gear_ratio,
        axle_load=axle_load,
        grip=grip,
        tyre_radius=tyre_radius,
        axle_ratio=axle_ratio,
    )
    between("grip", grip, 0, MOST_GRIP)
    by_engine = engine_torque * gear_ratio
    by_grip = grip * axle_load * GRAVITY * tyre_radius / 1000 / axle_ratio
    return ShaftTorque(by_engine, by_grip, min(by_engine, by_grip))
