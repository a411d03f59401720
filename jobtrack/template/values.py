"""What kind of value a name of a template stands for, and where it is written: the checks' common ground."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from difflib import get_close_matches
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from jobtrack import units
from jobtrack.schema.problem import Key, Problem
from jobtrack.shopmath import catalogue
from jobtrack.shopmath.quantity import Quantity
from jobtrack.template.model import Given, Reading
from jobtrack.template.one_unit import unit_of
from jobtrack.template.plan import Plan, PlannedStep, Ref

Check = Callable[[Plan], Iterable[Problem]]

NUMBER, TEXT, YES_NO, DATE, LIST = "a number", "a text", "yes or no", "a date", "a list"
_PLAIN = {"ratio", "count", "number"}
_SORTS = {"text": TEXT, "yes/no": YES_NO, "date": DATE}


class Sort(Struct, frozen=True):
    """A kind of value; a number's unit (None: a plain number), a choice's words."""

    sort: str
    unit: str | None = None
    choices: tuple[str, ...] = ()

    def __str__(self) -> str:
        return f"{self.sort} in {self.unit}" if self.unit else self.sort


def sort_of_unit(unit: str) -> Sort:
    """The kind of value that a unit of the catalogue of workings-out means."""
    if unit.startswith("list "):
        inner = unit.removeprefix("list ")
        return Sort(LIST, None if inner in _PLAIN else inner)
    if "|" in unit:
        return Sort(TEXT, choices=tuple(unit.split("|")))
    if unit in _SORTS:
        return Sort(_SORTS[unit])
    return Sort(NUMBER, None if unit in _PLAIN else "%" if unit == "percent" else unit)


def sort_of_given(given: Given) -> Sort:
    """The kind of value of a given."""
    if given.unit is not None:
        return Sort(NUMBER, given.unit)
    return Sort(TEXT, choices=given.choose) if given.choose else Sort(_SORTS.get(given.kind or "", TEXT))


def sort_of(plan: Plan, ref: Ref) -> Sort | None:
    """The kind of value that a name stands for; None where the working-out or its result isn't known."""
    if ref.kind == "given":
        return sort_of_given(plan.givens[ref.item])
    step = plan.steps[ref.step or ""].step
    if ref.kind == "reading":
        return Sort(NUMBER, step.reading[ref.item].unit)
    if ref.kind == "tick":
        return Sort(YES_NO)
    try:
        found = sort_of_unit(catalogue.find(step.work_out[ref.item].use).result(ref.result).unit)
    except catalogue.WorkingOutError:
        return None
    return replace(found, unit=found.unit or unit_of(plan, ref)) if found.sort == NUMBER else found


@lru_cache(maxsize=500)
def known_unit(unit: str | None) -> bool:
    """Whether numbers can be read in this unit."""
    return unit is None or units.known(unit)


@lru_cache(maxsize=2000)
def same_kind(one: str | None, other: str | None) -> bool:
    """Whether numbers in these units can be compared; unknown units are reported elsewhere."""
    return not known_unit(one) or not known_unit(other) or units.same_kind(one, other)


def step_key(planned: PlannedStep, *rest: str) -> Key:
    """The key of something inside a step."""
    return ("step", planned.base, *rest)


def readings(plan: Plan) -> Iterator[tuple[PlannedStep, str, Reading, Key]]:
    """Every reading of every expanded step, with its key."""
    for planned in plan.steps.values():
        for name, reading in planned.step.reading.items():
            yield planned, name, reading, step_key(planned, "reading", name)


def limit_names(planned: PlannedStep, reading: Reading) -> Iterator[tuple[Key, str]]:
    """The limits of a reading that are names, with the keys inside the reading, for this member."""
    for key in ("target", "at_least", "at_most"):
        written = getattr(reading, key)
        limit = planned.limit(written)
        if isinstance(limit, str):
            yield (key, planned.member or "") if isinstance(written, dict) else (key,), limit


def names_of(plan: Plan, planned: PlannedStep) -> list[str]:
    """Names that could be meant in a step, for the nearest spelling."""
    names = [
        f"{each}.{item}"
        for step in plan.steps.values()
        for each in (step.id, step.base)
        for item in _items(step)
    ]
    return [*_items(planned), *names, *plan.givens]


def _items(planned: PlannedStep) -> list[str]:
    step = planned.step
    results = [
        f"{name}.{result.key}" for name, work in step.work_out.items() for result in results_of(work.use)
    ]
    return [*step.reading, *step.tick, *results]


def results_of(use: str) -> tuple[Quantity, ...]:
    """The results of a working-out; none if there is no such one."""
    try:
        return catalogue.find(use).results
    except catalogue.WorkingOutError:
        return ()


def did_you_mean(name: str, known: Iterable[str], otherwise: str) -> str:
    """A mend line with the nearest spelling, or another one."""
    near = get_close_matches(name, list(known), 1)
    return f"Did you mean {near[0]}?" if near else otherwise


def one_of(known: Iterable[str]) -> str:
    """A mend line that lists what could stand there."""
    listed = ", ".join(known)
    return f"Known here: {listed}" if listed else "Nothing of that kind is declared in this template"
