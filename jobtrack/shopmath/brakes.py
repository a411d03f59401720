"""Brakes: pressure, and what other brakes change. Length in mm, force in N."""

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
from jobtrack.shopmath.checks import above_zero, between, not_below_zero, plain

REAR_LOCKS = (
    "WARNING: Rear wheels lock first. The vehicle spins when the rear brakes take more than the rear axle's "
    "share of the weight while braking. Compare with braking-weight-share, empty and full, then test on "
    "private ground."
)


class LinePressure(NamedTuple):
    """Pressure in the brake line, kPa."""

    pressure: Number


@working_out(
    "line-pressure",
    topic="brakes",
    inputs=[takes("pedal_force", "N"), takes("pedal_ratio", "ratio"), takes("bore", "mm", nominal=True)],
    results=gives(pressure="kPa"),
    formula="pedal force times pedal ratio divided by the area of the master cylinder's bore",
    source="hydraulics; a trade page's list (hotrodheaven.com, brakes 4) and two more pages",
    sentence="{pedal_force} at a pedal ratio of {pedal_ratio} on a bore of {bore}: {pressure} in the line.",
    example={"pedal_force": "100 lbf", "pedal_ratio": "6", "bore": "3/4 in"},
    hazards=(
        "WARNING: Fluid under pressure. A joint that gives way sprays fluid and leaves no brakes. "
        "Look at every joint while somebody holds the pedal.",
    ),
    remarks=(
        "Without a booster; with one its force counts too.",
        "A smaller bore gives more pressure and a longer pedal, in the same ratio.",
    ),
)
def line_pressure(pedal_force: Number, pedal_ratio: Number, bore: Number) -> LinePressure:
    """p = F i / (pi d^2 / 4), kPa; F at the pedal in N, i pedal ratio, d bore of the master cylinder in mm.

    Source: hydraulics; a printed list for 100 lb and ratio 6 is in the tests (made with pi = 3.14), and the
    bore's area by numerical integration is the independent route.
    Refuses a bore or ratio not above 0 and a force below 0.
    """
    not_below_zero(pedal_force=pedal_force)
    above_zero(pedal_ratio=pedal_ratio, bore=bore)
    return LinePressure(1000 * pedal_force * pedal_ratio / (math.pi / 4 * bore**2))


class RearBrakeRatio(NamedTuple):
    """New over old at the same line pressure: brake torque, force at the road, fluid for the same travel."""

    torque_ratio: Number
    road_force_ratio: Number
    fluid_ratio: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "rear-brake-ratio",
    topic="brakes",
    inputs=[
        takes("old_bore", "mm", nominal=True),
        takes("new_bore", "mm", nominal=True),
        takes("old_drum", "mm"),
        takes("new_drum", "mm"),
        may_take("old_factor", "ratio"),
        may_take("new_factor", "ratio"),
        may_take("old_tyre", "mm"),
        may_take("new_tyre", "mm"),
    ],
    results=gives(torque_ratio="ratio", road_force_ratio="ratio", fluid_ratio="ratio"),
    formula="torque = (new bore / old bore) squared times new drum / old drum times new factor / old factor; "
    "road force = that times old tyre / new tyre; fluid = (new bore / old bore) squared",
    source="brake torque = pressure x piston area x brake factor x drum radius; from memory: Limpert, Brake "
    "Design and Safety; DARCOM-P 706-358",
    sentence="At the same pressure, new over old: torque {torque_ratio}, force at the road {road_force_ratio}, "
    "fluid {fluid_ratio}; the front brakes taken as they were.",
    example={"old_bore": "7/8 in", "new_bore": "15/16 in", "old_drum": "254", "new_drum": "280"},
    hazards=(REAR_LOCKS,),
    remarks=(
        "A ratio of two brakes, no absolute torque: lining, bedding and heat change either.",
        "More fluid means a longer pedal stroke, in the ratio of the fluid.",
    ),
    together=(("old_factor", "new_factor"), ("old_tyre", "new_tyre")),
)
def rear_brake_ratio(
    old_bore: Number,
    new_bore: Number,
    old_drum: Number,
    new_drum: Number,
    old_factor: Number | None = None,
    new_factor: Number | None = None,
    old_tyre: Number | None = None,
    new_tyre: Number | None = None,
) -> RearBrakeRatio:
    """T2/T1 = (d2/d1)^2 (C2/C1) (D2/D1) at equal pressure; at the road times R1/R2; fluid (d2/d1)^2.

    d bore of a wheel cylinder, D drum, C brake factor (friction force over the push of one piston), R tyre.
    Source from memory: Limpert. Nobody publishes a ratio; the independent route integrates the friction of
    pivoted shoes over the lining and reproduces a textbook's shoe. Without factors or tyres they count as equal.
    Refuses lengths and factors not above 0, and one of a pair without the other.
    """
    above_zero(old_bore=old_bore, new_bore=new_bore, old_drum=old_drum, new_drum=new_drum)
    remarks = []
    if old_factor is None or new_factor is None:
        old_factor, new_factor = 1, 1
        remarks.append("No brake factors were given: both brakes are taken to be of one kind and lining.")
    if old_tyre is None or new_tyre is None:
        old_tyre, new_tyre = 1, 1
        remarks.append("No tyres were given: both are taken to be equal.")
    above_zero(old_factor=old_factor, new_factor=new_factor, old_tyre=old_tyre, new_tyre=new_tyre)
    fluid = Fraction(new_bore) ** 2 / Fraction(old_bore) ** 2
    torque = fluid * Fraction(new_factor) / Fraction(old_factor) * Fraction(new_drum) / Fraction(old_drum)
    return RearBrakeRatio(torque, torque * Fraction(old_tyre) / Fraction(new_tyre), fluid, tuple(remarks))


