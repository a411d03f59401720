"""Typed inputs of a working-out in the catalogue's units, exact; and how each was taken."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from jobtrack.shopmath.catalogue import Quantity, Value, WorkingOut, WorkingOutError
from jobtrack.shopmath.quantity import nearest, said, wanted
from jobtrack.units import Typed, UnitError, list_items, question, read, typed_unit, unit_is_missing
from jobtrack.workings.fineness import PLAIN

Taken = tuple[Value, tuple[str, ...]]
"""A value, and how it was taken where that isn't plain."""


def take(work: WorkingOut, typed: Mapping[str, str]) -> dict[str, Taken]:
    """Each typed input as it is taken. Raises WorkingOutError, one line that names the key."""
    if work.name == "verdict":
        _refuse_bound(work, typed)
    return {key: take_one(work.input(key), text) for key, text in typed.items()}


def _refuse_bound(work: WorkingOut, typed: Mapping[str, str]) -> None:
    """Over, under or between has no chance of being within; where it lies all on one side, that is said."""
    try:
        bound = read(typed["value"], work.input("value").unit)
    except (KeyError, UnitError):
        return
    if bound.bound in ("over", "under", "range"):
        rest = {key: take_one(work.input(key), text)[0] for key, text in typed.items() if key != "value"}
        raise WorkingOutError(
            f"value: {said(typed['value'])} is not one number; {_where(bound, rest)}; "
            "give one number for the verdict with its chance"
        )


def _where(bound: Typed, limits: Mapping[str, Value]) -> str:
    """On which side of the limits a bound lies whatever its number is, with its uncertainty on top."""
    guard, low, high = (_exact(limits.get(key)) for key in ("uncertainty", "low", "high"))
    least = None if bound.low is None else bound.low - (guard or 0)
    most = None if bound.high is None else bound.high + (guard or 0)
    side = "it doesn't say on which side of the limits it lies"
    if (low is None or (least is not None and least >= low)) and (
        high is None or (most is not None and most <= high)
    ):
        side = "it lies wholly within the limits, whatever the number is"
    if _past(least, high, bound) or _past(low, most, bound):
        side = "it lies wholly outside the limits, whatever the number is"
    return side


def _past(lower: Fraction | None, upper: Fraction | None, bound: Typed) -> bool:
    """Whether the one end lies past the other; over and under leave their own number out."""
    if lower is None or upper is None:
        return False
    return lower > upper or (lower == upper and bound.bound != "range")


def _exact(value: Value) -> Fraction | None:
    return value if isinstance(value, Fraction) else None


def in_one_unit(work: WorkingOut, typed: Mapping[str, str]) -> WorkingOut:
    """The working-out with the unit that its numbers were typed in, where any number will do."""
    found = [
        (key, typed_unit(part) or None)
        for key, text in typed.items()
        if _any_number(work.input(key))
        for part in (_items(work.input(key), text) if work.input(key).items else (text,))
    ]
    units = list(dict.fromkeys(unit for _, unit in found))
    if len(units) > 1:
        key = next(key for key, unit in found if unit != units[0])
        raise WorkingOutError(
            f"{key}: {units[1] or 'no unit'} beside {units[0] or 'no unit'}; "
            "give all as plain numbers, or all in one unit"
        )
    return _with_unit(work, units[0]) if units and units[0] else work


def _with_unit(work: WorkingOut, shown: str) -> WorkingOut:
    unit = _AS_CATALOGUED.get(shown, shown.replace("·", "*").replace("²", "^2").replace("³", "^3"))
    return replace(
        work,
        inputs=tuple(_in_unit(each, unit) for each in work.inputs),
        results=tuple(_in_unit(each, unit) for each in work.results),
    )


_AS_CATALOGUED = {"%": "percent"}


def _in_unit(quantity: Quantity, unit: str) -> Quantity:
    if not _any_number(quantity):
        return quantity
    return replace(quantity, unit=f"list {unit}" if quantity.items else unit)


