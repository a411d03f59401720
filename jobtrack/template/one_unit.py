"""Workings-out that take any number, as long as all of theirs are in one unit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from jobtrack import units
from jobtrack.shopmath import catalogue
from jobtrack.shopmath.quantity import Quantity
from jobtrack.template.model import WorkOut
from jobtrack.template.plan import Plan, PlannedStep, Ref

_ANY = ("number", "list number")
_PLAIN = ("number", "count", "ratio")


class UnitsDiffer(catalogue.WorkingOutError):
    """What feeds a working-out that takes any number isn't in one unit."""

    mend = "Give all as plain numbers, or all in one unit"

    def __init__(self, key: str, why: str) -> None:
        super().__init__(f"{key}: {why}. {self.mend}")
        self.key, self.why = key, why


def in_one_unit(plan: Plan, planned: PlannedStep, work: WorkOut) -> catalogue.WorkingOut:
    """A step's working-out, with the unit of what feeds it where any number will do.

    Numbers that the template writes itself are taken in that unit. Raises WorkingOutError where there is no
    such working-out, UnitsDiffer where units do: a doubt in °F beside a value in °C can't be converted as one.
    """
    found = catalogue.find(work.use)
    fed = list(_fed(plan, planned, work))
    for key, unit in fed:
        if _shown(unit) != _shown(fed[0][1]):
            raise UnitsDiffer(key, f"{unit or 'no unit'} beside {fed[0][1] or 'no unit'}")
    return _with_unit(found, fed[0][1]) if fed and fed[0][1] else found


def _fed(plan: Plan, planned: PlannedStep, work: WorkOut) -> Iterator[tuple[str, str | None]]:
    """The inputs that take any number and are fed by a name, each with the unit of what feeds it."""
    for one in catalogue.find(work.use).inputs:
        name = work.inputs.get(one.key)
        ref = plan.resolve(name, planned) if one.unit in _ANY and isinstance(name, str) else None
        if ref is not None and ref.kind in ("reading", "given", "result"):
            yield one.key, unit_of(plan, ref)


def _shown(unit: str | None) -> str:
    return units.shown(unit) if unit is None or units.known(unit) else unit


def unit_of(plan: Plan, ref: Ref) -> str | None:
    """The unit of what a name stands for; None for a plain number, a text, or what isn't known."""
    if ref.kind == "given":
        return plan.givens[ref.item].unit
    planned = plan.steps.get(ref.step or "")
    if planned is None or ref.kind == "tick":
        return None
    if ref.kind == "reading":
        return planned.step.reading[ref.item].unit
    if ref.name not in plan.units:
        plan.units[ref.name] = None  # what stands on itself has none
        plan.units[ref.name] = _unit_of_result(plan, planned, ref)
    return plan.units[ref.name]


def _unit_of_result(plan: Plan, planned: PlannedStep, ref: Ref) -> str | None:
    try:
        unit = in_one_unit(plan, planned, planned.step.work_out[ref.item]).result(ref.result).unit
    except catalogue.WorkingOutError:
        return None
    return None if unit in _PLAIN else unit


def _with_unit(found: catalogue.WorkingOut, unit: str) -> catalogue.WorkingOut:
    inputs = tuple(_in_unit(one, unit) for one in found.inputs)
    return replace(found, inputs=inputs, results=tuple(_in_unit(one, unit) for one in found.results))


def _in_unit(one: Quantity, unit: str) -> Quantity:
    if one.unit not in _ANY:
        return one
    return replace(one, unit=f"list {unit}" if one.items else unit)
