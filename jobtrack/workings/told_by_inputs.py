"""How far the results of a working-out swing with what was typed: half a place of each input at a time.

What is a size from a list, a share chosen or turns counted (`nominal`) and every count is taken as it stands, and so
is what counts for an input that was left out: nobody read it off anything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from jobtrack.shopmath.catalogue import (
    Number,
    Outcome,
    Quantity,
    Value,
    WorkingOut,
    WorkingOutError,
    calculate,
)
from jobtrack.shopmath.common.swings import largest_swing
from jobtrack.units import list_items
from jobtrack.units.typed.half_place import half_a_place
from jobtrack.workings.fineness import PLAIN, is_number

Move = tuple[Fraction, Callable[[Fraction], Value]]
"""Half of a last place, and the input when it is moved by so much."""


def swings(work: WorkingOut, outcome: Outcome, typed: Mapping[str, str]) -> dict[str, float]:
    """By its key how far each result swings at most; of a list the item that swings furthest."""
    given = {key: outcome.inputs[key] for key in typed}
    most: dict[str, float] = {}
    for key, text in typed.items():
        for half, moved in _moves(work.input(key), given[key], text):
            for result, swing in _swings(work, given, key, half, moved).items():
                most[result] = max(most.get(result, 0.0), swing)
    return most


def _swings(
    work: WorkingOut, given: Mapping[str, Value], key: str, half: Fraction, moved: Callable[[Fraction], Value]
) -> dict[str, float]:
    """How far each result swings when one input, or one item of it, is moved by half a place."""

    @cache
    def values_at(by: Fraction) -> dict[str, Value]:
        try:
            return calculate(work.name, {**given, key: moved(by)}).values
        except WorkingOutError:
            return {}

    items = {(one, at) for one, value in values_at(Fraction(0)).items() for at in range(len(_numbers(value)))}
    found: dict[str, float] = {}
    for one, at in items:
        swing = largest_swing(lambda by, one=one, at=at: _item(values_at(by).get(one), at), half)  # type: ignore[misc]
        found[one] = max(found.get(one, 0.0), swing or 0.0)
    return found


def _item(value: Value, at: int) -> Number | None:
    numbers = _numbers(value)
    return numbers[at] if at < len(numbers) else None


def _numbers(value: Value) -> tuple[Number, ...]:
    """The numbers of a result: itself, or those of a list."""
    return tuple(one for one in (value if isinstance(value, tuple) else (value,)) if is_number(one))


def _moves(quantity: Quantity, value: Value, text: str) -> Iterator[Move]:
    """Each number that was typed for an input, with half of its last place."""
    if quantity.nominal:
        return
    if quantity.items and isinstance(value, tuple):
        for at, part in enumerate(list_items(text)):
            for half, moved in _moves(quantity.items, value[at], part):
                yield half, lambda by, at=at, moved=moved: (*value[:at], moved(by), *value[at + 1 :])  # type: ignore[misc]
    elif quantity.unit == "mass @ distance":
        yield from _pair(value, text)
    elif quantity.unit != "count" and is_number(value):
        half = half_a_place(text, None if quantity.unit in PLAIN else quantity.unit)
        if half:
            yield half, lambda by: value + by


def _pair(value: Any, text: str) -> Iterator[Move]:
    mass, _, distance = text.partition("@")
    for half, moved in _moves(Quantity("", "kg"), value[0], mass):
        yield half, lambda by, moved=moved: (moved(by), value[1])  # type: ignore[misc]
    for half, moved in _moves(Quantity("", "mm"), value[1], distance):
        yield half, lambda by, moved=moved: (value[0], moved(by))  # type: ignore[misc]