class BrakeShare(NamedTuple):
    """The rear axle's share of the braking afterwards, percent."""

    rear_share_after: Number


@working_out(
    "brake-share",
    topic="brakes",
    inputs=[takes("rear_share", "percent"), takes("ratio", "ratio")],
    results=gives(rear_share_after=at_least("percent")),
    formula="rear share times ratio, divided by (rear share times ratio plus front share)",
    source="definition of a share, the front brakes unchanged; no publication",
    sentence="Rear brakes {ratio} times as before: the rear's share of the braking goes from {rear_share} to "
    "{rear_share_after}.",
    example={"rear_share": "30", "ratio": "1.4"},
    hazards=(REAR_LOCKS,),
    remarks=("At equal line pressure, before any proportioning valve.",),
)
def brake_share(rear_share: Number, ratio: Number) -> BrakeShare:
    """s' = s k / (s k + 1 - s), percent; s the rear's share before, k how many times as strong it became.

    Definition of a share; nobody publishes a figure, the independent route is the odds s / (1 - s), multiplied.
    Refuses a share outside 0 to 100 and a ratio not above 0.
    """
    between("rear_share", rear_share, 0, 100)
    above_zero(ratio=ratio)
    rear = rear_share * ratio
    return BrakeShare(100 * rear / (rear + 100 - rear_share))


class BrakingWeightShare(NamedTuple):
    """The rear axle's share of the weight while braking, percent."""

    rear_share: Number


@working_out(
    "braking-weight-share",
    topic="brakes",
    inputs=[
        takes("mass", "kg"),
        takes("rear_mass", "kg"),
        takes("wheelbase", "mm"),
        takes("centre_height", "mm"),
        takes("deceleration", "ratio"),
    ],
    results=gives(rear_share=at_most("percent")),
    formula="rear mass divided by mass, minus deceleration (in g) times height of the centre of gravity divided "
    "by wheelbase",
    source="statics of a braked vehicle, any text on vehicle dynamics; no publication read",
    sentence="At {deceleration} g the rear axle holds {rear_share} of the weight; rear wheels lock when the rear "
    "brakes' share of the braking is above that.",
    example={
        "mass": "1800",
        "rear_mass": "700",
        "wheelbase": "3000",
        "centre_height": "700",
        "deceleration": "0.6",
    },
    hazards=(REAR_LOCKS,),
    remarks=("Work it out empty and full; deceleration is in g, 0.6 on dry tar is a hard stop.",),
)
def braking_weight_share(
    mass: Number, rear_mass: Number, wheelbase: Number, centre_height: Number, deceleration: Number
) -> BrakingWeightShare:
    """Rear share of the weight while braking: m_r / m - a h / L, percent; a in g, h height of the centre, L base.

    Statics; nobody publishes a figure, the independent route solves the balance of forces and moments.
    Refuses a mass or wheelbase not above 0, a rear mass outside 0 to mass, a height or deceleration below 0, and
    a share below 0 (the rear wheels would leave the ground; deceleration typed in m/s^2 is a likely slip).
    """
    above_zero(mass=mass, wheelbase=wheelbase)
    not_below_zero(centre_height=centre_height, deceleration=deceleration)
    between("rear_mass", rear_mass, 0, mass)
    share = rear_mass / mass - deceleration * centre_height / wheelbase
    if share < 0:
        most = rear_mass / mass * wheelbase / centre_height
        raise WorkingOutError(
            f"deceleration: at {plain(deceleration)} g the rear wheels would leave the ground; "
            f"give at most {plain(most)}, in g, not in m/s^2"
        )
    return BrakingWeightShare(100 * share)
