"""How fine each result of a working-out is said, and that none is said on the wrong side of its limit.

What each unit is said to stands in `units/rounding.py`; a value inside a step goes by that alone.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from typing import TypeGuard

from msgspec import Struct, field
from msgspec.structs import replace

from jobtrack.shopmath.catalogue import Number, Outcome, Quantity, Value, WorkingOut
from jobtrack.units.rounding import (
    Figure,
    Fineness,
    apart,
    as_given,
    as_typed,
    no_finer,
    no_finer_than_typed,
    without_noise,
)

PLAIN = ("count", "ratio", "text", "number", "yes/no", "date")
"""Units of the catalogue that aren't written beside a figure."""

Figures = dict[str, Figure]


class Known(Struct, frozen=True):
    """What is known beside an outcome."""

    typed: Mapping[str, str]
    """Inputs in words as they were given, by their keys."""
    doubts: Mapping[str, float] = field(default_factory=dict)
    """The expanded uncertainty of results, by their keys (k = 2)."""
    swings: Mapping[str, float] = field(default_factory=dict)
    """How far results swing at most with half a place of what was typed, by their keys."""


def figures_of(work: WorkingOut, outcome: Outcome, known: Known) -> Figures:
    """Each single number among the results as it is said; one that repeats a typed input stays as typed."""
    given = given_numbers(outcome, known)
    numbers = [(one, value) for one in work.results if is_number(value := outcome.values[one.key])]
    found = {
        one.key: no_finer_than_known(one_figure(one, value, given), one.key, known) for one, value in numbers
    }
    for one in work.results:
        if one.key in found and one.like:
            found[one.key] = _like(found[one.key], found[one.like])
    return _beside_limits(work, outcome, found)


def given_numbers(outcome: Outcome, known: Known) -> frozenset[Fraction]:
    """The numbers among the inputs that were typed."""
    inputs = (outcome.inputs[key] for key in known.typed)
    return frozenset(without_noise(one) for one in inputs if is_number(one) and as_given(one))


def no_finer_than_known(one: Figure, key: str, known: Known) -> Figure:
    """The figure of a result no finer than its doubt and than what was typed can tell."""
    return no_finer_than_typed(no_finer(one, known.doubts.get(key, 0)), known.swings.get(key, 0))


def one_figure(quantity: Quantity, value: Number, given: Collection[Fraction]) -> Figure:
    """One number of a quantity as it is said where nothing stands beside it."""
    unit = unit_beside(quantity)
    if quantity.unit == "count" or without_noise(value) in given:
        return as_typed(value, unit)
    return Figure(without_noise(value), unit, quantity.towards, _declared(quantity))


def is_number(value: Value) -> TypeGuard[Number]:
    """Whether a value is a single number; yes and no aren't."""
    return isinstance(value, int | float | Fraction) and not isinstance(value, bool)


def unit_beside(quantity: Quantity) -> str | None:
    """The unit that is written beside the figure; None where none is."""
    if quantity.items:
        return unit_beside(quantity.items)
    if quantity.unit == "mass @ distance":
        return "kg @ mm"
    return None if quantity.choices or quantity.unit in PLAIN else quantity.unit


def _declared(quantity: Quantity) -> Fineness | None:
    if quantity.figures:
        return Fineness(figures=quantity.figures)
    return Fineness(quantity.step) if quantity.step is not None else None


def _like(said: Figure, other: Figure) -> Figure:
    """A figure to the last place of another, as a mean to that of its uncertainty; as it is beside nought."""
    return replace(said, fineness=Fineness(other.step)) if other.value else replace(said, typed=True)


def _beside_limits(work: WorkingOut, outcome: Outcome, found: Figures) -> Figures:
    pairs = [(one.key, limit) for one in work.results if one.key in found for limit in one.against]
    for key, limit in [*pairs, *pairs]:
        there = found.get(limit) or _limit(limit, found[key], outcome.inputs)
        if there is None:
            continue
        found[key], there = apart(found[key], there)
        if limit in found:
            found[limit] = there
    return found


def _limit(limit: str, said: Figure, inputs: Mapping[str, Value]) -> Figure | None:
    """What a figure stands beside, where that is an input or a number of the sentence; None: not given."""
    value = inputs[limit] if limit in inputs else Fraction(limit)
    if not is_number(value):
        return None
    return said if without_noise(value) == said.value else as_typed(value, said.unit)
