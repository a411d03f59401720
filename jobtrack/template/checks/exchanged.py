"""Checks: which vehicle steps are about, and the ratings of what a vehicle gets in the place of its own."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Key, Problem
from jobtrack.template.checks.names import unknown
from jobtrack.template.model import Exchanged
from jobtrack.template.plan import VEHICLE_SET, Plan
from jobtrack.template.values import NUMBER, did_you_mean, same_kind, sort_of_given


def check_about(plan: Plan) -> Iterator[Problem]:
    """`about` names a vehicle, and a step that is repeated over them is about its own."""
    vehicles, about = plan.template.vehicle, plan.template.about
    if about is not None and about not in vehicles:
        yield unknown(("about",), about, "vehicle", vehicles)
    for base, step in plan.template.step.items():
        key = ("step", base, "about")
        if step.about is None:
            continue
        if step.about not in vehicles:
            yield unknown(key, step.about, "vehicle", vehicles)
        elif plan.by_base[base][0].set == VEHICLE_SET:
            yield Problem(key, "a step over vehicle is about each of them", "Remove it")


def check_exchanged(plan: Plan) -> Iterator[Problem]:
    """What is exchanged names a vehicle and two givens, numbers of one kind that are not the same."""
    for id, part in plan.template.exchanged.items():
        key = ("exchanged", id)
        if part.vehicle not in plan.template.vehicle:
            yield unknown((*key, "vehicle"), part.vehicle, "vehicle", plan.template.vehicle)
        wrong = [*_rating(plan, (*key, "own"), part.own), *_rating(plan, (*key, "gets"), part.gets)]
        yield from wrong
        if not wrong:
            yield from _apart(plan, (*key, "gets"), part)


def _rating(plan: Plan, key: Key, name: str) -> Iterator[Problem]:
    """What holds a rating is a given with a number."""
    if name not in plan.givens:
        mend = did_you_mean(name, plan.givens, "Declare it under given")
        yield Problem(key, f"{name} is no given", mend)
    elif (found := sort_of_given(plan.givens[name])).sort != NUMBER:
        yield Problem(key, f"{name} is {found}, wanted is a number", "Name a given with a unit")


def _apart(plan: Plan, key: Key, part: Exchanged) -> Iterator[Problem]:
    own, gets = (sort_of_given(plan.givens[name]).unit for name in (part.own, part.gets))
    if part.own == part.gets:
        yield Problem(key, f"{part.gets} is the rating of its own part", "Name the given of what it gets")
    elif not same_kind(own, gets):
        why = f"{part.gets} is in {gets}, {part.own} in {own}: neither can be told to be lower"
        yield Problem(key, why, "Name givens of one kind, or mend a unit")
