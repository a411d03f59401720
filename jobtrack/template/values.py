"""What kind of value a name of a template stands for, and where it is written: the checks' common ground."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from difflib import SequenceMatcher
from fractions import Fraction
from functools import lru_cache

from msgspec import Struct, field
from msgspec.structs import replace

from jobtrack import units
from jobtrack.schema.problem import Key, Problem
from jobtrack.shopmath import catalogue
from jobtrack.shopmath.quantity import Quantity
from jobtrack.template.kept import kept
from jobtrack.template.model import MOST_BOLTS, Given, Reading
from jobtrack.template.one_unit import unit_of
from jobtrack.template.plan import Plan, PlannedStep, Ref

Check = Callable[[Plan], Iterable[Problem]]

MOST_COMPARED = 500_000
"""Spellings compared with one another in one template: seconds. A template with more misspelt names than that
has something else wrong with it."""
ALIKE = 0.6
"""How much alike two spellings must be for one to be taken for the other, as difflib has it."""

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


def holds_a_count(given: Given) -> bool:
    """Whether a given holds a plain number, in no unit and no share."""
    return given.unit is not None and known_unit(given.unit) and units.shown(given.unit) == ""


def is_count(value: object) -> bool:
    """Whether a value is a number of bolts: whole, from 1 to `MOST_BOLTS`."""
    number = isinstance(value, int | float | Fraction) and not isinstance(value, bool)
    return number and value in range(1, MOST_BOLTS + 1)


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


class Spellings(Struct):
    """Names that could be meant by a misspelt one; the nearest to each is found once."""

    known: list[str]
    found: dict[str, str] = field(default_factory=dict)

    def nearest(self, name: str, more: Iterable[str] = ()) -> str:
        """The nearest spelling of all these names and some more; empty where there is none, and of the long lists
        where very many names have been misspelt already."""
        if name not in self.found:
            enough = len(self.found) * len(self.known) > MOST_COMPARED
            self.found[name] = "" if enough else nearest(name, self.known)
        return nearest(name, [*more, self.found[name]])


@kept
def step_names(plan: Plan) -> Spellings:
    """The steps, each also without its member."""
    return Spellings(list(dict.fromkeys([*plan.by_base, *plan.steps])))


@kept
def value_names(plan: Plan) -> Spellings:
    """What a step may have, seen from other steps, and the givens."""
    names = [
        f"{each}.{item}"
        for step in plan.steps.values()
        for each in (step.id, step.base)
        for item in items_of(step)
    ]
    return Spellings(list(dict.fromkeys([*names, *plan.givens])))


def items_of(planned: PlannedStep) -> list[str]:
    """The readings, checks and results of a step, as it names them itself."""
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
    return or_else(nearest(name, known), otherwise)


def or_else(near: str, otherwise: str) -> str:
    """A mend line with a nearest spelling, or another one where there is none."""
    return f"Did you mean {near}?" if near else otherwise


def nearest(name: str, known: Iterable[str]) -> str:
    """The most alike of these names; empty where none is much alike.

    As difflib's own search for one close match, which measures all that are alike at all, to the end.
    """
    matcher = SequenceMatcher(b=name)
    best = (ALIKE, "")
    for each in known:
        matcher.set_seq1(each)
        if matcher.real_quick_ratio() >= best[0] and matcher.quick_ratio() >= best[0]:
            best = max(best, (matcher.ratio(), each))
    return best[1]


def one_of(known: Iterable[str]) -> str:
    """A mend line that lists what could stand there."""
    listed = ", ".join(known)
    return f"Known here: {listed}" if listed else "Nothing of that kind is declared in this template"
