"""Workings-out for people: reading typed inputs, and the answer with all that belongs beside it.

`jobtrack.shopmath` works on plain numbers; the units that people type are read here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from jobtrack.shopmath.catalogue import (
    Outcome,
    Quantity,
    Value,
    WorkingOut,
    WorkingOutError,
    calculate,
    find,
)
from jobtrack.shopmath.quantity import nearest, said, wanted
from jobtrack.units import UnitError, question, read, typed_unit
from jobtrack.workings_words import PLAIN, describe, in_both, key_words, sentence, unit_beside

__all__ = ["Answer", "answer", "describe", "in_one_unit", "read_back", "read_inputs"]

Typed = tuple[Value, tuple[str, ...]]
"""A value, and how it was taken where that isn't plain."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A working-out done on what was typed."""

    work: WorkingOut
    outcome: Outcome
    typed: dict[str, str]
    remarks: tuple[str, ...]
    """How typed inputs were taken, then those of the outcome."""

    def as_json(self) -> dict[str, Any]:
        """The answer as `work-out --json` prints it: plain lists, numbers and strings."""
        return {
            "name": self.work.name,
            "inputs": {
                quantity.key: _cell(quantity, self.outcome.inputs) | {"typed": self.typed.get(quantity.key)}
                for quantity in self.work.inputs
            },
            "results": {quantity.key: _cell(quantity, self.outcome.values) for quantity in self.work.results},
            "source": self.outcome.source,
            "hazards": list(self.work.hazards),
            "remarks": list(self.remarks),
        }

    def as_text(self) -> str:
        """The answer as a person reads it: results, one sentence, source, hazards, remarks."""
        lines = [f"{name}: {figure}" for name, figure in self.figures()]
        lines += ["", self.sentence(), f"Source: {self.outcome.source}."]
        lines += [*self.work.hazards, *(f"Remark: {remark}" for remark in self.remarks)]
        return "\n".join(lines)

    def figures(self) -> list[tuple[str, str]]:
        """Each result's name in words, and its figure in both unit systems."""
        values = self.outcome.values
        return [(key_words(each.key), in_both(each, values[each.key])) for each in self.work.results]

    def sentence(self) -> str:
        """Figure, limit and whose limit it is, side by side."""
        return sentence(self.work, self.outcome)


def answer(name: str, typed: Mapping[str, str]) -> Answer:
    """Work it out from inputs as typed. Raises WorkingOutError, one line that names the key."""
    work = in_one_unit(find(name), typed)
    taken = _take(work, typed)
    outcome = calculate(name, {key: value for key, (value, _) in taken.items()})
    remarks = tuple(f"{key}: {remark}" for key, (_, remarks) in taken.items() for remark in remarks)
    return Answer(work, outcome, dict(typed), remarks + outcome.remarks)


def read_inputs(work: WorkingOut, typed: Mapping[str, str]) -> dict[str, Value]:
    """The typed inputs in the catalogue's units, exact; a bare number takes the unit written there."""
    return {key: value for key, (value, _) in _take(in_one_unit(work, typed), typed).items()}


def read_back(work: WorkingOut, typed: Mapping[str, str], key: str) -> str:
    """How one typed input is taken, in both unit systems, with its remarks. Raises WorkingOutError."""
    quantity = in_one_unit(work, typed).input(key)
    value, remarks = _read_one(quantity, typed[key])
    return "; ".join((f"= {in_both(quantity, value)}", *remarks))


def in_one_unit(work: WorkingOut, typed: Mapping[str, str]) -> WorkingOut:
    """The working-out with the unit that its numbers were typed in, where any number will do."""
    found = [
        (key, typed_unit(part) or None)
        for key, text in typed.items()
        if _any_number(work.input(key))
        for part in _parts(text)
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


def _take(work: WorkingOut, typed: Mapping[str, str]) -> dict[str, Typed]:
    return {key: _read_one(work.input(key), text) for key, text in typed.items()}


def _read_one(quantity: Quantity, text: str) -> Typed:
    if not text.strip():
        raise WorkingOutError(f"{quantity.key}: empty; give {wanted(quantity)}")
    if quantity.items:
        return _read_items(quantity, quantity.items, text)
    return _reader(quantity)(quantity, text.strip())


def _reader(quantity: Quantity) -> Callable[[Quantity, str], Typed]:
    if quantity.choices:
        return _read_choice
    readers = {
        "text": _read_text,
        "date": _read_text,
        "yes/no": _read_yes_no,
        "mass @ distance": _read_pair,
    }
    return readers.get(quantity.unit, _read_number)


def _read_items(quantity: Quantity, item: Quantity, text: str) -> Typed:
    parts = [part.strip() for part in _parts(text)]
    if not any(parts):
        raise WorkingOutError(f"{quantity.key}: {said(text)} holds no item; give {wanted(quantity)}")
    if not all(parts):
        raise WorkingOutError(
            f"{quantity.key}: {said(text)} holds an empty item; give {wanted(quantity)}, none of them empty"
        )
    taken = [_reader(item)(item, part) for part in parts]
    return tuple(value for value, _ in taken), tuple(remark for _, remarks in taken for remark in remarks)


def _parts(text: str) -> list[str]:
    return re.split("[,;]", text)


def _read_pair(quantity: Quantity, text: str) -> Typed:
    mass, at, distance = text.partition("@")
    if not at or "@" in distance:
        raise WorkingOutError(
            f"{quantity.key}: {said(text)} is no mass @ distance; write each as 90 kg @ 3100 mm"
        )
    kilograms, first = _read_number(Quantity(quantity.key, "kg"), mass.strip())
    millimetres, second = _read_number(Quantity(quantity.key, "mm"), distance.strip())
    return (kilograms, millimetres), first + second


def _read_text(_: Quantity, text: str) -> Typed:
    return " ".join(text.split()), ()


def _read_yes_no(quantity: Quantity, text: str) -> Typed:
    answer = {"yes": True, "no": False}.get(text.casefold())
    if answer is None:
        raise WorkingOutError(f"{quantity.key}: {said(text)} is neither; give {wanted(quantity)}")
    return answer, ()


def _read_choice(quantity: Quantity, text: str) -> Typed:
    by_spelling = {_letters(choice): choice for choice in quantity.choices}
    if _letters(text) not in by_spelling:
        raise WorkingOutError(
            f"{quantity.key}: {said(text)} is none of its choices{nearest(text, quantity.choices)}; "
            f"give {wanted(quantity)}"
        )
    return by_spelling[_letters(text)], ()


def _read_number(quantity: Quantity, text: str) -> Typed:
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


def _cell(quantity: Quantity, values: Mapping[str, Value]) -> dict[str, Any]:
    return {"value": _plain(values[quantity.key]), "unit": unit_beside(quantity)}


def _plain(value: Value) -> Any:
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else float(value)
    return value