def _any_number(quantity: Quantity) -> bool:
    return quantity.unit in ("number", "list number")


def take_one(quantity: Quantity, text: str) -> Taken:
    """One typed input as it is taken, with how. Raises WorkingOutError."""
    if not text.strip():
        raise WorkingOutError(f"{quantity.key}: empty; give {wanted(quantity)}")
    if quantity.items:
        return _read_items(quantity, quantity.items, text)
    return _reader(quantity)(quantity, text.strip())


def _reader(quantity: Quantity) -> Callable[[Quantity, str], Taken]:
    if quantity.choices:
        return _read_choice
    readers = {
        "text": _read_text,
        "date": _read_text,
        "yes/no": _read_yes_no,
        "mass @ distance": _read_pair,
    }
    return readers.get(quantity.unit, _read_number)


def _read_items(quantity: Quantity, item: Quantity, text: str) -> Taken:
    parts = _items(quantity, text)
    if not any(parts):
        raise WorkingOutError(f"{quantity.key}: {said(text)} holds no item; give {wanted(quantity)}")
    if not all(parts):
        raise WorkingOutError(
            f"{quantity.key}: {said(text)} holds an empty item; give {wanted(quantity)}, none of them empty"
        )
    taken = [_reader(item)(item, part) for part in parts]
    # An @ parts masses from distances: each column has its own unit.
    for column in zip(*(part.split("@") for part in parts), strict=True):
        if why := unit_is_missing(column):
            raise WorkingOutError(f"{quantity.key}: {why}")
    return tuple(value for value, _ in taken), tuple(remark for _, remarks in taken for remark in remarks)


def _items(quantity: Quantity, text: str) -> tuple[str, ...]:
    try:
        return list_items(text)
    except UnitError as error:
        raise WorkingOutError(f"{quantity.key}: {error}") from error


def _read_pair(quantity: Quantity, text: str) -> Taken:
    mass, at, distance = text.partition("@")
    if not at or "@" in distance:
        raise WorkingOutError(
            f"{quantity.key}: {said(text)} is no mass @ distance; write each as 90 kg @ 3100 mm"
        )
    kilograms, first = _read_number(Quantity(quantity.key, "kg"), mass.strip())
    millimetres, second = _read_number(Quantity(quantity.key, "mm"), distance.strip())
    return (kilograms, millimetres), first + second


def _read_text(_: Quantity, text: str) -> Taken:
    return " ".join(text.split()), ()


def _read_yes_no(quantity: Quantity, text: str) -> Taken:
    answer = {"yes": True, "no": False}.get(text.casefold())
    if answer is None:
        raise WorkingOutError(f"{quantity.key}: {said(text)} is neither; give {wanted(quantity)}")
    return answer, ()


def _read_choice(quantity: Quantity, text: str) -> Taken:
    by_spelling = {_letters(choice): choice for choice in quantity.choices}
    if _letters(text) not in by_spelling:
        raise WorkingOutError(
            f"{quantity.key}: {said(text)} is none of its choices{nearest(text, quantity.choices)}; "
            f"give {wanted(quantity)}"
        )
    return by_spelling[_letters(text)], ()


def _read_number(quantity: Quantity, text: str) -> Taken:
    try:
        typed = read(text, None if quantity.unit in PLAIN else quantity.unit)
    except UnitError as error:
        raise WorkingOutError(f"{quantity.key}: {error}") from error
    if typed.value is None:
        raise WorkingOutError(f"{quantity.key}: {said(text)} is not one number; give {wanted(quantity)}")
    about = "taken as its number" if typed.bound == "about" else None
    remarks = (typed.remark, about, question(typed, None))
    return typed.value, tuple(remark for remark in remarks if remark)


def _letters(text: str) -> str:
    return re.sub(r"[\s_-]+", "", text.casefold())
