"""Drivelines: speeds and axle ratios. Speeds in rpm and km/h, tyres in mm."""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import A_HUNDREDTH, Number, gives, may_take, shown, takes, working_out
from jobtrack.shopmath.checks import above_zero

Turned = Literal["both wheels", "one wheel"]
DrivenFrom = Literal["gearbox", "wheels"]


class ShaftSpeed(NamedTuple):
    """Speeds of the shaft and of the engine, rpm."""

    shaft: Number
    engine: Number


@working_out(
    "shaft-speed",
    topic="driveline",
    inputs=[
        takes("road_speed", "km/h"),
        takes("axle_ratio", "ratio"),
        may_take("gear_ratio", "ratio", 1),
        takes("tyre_diameter", "mm"),
    ],
    results=gives(shaft="rpm", engine="rpm"),
    formula="shaft = road speed divided by (pi times tyre diameter), times axle ratio; "
    "engine = shaft times gear ratio",
    source="circumference of a circle, arithmetic only; in miles and inches the constant is 336.135",
    sentence="At {road_speed} with axle ratio {axle_ratio} and tyres of {tyre_diameter}: shaft {shaft}, "
    "engine {engine} in gear ratio {gear_ratio}.",
    example={"road_speed": "65 mph", "axle_ratio": "4.10", "tyre_diameter": "29 in"},
    remarks=(
        "A tyre under load rolls on a little less than its diameter, so both turn a little faster.",
        "Overdrive is a gear ratio below 1: the shaft then turns faster than the engine.",
    ),
)
def shaft_speed(
    road_speed: Number, axle_ratio: Number, tyre_diameter: Number, gear_ratio: Number = 1
) -> ShaftSpeed:
    """Shaft speed v i / (pi D) and engine speed, rpm, without slip; v in km/h, D in mm.

    No source publishes figures; the independent route is to count wheel turns over a distance rolled.
    Refuses any input not above 0.
    """
    above_zero(
        road_speed=road_speed, axle_ratio=axle_ratio, gear_ratio=gear_ratio, tyre_diameter=tyre_diameter
    )
    wheel = road_speed * 1_000_000 / 60 / (math.pi * tyre_diameter)
    return ShaftSpeed(wheel * axle_ratio, wheel * axle_ratio * gear_ratio)


class AxleRatioFromTurns(NamedTuple):
    """The axle's ratio, shaft turns for one of both wheels."""

    ratio: Number


@working_out(
    "axle-ratio-from-turns",
    topic="driveline",
    inputs=[
        takes("shaft_turns", "ratio"),
        takes("wheel_turns", "ratio", nominal=True),
        takes("turned", "both wheels|one wheel"),
    ],
    results=gives(ratio=shown("ratio", step=A_HUNDREDTH)),
    formula="shaft turns divided by wheel turns; one wheel turned, the other held: twice that",
    source="an open differential's housing turns by the mean of its wheels: kinematics, arithmetic only",
    sentence="{shaft_turns} turns of the shaft for {wheel_turns} of {turned}: ratio {ratio}.",
    example={"shaft_turns": "37.3", "wheel_turns": "10", "turned": "both wheels"},
    remarks=(
        "Ten turns or more: the doubt in counting shrinks with them. The tag or the count of teeth wins.",
        "One wheel: the other is held, and the differential is an open one. A locked or tight one doesn't "
        "turn so.",
    ),
)
def axle_ratio_from_turns(shaft_turns: Number, wheel_turns: Number, turned: Turned) -> AxleRatioFromTurns:
    """Axle ratio from counted turns: shaft / wheel, or 2 shaft / wheel with the other wheel held.

    Exact for Fractions. No source publishes figures; the independent route is the speeds of a differential
    solved as equations. Refuses turns not above 0.
    """
    above_zero(shaft_turns=shaft_turns, wheel_turns=wheel_turns)
    ratio = shaft_turns / wheel_turns
    return AxleRatioFromTurns(ratio if turned == "both wheels" else 2 * ratio)


class Speedometer(NamedTuple):
    """The speed on the road when the old gauge shows this, km/h, and true over indicated."""

    true_speed: Number
    factor: Number


@working_out(
    "speedometer",
    topic="driveline",
    inputs=[
        takes("indicated", "km/h"),
        takes("old_axle_ratio", "ratio"),
        takes("new_axle_ratio", "ratio"),
        takes("old_tyre", "mm"),
        takes("new_tyre", "mm"),
        takes("driven_from", "gearbox|wheels"),
    ],
    results=gives(true_speed=shown("km/h", against=("indicated",)), factor=shown("ratio", against=("1",))),
    formula="factor = new tyre divided by old tyre, and from the gearbox also times old ratio divided by new "
    "ratio; true speed = indicated times factor",
    source="proportion of turns, arithmetic only",
    sentence="Shown {indicated}, driven from the {driven_from}: {true_speed} on the road, factor {factor}.",
    example={
        "indicated": "100",
        "old_axle_ratio": "3.55",
        "new_axle_ratio": "4.10",
        "old_tyre": "700",
        "new_tyre": "700",
        "driven_from": "gearbox",
    },
    hazards=(
        "WARNING: Speed read wrongly. With a factor above 1 the vehicle is faster than it shows. "
        "Have the speedometer set to the new axle and tyres.",
    ),
    remarks=("Taken that it was right with the old axle and tyres. Distances change by the same factor.",),
)
def speedometer(
    indicated: Number,
    old_axle_ratio: Number,
    new_axle_ratio: Number,
    old_tyre: Number,
    new_tyre: Number,
    driven_from: DrivenFrom,
) -> Speedometer:
    """True speed, km/h, after another axle ratio or tyre diameter, of a gauge that was right before.

    Factor from the wheels: new tyre / old tyre; from the gearbox also times old ratio / new ratio. Exact for
    Fractions. No source publishes figures; the independent route is to count the gauge's turns over a
    distance. Refuses any input not above 0.
    """
    above_zero(
        indicated=indicated,
        old_axle_ratio=old_axle_ratio,
        new_axle_ratio=new_axle_ratio,
        old_tyre=old_tyre,
        new_tyre=new_tyre,
    )
    tyres = new_tyre / old_tyre
    factor = tyres if driven_from == "wheels" else tyres * old_axle_ratio / new_axle_ratio
    return Speedometer(indicated * factor, factor)
