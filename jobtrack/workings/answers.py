"""Workings-out for people: the answer to what was typed, with all that belongs beside it.

`jobtrack.shopmath` works on plain numbers; the units that people type are read in `workings_input`.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from msgspec import Struct

from jobtrack.shopmath.catalogue import Outcome, Quantity, Value, WorkingOut, calculate, find
from jobtrack.units import typed_unit
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.workings.fineness import Known, unit_beside
from jobtrack.workings.told_by_inputs import swings
from jobtrack.workings.typed_inputs import in_one_unit, take, take_one
from jobtrack.workings.words import (
    describe,
    given_in_both,
    given_words,
    in_both,
    key_words,
    list_as_read,
    result_words,
    sentence,
)

__all__ = ["Answer", "answer", "describe", "in_one_unit", "read_back", "read_inputs"]


class Answer(Struct, frozen=True):
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

    def as_text(self, shown: Chosen = METRIC_FIRST) -> str:
        """The answer as a person reads it: results, lists as read, one sentence, source, hazards, remarks."""
        lines = [f"{name}: {figure}" for name, figure in self.figures(shown)]
        lines += ["", *self.lists_read(), self.sentence(), f"Source: {self.outcome.source}."]
        lines += [*self.work.hazards, *(f"Remark: {remark}" for remark in self.remarks)]
        return "\n".join(lines)

    def figures(self, shown: Chosen = METRIC_FIRST) -> list[tuple[str, str]]:
        """Each result's name in words, and its figure in both unit systems, first in the one that is shown."""
        return self._in_words(in_both(self.work, self.outcome, self.known(), shown))

    def results(self, shown: Chosen | None = None) -> list[tuple[str, str]]:
        """Each result's name in words, and its figure; in the system shown, if any."""
        return self._in_words(result_words(self.work, self.outcome, self.known(), shown))

    def _in_words(self, found: list[tuple[str, str]]) -> list[tuple[str, str]]:
        """Yes and no stay in the JSON: in words they would be an answer; figure and limit stand side by side."""
        return [(key_words(key), words) for key, words in found if self.work.result(key).unit != "yes/no"]

    def known(self) -> Known:
        """The inputs that were typed, in words: as they were typed where a unit stands in them."""
        words = {one.key: self._typed(one) for one in self.work.inputs if one.key in self.typed}
        return Known(words, swings=swings(self.work, self.outcome, self.typed))

    def _typed(self, one: Quantity) -> str:
        text = self.typed[one.key]
        if unit_beside(one) and not one.items and one.unit != "mass @ distance" and typed_unit(text):
            return " ".join(text.split())
        return given_words(one, self.outcome.inputs[one.key])

    def lists_read(self) -> list[str]:
        """Each typed list item by item, as it was read: what separates items may be taken otherwise than meant."""
        lists = [each for each in self.work.inputs if each.items and each.key in self.typed]
        return [
            f"{key_words(each.key)}, as read: {list_as_read(each, self.outcome.inputs[each.key])}."
            for each in lists
        ]

    def sentence(self) -> str:
        """Figure, limit and whose limit it is, side by side."""
        return sentence(self.work, self.outcome, self.known())


def answer(name: str, typed: Mapping[str, str]) -> Answer:
    """Work it out from inputs as typed. Raises WorkingOutError, one line that names the key."""
    work = in_one_unit(find(name), typed)
    taken = take(work, typed)
    outcome = calculate(name, {key: value for key, (value, _) in taken.items()})
    remarks = tuple(f"{key}: {remark}" for key, (_, remarks) in taken.items() for remark in remarks)
    return Answer(work, outcome, dict(typed), remarks + outcome.remarks)


def read_inputs(work: WorkingOut, typed: Mapping[str, str]) -> dict[str, Value]:
    """The typed inputs in the catalogue's units, exact; a bare number takes the unit written there."""
    return {key: value for key, (value, _) in take(in_one_unit(work, typed), typed).items()}


def read_back(work: WorkingOut, typed: Mapping[str, str], key: str) -> str:
    """How one typed input is taken, in both unit systems, with its remarks. Raises WorkingOutError."""
    quantity = in_one_unit(work, typed).input(key)
    value, remarks = take_one(quantity, typed[key])
    shown = list_as_read(quantity, value) if quantity.items else given_in_both(quantity, value)
    return "; ".join((f"= {shown}", *remarks))


def _cell(quantity: Quantity, values: Mapping[str, Value]) -> dict[str, Any]:
    return {"value": _plain(values[quantity.key]), "unit": unit_beside(quantity)}


def _plain(value: Value) -> Any:
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else float(value)
    return value
