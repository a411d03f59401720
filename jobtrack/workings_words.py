"""A working-out in words: its sentence, its values with their units, what it takes, its help."""

from __future__ import annotations

from fractions import Fraction

from jobtrack.shopmath.catalogue import Number, Outcome, Quantity, Value, WorkingOut
from jobtrack.units import both, show

PLAIN = ("count", "ratio", "text", "number", "yes/no", "date")
"""Units of the catalogue that aren't written beside a figure."""

SIGNIFICANT = 6
"""Digits shown to people; the JSON has them all."""


def sentence(work: WorkingOut, outcome: Outcome) -> str:
    """The sentence with the figures in it: figure, limit and whose limit, side by side."""
    quantities = {quantity.key: quantity for quantity in (*work.inputs, *work.results)}
    values = outcome.inputs | outcome.values
    shown = {key: value_words(quantities[key], value) for key, value in values.items()}
    return work.sentence.format_map(shown | {"limit": outcome.limit})


def value_words(quantity: Quantity, value: Value) -> str:
    """A value with its unit; nothing given is said so."""
    if quantity.items and isinstance(value, tuple):
        return ", ".join(value_words(quantity.items, each) for each in value)
    if isinstance(value, tuple):
        return f"{show(rounded(value[0]), 'kg')} @ {show(rounded(value[1]), 'mm')}"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float | Fraction):
        return show(rounded(value), unit_beside(quantity))
    return "not given" if value is None else value


def list_as_read(quantity: Quantity, value: Value) -> str:
    """A list item by item, as exact as figures are shown, and their number: "20 kg, 25.5 kg (2 items)"."""
    items = value if isinstance(value, tuple) else ()
    unit = unit_beside(quantity)
    shown = [_pair_as_read(one) if isinstance(one, tuple) else show(one, unit) for one in items]
    return f"{', '.join(shown)} ({len(items)} item{'' if len(items) == 1 else 's'})"


def _pair_as_read(pair: tuple[Number, Number]) -> str:
    return f"{show(pair[0], 'kg')} @ {show(pair[1], 'mm')}"


def in_both(quantity: Quantity, value: Value) -> str:
    """A value in both unit systems, where it has a unit."""
    if isinstance(value, int | float | Fraction) and unit_beside(quantity):
        return both(rounded(value), quantity.unit)
    return value_words(quantity, value)


def rounded(value: Number) -> Fraction:
    """A number to the digits that are shown."""
    return Fraction(f"{float(value):.{SIGNIFICANT}g}")


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
    default = "" if quantity.default is None else f": {value_words(quantity, quantity.default)}"
    return f" (can be left out{default})"


def unit_beside(quantity: Quantity) -> str | None:
    """The unit that is written beside the figure; None where none is."""
    if quantity.items:
        return unit_beside(quantity.items)
    if quantity.unit == "mass @ distance":
        return "kg @ mm"
    return None if quantity.choices or quantity.unit in PLAIN else quantity.unit


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
