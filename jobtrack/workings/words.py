"""A working-out in words: its sentence, its values with their units, what it takes, its help."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

from jobtrack.shopmath.catalogue import Number, Outcome, Quantity, Value, WorkingOut
from jobtrack.units import both, show
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import Figure
from jobtrack.workings.fineness import (
    Known,
    figures_of,
    given_numbers,
    no_finer_than_known,
    one_figure,
    unit_beside,
)

_SIGNIFICANT, _DECIMALS = 6, 4
"""Figures of an input that are shown where it was converted and has more decimals than these."""


def sentence(work: WorkingOut, outcome: Outcome, known: Known, shown: Chosen | None = None) -> str:
    """The sentence with the figures in it: figure, limit and whose limit, side by side; in the system shown, if any."""
    given = {one.key: _given(work, one, outcome.inputs[one.key], known) for one in work.inputs}
    results = dict(result_words(work, outcome, known, shown))
    return work.sentence.format_map(given | results | {"limit": outcome.limit})


def _given(work: WorkingOut, one: Quantity, value: Value, known: Known) -> str:
    """An input as it was typed; beside a limit in the catalogue's unit in that unit too."""
    taken = given_words(one, value)
    typed = known.typed.get(one.key, taken)
    converted = "{limit}" in work.sentence and unit_beside(one) and typed != taken
    return f"{typed} ({taken})" if converted else typed


def result_words(
    work: WorkingOut, outcome: Outcome, known: Known, shown: Chosen | None = None, room: int | None = None
) -> list[tuple[str, str]]:
    """Each result's key, and its value in words, as fine as it is told.

    Where another system is shown in both, as far as `room` cells go for each (None: no limit).
    """
    found, given = figures_of(work, outcome, known), given_numbers(outcome, known)
    return [(one.key, _in(found[one.key], shown, room) if one.key in found else _listed(one, outcome, known, given))
            for one in work.results]  # fmt: skip


def _in(one: Figure, shown: Chosen | None, room: int | None) -> str:
    """A figure as the catalogue has its unit, or first in another system that is shown."""
    return shown.words(one, room) if shown is not None and shown.turns(one.unit) else one.words()


def _listed(one: Quantity, outcome: Outcome, known: Known, given: Collection[Fraction]) -> str:
    value = outcome.values[one.key]
    if one.items and isinstance(value, tuple):
        return ", ".join(
            no_finer_than_known(one_figure(one.items, each, given), one.key, known).words() for each in value
        )
    return given_words(one, value)


def in_both(
    work: WorkingOut, outcome: Outcome, known: Known, shown: Chosen = METRIC_FIRST
) -> list[tuple[str, str]]:
    """Each result's key, and its value in both unit systems where it has a unit, first in the one that is shown."""
    found = figures_of(work, outcome, known)
    words = result_words(work, outcome, known)
    return [(key, shown.in_both(found[key]) if key in found else said) for key, said in words]


def given_words(quantity: Quantity, value: Value) -> str:
    """A value as it was given, with its unit; nothing given is said so."""
    if quantity.items and isinstance(value, tuple):
        return ", ".join(given_words(quantity.items, each) for each in value)
    if isinstance(value, tuple):
        return f"{show(_short(value[0]), 'kg')} @ {show(_short(value[1]), 'mm')}"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float | Fraction):
        return show(_short(value), unit_beside(quantity))
    return "not given" if value is None else value


def list_as_read(quantity: Quantity, value: Value) -> str:
    """A list item by item, as exact as figures are shown, and their number: "20 kg, 25.5 kg (2 items)"."""
    items = value if isinstance(value, tuple) else ()
    unit = unit_beside(quantity)
    shown = [_pair_as_read(one) if isinstance(one, tuple) else show(one, unit) for one in items]
    return f"{', '.join(shown)} ({len(items)} item{'' if len(items) == 1 else 's'})"


def _pair_as_read(pair: tuple[Number, Number]) -> str:
    return f"{show(pair[0], 'kg')} @ {show(pair[1], 'mm')}"


def given_in_both(quantity: Quantity, value: Value) -> str:
    """A value as it was given in both unit systems, where it has a unit."""
    if isinstance(value, int | float | Fraction) and unit_beside(quantity):
        return both(_short(value), quantity.unit)
    return given_words(quantity, value)


def _short(value: float | Fraction) -> Fraction:
    if (Fraction(value) * 10**_DECIMALS).denominator == 1:
        return Fraction(value)
    return Fraction(f"{float(value):.{_SIGNIFICANT}g}")


def key_words(key: str) -> str:
    """A key as words."""
    return key.replace("_", " ")


def kind_words(quantity: Quantity) -> str:
    """What a quantity takes: its choices, or its unit."""
    return " | ".join(quantity.choices) or _list_or_unit(quantity)


def _list_or_unit(quantity: Quantity) -> str:
    return f"list of {quantity.items.unit}, comma-separated" if quantity.items else quantity.unit


def left_out_words(quantity: Quantity) -> str:
    """Whether an input can be left out, and what then counts."""
    if not quantity.optional:
        return ""
    default = "" if quantity.default is None else f": {given_words(quantity, quantity.default)}"
    return f" (can be left out{default})"


def describe(work: WorkingOut) -> str:
    """The help of a working-out: formula, inputs, results, source, remarks and an example."""
    inputs = [f"  {quantity.key}: {told(quantity)}" for quantity in work.inputs]
    results = [f"  {quantity.key}: {told(quantity)}" for quantity in work.results]
    return "\n".join(
        [f"{work.name} ({work.topic}): {work.formula}", "", "Inputs, as KEY=VALUE:", *inputs]
        + ["Results:", *results, "", f"Source: {work.source}.", *work.hazards]
        + [f"Remark: {remark}" for remark in work.remarks]
        + ["", f"Example: {work.example_call()}"]
    )


def told(quantity: Quantity) -> str:
    """What is typed for an input, or comes out as a result: unit or choices, and what counts when left out."""
    return f"{kind_words(quantity)}{left_out_words(quantity)}"
