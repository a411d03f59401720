"""Loads: what each axle carries, and the lowest rating of an axle and its parts. Mass in kg, length in mm."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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
from jobtrack.shopmath.common.checks import above_zero, between, not_below_zero, plain

MOST_TYRES = 8


class AxleLoads(NamedTuple):
    """What each axle carries, kg, and what the figures don't cover."""

    front: Number
    rear: Number
    total: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "axle-loads",
    topic="loads",
    inputs=[
        takes("wheelbase", "mm"),
        may_take("front_now", "kg", 0),
        may_take("rear_now", "kg", 0),
        takes("items", "list mass @ distance"),
    ],
    results=gives(front="kg", rear="kg", total="kg"),
    formula="rear = rear now plus the sum of (mass times distance behind the front axle) divided by "
    "wheelbase; front = front now plus the rest of each mass",
    source="moments about the front axle, as in a truck chassis body-builder manual, Appendix B "
    "(its printed front share corrected: the remainder of 100 lb is 37.85 lb, not 38.86)",
    sentence="Front {front}, rear {rear}, total {total}; the limits are on the vehicle's plate.",
    example={
        "wheelbase": "2700",
        "front_now": "900",
        "rear_now": "850",
        "items": "90 kg @ 3.1 m, -40 kg @ 800 mm",
    },
    hazards=(
        "WARNING: Front wheels lifted. A mass behind the rear axle takes load off the front axle, and "
        "steering and braking go with it. Weigh each axle before driving.",
    ),
    remarks=(
        "A total below its rating says nothing about each axle, nor an axle about each side: weigh.",
        "Distances count behind the front axle; ahead of it they are negative. A negative mass is taken off.",
    ),
    together=(("front_now", "rear_now"),),
)
def axle_loads(
    wheelbase: Number,
    items: Sequence[tuple[Number, Number]],
    front_now: Number = 0,
    rear_now: Number = 0,
) -> AxleLoads:
    """Axle loads with items added: rear = now + sum(m x) / L, front = now + sum(m) - sum(m x) / L, kg.

    x is the distance behind the front axle, L the wheelbase. Statics; published examples are in the tests,
    and the independent route is moments about the rear axle. Refuses a wheelbase not above 0, loads now below
    0, no items, a front load of 0 or less, and a rear load below 0 when the loads now are given.
    """
    above_zero(wheelbase=wheelbase)
    not_below_zero(front_now=front_now, rear_now=rear_now)
    if not items:
        raise WorkingOutError("items: missing; give at least one as mass @ distance behind the front axle")
    added = sum(mass for mass, _ in items)
    behind = sum(mass * distance for mass, distance in items) / wheelbase
    front, rear = front_now + added - behind, rear_now + behind
    _refuse_lifted(front, rear, weighed=front_now + rear_now > 0)
    remark = "The rear load is below 0: it is a change to a load that wasn't given, not a load."
    return AxleLoads(front, rear, front + rear, (remark,) if rear < 0 else ())


def _refuse_lifted(front: Number, rear: Number, *, weighed: bool) -> None:
    if front <= 0:
        raise WorkingOutError(
            f"items: the front axle would carry {plain(front)} kg, its wheels off the ground; "
            "give the loads now, or masses and distances that leave it above 0"
        )
    if weighed and rear < 0:
        raise WorkingOutError(
            f"items: the rear axle would carry {plain(rear)} kg, its wheels off the ground; "
            "give masses and distances that leave it at 0 or more"
        )


class AxleLimit(NamedTuple):
    """The lowest rating, kg for the axle, whose it is, and how far it lies below the plate."""

    lowest_rating: Number
    weakest: str
    below_plate: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "axle-limit",
    topic="loads",
    inputs=[
        takes("plate", "kg"),
        may_take("housing", "kg"),
        may_take("spring_each", "kg"),
        may_take("wheel_each", "kg"),
        may_take("tyre_each", "kg"),
        may_take("tyres", "count", 2, beside="tyre_each"),
        may_take("brakes", "kg"),
        may_take("shaft", "kg"),
        may_take("bearings", "kg"),
    ],
    results=gives(
        lowest_rating=at_most("kg", against=("plate",)), weakest="text", below_plate=at_least("kg")
    ),
    formula="the lowest of plate, housing, 2 springs, 2 wheels, all tyres, brakes, shaft and bearings, "
    "each as a rating of the whole axle",
    source="the rating follows the weakest part of the axle system, and work on a used vehicle doesn't "
    "raise it: agency letters on GAWR (6 May 1974; aiam0613) and on modified vehicles (1997), read in copies",
    sentence="Lowest rating {lowest_rating} ({weakest}); plate {plate}, the vehicle maker's; "
    "{below_plate} below the plate.",
    example={"plate": "1720", "spring_each": "1250", "wheel_each": "1200", "tyre_each": "900"},
    hazards=(
        "WARNING: Overloaded axle. A part loaded above its rating can break while driving. "
        "Load the axle by the lowest rating, and weigh it.",
    ),
    remarks=("The rating on the plate is not raised by stronger parts; only the vehicle's maker sets it.",),
)
def axle_limit(
    plate: Number,
    housing: Number | None = None,
    spring_each: Number | None = None,
    wheel_each: Number | None = None,
    tyre_each: Number | None = None,
    tyres: int = 2,
    brakes: Number | None = None,
    shaft: Number | None = None,
    bearings: Number | None = None,
) -> AxleLimit:
    """The lowest of an axle's plate and the ratings of its parts, kg.

    Springs and wheels count twice, tyres as often as there are; the others are ratings of the whole axle.
    Equal ratings: the first in the order of the arguments. Source: agency letters on the rating of an axle
    system; the figures are arithmetic only, with sorting as the independent route.
    Refuses ratings not above 0 and fewer than 2 or more than 8 tyres.
    """
    ratings = {
        "plate": plate,
        "housing": housing,
        "spring_each": spring_each,
        "wheel_each": wheel_each,
        "tyre_each": tyre_each,
        "brakes": brakes,
        "shaft": shaft,
        "bearings": bearings,
    }
    above_zero(**{key: rating for key, rating in ratings.items() if rating is not None})
    between("tyres", tyres, 2, MOST_TYRES)
    known, absent = _for_the_axle(ratings, tyres)
    weakest = min(known, key=lambda part: known[part])
    lowest = known[weakest]
    return AxleLimit(lowest, weakest, plate - lowest, _limit_remarks(absent, lowest < plate))


def _for_the_axle(ratings: Mapping[str, Number | None], tyres: int) -> tuple[dict[str, Number], list[str]]:
    """The known ratings by part, each for the whole axle, and the parts without one."""
    parts = {"spring_each": ("springs", 2), "wheel_each": ("wheels", 2), "tyre_each": ("tyres", tyres)}
    known: dict[str, Number] = {}
    absent: list[str] = []
    for key, rating in ratings.items():
        part, count = parts.get(key, (key, 1))
        if rating is None:
            absent.append(part)
        else:
            known[part] = count * rating
    return known, absent


def _limit_remarks(absent: list[str], lowered: bool) -> tuple[str, ...]:
    remarks = []
    if absent:
        remarks.append(f"Not compared, since no rating was given: {', '.join(absent)}.")
    if lowered:
        remarks.append("The plate now stands above the lowest part: tell the owner in writing.")
    return tuple(remarks)
