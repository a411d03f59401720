"""Loads: from what a scale shows, and how much may still be loaded. Mass in kg, length in mm."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    A_TENTH,
    ONE,
    Number,
    WorkingOutError,
    at_most,
    gives,
    may_take,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, not_below_zero, plain

PERSON = Fraction(68)
"""kg, 150 lb in the federal rules: agency letters aiam0613 and GF004408. Older camper labels had 70 kg (154 lb),
EU rules have 75 kg."""


class WeighTicket(NamedTuple):
    """Where the centre of gravity lies, mm behind the front axle, and the front axle's share, percent."""

    centre_behind_front: Number
    front_share: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "weigh-ticket",
    topic="loads",
    inputs=[takes("front", "kg"), takes("rear", "kg"), takes("wheelbase", "mm")],
    results=gives(centre_behind_front=shown("mm", step=ONE), front_share=shown("percent", step=A_TENTH)),
    formula="centre of gravity behind the front axle = rear load times wheelbase divided by the total; "
    "front share = front load divided by the total",
    source="moments about the front axle, as in a truck chassis body-builder manual, Appendix B",
    sentence="Front {front}, rear {rear}: front share {front_share}, centre of gravity {centre_behind_front} "
    "behind the front axle; the limits of each axle are on the vehicle's plate.",
    example={"front": "3420 lb", "rear": "5180 lb", "wheelbase": "138 in"},
    remarks=(
        "Weigh with fluids and people as on the road, level, all wheels of an axle on the pad.",
        "An axle's load says nothing about each side.",
    ),
)
def weigh_ticket(front: Number, rear: Number, wheelbase: Number) -> WeighTicket:
    """Centre of gravity from two axle loads: x = R_r L / (R_f + R_r), mm; front share 100 R_f / (R_f + R_r).

    Statics; no result is published, and the independent route is the point about which the moments of both
    axles, integrated along the vehicle, vanish. Refuses a wheelbase or a front load not above 0 (the front
    wheels are off the ground, or the axle was not weighed) and a rear load below 0.
    """
    above_zero(front=front, wheelbase=wheelbase)
    not_below_zero(rear=rear)
    total = front + rear
    remark = "A rear load of 0: the rear wheels carry nothing, or that axle was not weighed."
    return WeighTicket(rear * wheelbase / total, 100 * front / total, (remark,) if rear == 0 else ())


class CargoCapacity(NamedTuple):
    """What may still be loaded, kg; below 0 when people, water and gas alone go beyond the rating."""

    capacity: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "cargo-capacity",
    topic="loads",
    inputs=[
        takes("rated", "kg"),
        takes("unloaded", "kg"),
        may_take("gas", "kg", 0),
        may_take("people", "count", 0),
        may_take("person", "kg", PERSON, beside="people"),
        may_take("water", "kg", 0),
    ],
    results=gives(capacity=at_most("kg", against=("0",))),
    formula="rated mass minus unloaded mass, full propane, people and water",
    source="49 CFR 567.4(g)(3) and the camper labels of 571.110 and 571.120, as agency letters aiam0613 and "
    "aiam1673 and two motor-home handbooks give them",
    sentence="Rated {rated} by the vehicle's maker, unloaded {unloaded}, {people} people at {person}: "
    "{capacity} left.",
    example={"rated": "15000 lb", "unloaded": "8600 lb", "people": "2", "person": "150 lb"},
    hazards=(
        "WARNING: Overloaded axle. A total below the rating can leave one axle above its own. "
        "Weigh each axle with everything on board.",
    ),
    remarks=(
        "gas is propane at its full mass (tanks are filled to 80 %), people are those not in the unloaded mass.",
        "A person counts 68 kg (150 lb) in US federal rules, 75 kg in EU rules; older camper labels had 70 kg. "
        "The EU mass in running order holds the driver.",
        "Other axles, springs or tyres raise no rating: the figure on the plate stays the vehicle maker's.",
    ),
)
def cargo_capacity(
    rated: Number,
    unloaded: Number,
    gas: Number = 0,
    people: int = 0,
    person: Number = PERSON,
    water: Number = 0,
) -> CargoCapacity:
    """Mass left: rated - unloaded - gas - people x person - water, kg.

    rated is the vehicle maker's (GVWR or permissible maximum mass), unloaded holds fluids but no people.
    Source: 49 CFR 567.4 and the camper labels; two handbooks' tables are in the tests. One page takes water and
    people out of the label of 2008 already: that label is this figure without people and water.
    Refuses masses below 0, a rated or unloaded mass or a person not above 0, and rated below unloaded.
    """
    above_zero(rated=rated, unloaded=unloaded, person=person)
    not_below_zero(gas=gas, people=people, water=water)
    if rated < unloaded:
        raise WorkingOutError(
            f"rated: {plain(rated)} kg is below the unloaded mass of {plain(unloaded)} kg; "
            "give the maker's rated mass of the loaded vehicle"
        )
    capacity = rated - unloaded - gas - people * person - water
    remark = "Below 0: people, water and gas alone go beyond the rated mass."
    return CargoCapacity(capacity, (remark,) if capacity < 0 else ())
