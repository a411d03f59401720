"""The catalogue: every working-out under its name, with its inputs, results, source and remarks.

A topic module puts a function in with `@working_out(...)`; `find`, `by_topic` and `calculate` are the only
ways in from outside. Values are plain numbers in the units written here; typed text is read elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from keyword import iskeyword
from shlex import quote
from typing import Any, Protocol, TypeVar

from jobtrack.shopmath import plausible
from jobtrack.shopmath.quantity import Number, Quantity, Value, WorkingOutError, accept, nearest, said, wanted
from jobtrack.shopmath.tables_plausible import PLAUSIBLE, Plausible
from jobtrack.shopmath.tables_plausible_results import RESULTS

__all__ = [
    "A_HUNDREDTH",
    "A_TENTH",
    "ONE",
    "Number",
    "Outcome",
    "Quantity",
    "Value",
    "WorkingOut",
    "WorkingOutError",
    "at_least",
    "at_most",
    "by_topic",
    "calculate",
    "find",
    "gives",
    "may_take",
    "shown",
    "takes",
    "working_out",
]


class Results(Protocol):
    """What a working-out returns: a named tuple of its results, perhaps with `remarks` and `limit` too.

    A result whose name a tuple has already ends in `_` (`index_`).
    """

    def _asdict(self) -> dict[str, Any]: ...


@dataclass(frozen=True, slots=True)
class WorkingOut:
    """A function of the trade's arithmetic, and all that has to be said beside its figures."""

    name: str
    topic: str
    inputs: tuple[Quantity, ...]
    results: tuple[Quantity, ...]
    formula: str
    """In words."""
    source: str
    """Never empty."""
    hazards: tuple[str, ...]
    remarks: tuple[str, ...]
    example: dict[str, str]
    """Inputs as a person would type them."""
    function: Callable[..., Results]
    sentence: str
    """One sentence with {key} for inputs and results: figure, limit and whose limit, side by side."""
    together: tuple[tuple[str, ...], ...] = ()
    """Optional keys that describe one thing: all of a group are given, or none."""

    def input(self, key: str) -> Quantity:
        """The input of this key."""
        for quantity in self.inputs:
            if quantity.key == key:
                return quantity
        known = [quantity.key for quantity in self.inputs]
        raise WorkingOutError(
            f"{said(key)}: no such input of {self.name}{nearest(key, known)}; accepted: {', '.join(known)}"
        )

    def example_call(self) -> str:
        """The example as it is typed in a terminal."""
        inputs = " ".join(f"{key}={quote(text)}" for key, text in self.example.items())
        return f"jobtrack work-out {self.name} {inputs}"

    def result(self, key: str) -> Quantity:
        """The result of this key."""
        for quantity in self.results:
            if quantity.key == key:
                return quantity
        known = [quantity.key for quantity in self.results]
        raise WorkingOutError(
            f"{said(key)}: no such result of {self.name}{nearest(key, known)}; given: {', '.join(known)}"
        )


@dataclass(frozen=True, slots=True)
class Outcome:
    """The results of one calculation, with the inputs as they were used."""

    values: dict[str, Value]
    remarks: tuple[str, ...]
    source: str
    inputs: dict[str, Value]
    """Defaults filled in."""
    limit: str = ""
    """What the figure is set beside, and whose it is, where inputs decide that: {limit} in the sentence."""


ONE, A_TENTH, A_HUNDREDTH = Fraction(1), Fraction(1, 10), Fraction(1, 100)
"""Steps that a result is said to, where its unit is said finer or coarser."""

_CATALOGUE: dict[str, WorkingOut] = {}

Function = TypeVar("Function", bound=Callable[..., Results])


def takes(key: str, unit: str, *, nominal: bool = False) -> Quantity:
    """An input that has to be there; `nominal`: see Quantity."""
    return Quantity(key, unit, nominal=nominal)


def may_take(
    key: str, unit: str, default: Value = None, beside: str = "", *, nominal: bool = False
) -> Quantity:
    """An input that can be left out; `beside`: one without which it counts for nothing, so that it is wanted then."""
    return Quantity(key, unit, optional=True, default=default, beside=beside, nominal=nominal)


def gives(**results: str | Quantity) -> tuple[Quantity, ...]:
    """The results in the order of the function's named tuple: each its unit, or one of the three below."""
    return tuple(
        replace(one, key=key) if isinstance(one, Quantity) else Quantity(key, one)
        for key, one in results.items()
    )


