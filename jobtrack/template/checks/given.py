"""Checks on what is asked at the start, and on what depends on it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.template.checks.names import unknown
from jobtrack.template.model import Given
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.values import (
    DATE,
    NUMBER,
    TEXT,
    YES_NO,
    Sort,
    did_you_mean,
    known_unit,
    limit_names,
    readings,
    sort_of_given,
)

KINDS = ("text", "yes/no", "date")
Answers = tuple[str | bool, ...]


def given_key(name: str) -> Key:
    """The key of a given as it is written, under its vehicle where it is a vehicle's own."""
    return ("given", *name.split("."))


def check_givens(plan: Plan) -> Iterator[Problem]:
    """A given has a unit, or choices, or a kind; its default is such a value."""
    for name, given in plan.template.given.items():
        key = given_key(name)
        if [given.unit is not None, bool(given.choose), given.kind is not None].count(True) != 1:
            yield Problem(
                key, "exactly one of unit, choose and kind belongs here", "Keep the one that is meant"
            )
        elif given.kind is not None and given.kind not in KINDS:
            yield unknown((*key, "kind"), given.kind, "kind of given", KINDS)
        elif not known_unit(given.unit):
            yield Problem(
                (*key, "unit"), f"{given.unit} is no unit known here", "Write mm, deg, N*m, kg or another one"
            )
        elif given.default is not None and not _fits(given):
            yield Problem(
                (*key, "default"),
                f"{given.default} can't be an answer here",
                f"Write {_wanted(sort_of_given(given))}",
            )
        if len(set(given.choose)) != len(given.choose):
            yield Problem((*key, "choose"), "a choice stands twice", "Write each choice once")
        vehicle = name.rpartition(".")[0]
        if vehicle and vehicle not in plan.template.vehicle:
            yield unknown(key[:-1], vehicle, "vehicle", plan.template.vehicle)


def _fits(given: Given) -> bool:
    sort, value = sort_of_given(given), given.default
    if sort.choices:
        return value in sort.choices
    if sort.sort == DATE:
        return isinstance(value, str) and _is_date(value)
    kinds: dict[str, type | tuple[type, ...]] = {TEXT: str, YES_NO: bool, NUMBER: (int, float)}
    return isinstance(value, kinds[sort.sort]) and (sort.sort == YES_NO or not isinstance(value, bool))


def _is_date(text: str) -> bool:
    try:
        return bool(datetime.date.fromisoformat(text))
    except ValueError:
        return False


def _wanted(sort: Sort) -> str:
    if sort.choices:
        return "one of " + ", ".join(sort.choices)
    return {DATE: "a date as 2031-04-02, in quotes", YES_NO: "true or false"}.get(sort.sort, str(sort))


def check_only_when(plan: Plan) -> Iterator[Problem]:
    """`only_when` names givens, and answers that they can have."""
    for name, given in plan.template.given.items():
        for asked, answers in given.only_when.items():
            yield from _answers(plan, None, (*given_key(name), "only_when", asked), asked, answers)
            if asked == name:
                yield Problem(
                    (*given_key(name), "only_when", asked), "a given can't wait for itself", "Name another"
                )
    for id, part in plan.template.exchanged.items():
        for asked, answers in part.only_when.items():
            yield from _answers(plan, None, ("exchanged", id, "only_when", asked), asked, answers)
    for planned in plan.steps.values():
        for asked, answers in planned.stage.only_when.items():
            yield from _answers(
                plan, planned, ("stage", planned.step.stage, "only_when", asked), asked, answers
            )
        for asked, answers in planned.step.only_when.items():
            yield from _answers(plan, planned, ("step", planned.base, "only_when", asked), asked, answers)


def _answers(
    plan: Plan, planned: PlannedStep | None, key: Key, asked: str, answers: Answers
) -> Iterator[Problem]:
    ref = plan.resolve(asked, planned)
    if ref is None or ref.kind != "given":
        known = [name for name, given in plan.givens.items() if given.choose or given.kind == "yes/no"]
        yield Problem(key, f"{asked} is no given", did_you_mean(asked, known, "Declare it under given"))
        return
    given = plan.givens[ref.item]
    if not given.choose and given.kind != "yes/no":
        yield Problem(
            key, f"{asked} has nothing to choose from", 'Name a given with choose, or with kind = "yes/no"'
        )
        return
    for answer in answers:
        if given.choose and answer not in given.choose:
            yield unknown(key, str(answer), f"choice of {asked}", given.choose)
        if not given.choose and not isinstance(answer, bool):
            yield Problem(key, f"{asked} is answered by yes or no", "Write true or false")
    if not answers or (len(set(answers)) == len(given.choose or (True, False)) and len(set(answers)) > 1):
        why = "no answer meets this" if not answers else "every answer meets this"
        yield Problem(key, why, "Name some of the answers, or remove it")


def check_used(plan: Plan) -> Iterator[Problem]:
    """Givens, sets, stages and due-afterwards lines that nothing uses: remarks."""
    template, used = plan.template, _used_givens(plan)
    for name, given in template.given.items():
        if name not in used and given.kind not in {"text", "date"}:
            yield remark(given_key(name), "nothing in this template uses this given", "Use it, or remove it")
    sets = {planned.set for planned in plan.steps.values()}
    for name in template.set:
        if name not in sets:
            yield remark(("set", name), "no step is repeated over this set", "Use it, or remove it")
    for name in template.stage:
        if not plan.in_stage(name):
            yield remark(("stage", name), "no step stands in this stage", "Put a step in it, or remove it")


def _used_givens(plan: Plan) -> set[str]:
    names: set[str] = set()
    for planned, name in _all_names(plan):
        ref = plan.resolve(name, planned)
        if ref is not None and ref.kind == "given":
            names.add(ref.item)
    return names


def _all_names(plan: Plan) -> Iterator[tuple[PlannedStep | None, str]]:
    for given in plan.template.given.values():
        yield from ((None, name) for name in given.only_when)
    for part in plan.template.exchanged.values():
        yield from ((None, name) for name in (part.own, part.gets, *part.only_when))
    for planned, _, reading, _ in readings(plan):
        yield from ((planned, name) for _, name in limit_names(planned, reading))
    for planned in plan.steps.values():
        yield from ((planned, name) for name in planned.only_when)
        yield from ((planned, row.then) for row in planned.step.compare.values() if row.then)
        for one in planned.step.torque.values():
            yield from ((planned, name) for name in (one.given, one.bolts) if isinstance(name, str))
        for work in planned.step.work_out.values():
            yield from ((planned, name) for name in work.inputs.values() if isinstance(name, str))