def shown(unit: str, **how: Any) -> Quantity:
    """A result that is said finer or coarser than its unit is, or stands beside a limit: see Quantity."""
    return Quantity("", unit, **how)


def at_most(unit: str, **how: Any) -> Quantity:
    """An upper limit, or what is left: rounded down in words."""
    return Quantity("", unit, towards="down", **how)


def at_least(unit: str, **how: Any) -> Quantity:
    """A lower limit, or what has to be borne: rounded up in words."""
    return Quantity("", unit, towards="up", **how)


def working_out(
    name: str,
    *,
    topic: str,
    inputs: Sequence[Quantity],
    results: tuple[Quantity, ...],
    formula: str,
    source: str,
    sentence: str,
    example: dict[str, str],
    hazards: tuple[str, ...] = (),
    remarks: tuple[str, ...] = (),
    together: tuple[tuple[str, ...], ...] = (),
) -> Callable[[Function], Function]:
    """Put the decorated function into the catalogue under this name; the function itself is unchanged."""

    asked, told = _with_usual(inputs, PLAUSIBLE.get(name, {})), _with_usual(results, RESULTS.get(name, {}))

    def enter(function: Function) -> Function:
        _CATALOGUE[name] = WorkingOut(
            name,
            topic,
            asked,
            told,
            formula,
            source,
            hazards,
            remarks,
            example,
            function,
            sentence,
            together,
        )
        return function

    return enter


def _with_usual(each: Sequence[Quantity], usual: Mapping[str, Plausible]) -> tuple[Quantity, ...]:
    return tuple(replace(one, plausible=usual.get(one.key)) for one in each)


def find(name: str) -> WorkingOut:
    """The working-out of this name."""
    if name not in _CATALOGUE:
        hint = nearest(name, list(_CATALOGUE))
        raise WorkingOutError(f"{said(name)}: no such working-out{hint}; `jobtrack work-out` lists them")
    return _CATALOGUE[name]


def by_topic() -> dict[str, list[str]]:
    """The names of all workings-out by topic, in the order of the catalogue."""
    topics: dict[str, list[str]] = {}
    for work in _CATALOGUE.values():
        topics.setdefault(work.topic, []).append(work.name)
    return topics


def calculate(name: str, inputs: Mapping[str, Value]) -> Outcome:
    """Work it out from values that are already in the catalogue's units.

    Numbers are Fraction, int or float; a list is a tuple; "mass @ distance" is a tuple of (kg, mm) pairs.
    Unknown, missing or lone keys, wrong types, NaN, infinities and values out of range: WorkingOutError.
    """
    work = find(name)
    used = _filled_in(work, inputs)
    arguments = {f"{key}_" if iskeyword(key) else key: value for key, value in used.items()}
    done = work.function(**arguments)._asdict()
    values = {key.removesuffix("_"): value for key, value in done.items()}
    remarks, limit = values.pop("remarks", ()), values.pop("limit", "")
    given = {key: value for key, value in used.items() if inputs.get(key) is not None}
    asked = plausible.remarks_on(work.inputs, given)
    beyond = plausible.remarks_on_results(work.results, values)
    return Outcome(values, work.remarks + remarks + asked + beyond, work.source, used, limit)


def _filled_in(work: WorkingOut, inputs: Mapping[str, Value]) -> dict[str, Value]:
    given = {key: value for key, value in inputs.items() if value is not None}
    for key in inputs:
        work.input(key)
    for group in work.together:
        absent = [key for key in group if key not in given]
        if absent and len(absent) < len(group):
            raise WorkingOutError(f"{absent[0]}: missing; {' and '.join(group)} go together")
    for each in work.inputs:
        if each.key in given and each.beside and each.beside not in given:
            raise WorkingOutError(f"{each.beside}: missing; without it {each.key} counts for nothing")
    _refuse_missing(work, given)
    return {each.key: _filled(each, given) for each in work.inputs}


def _filled(quantity: Quantity, given: Mapping[str, Value]) -> Value:
    return accept(quantity, given[quantity.key]) if quantity.key in given else quantity.default


def _refuse_missing(work: WorkingOut, given: Mapping[str, Value]) -> None:
    """Refuse what isn't whole: all that is missing, each with what it takes, and the example as one types it."""
    missing = [each for each in work.inputs if not each.optional and each.key not in given]
    if missing:
        first, *more = missing
        others = "".join(f", {each.key} ({wanted(each)})" for each in more)
        raise WorkingOutError(
            f"{first.key}: missing; give {wanted(first)}{f'; and{others[1:]}' if more else ''}; "
            f"for example: {work.example_call()}"
        )
