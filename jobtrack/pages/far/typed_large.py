"""What is being typed for a number, in large digits, with its unit in words."""

from __future__ import annotations

import re

from jobtrack import units
from jobtrack.literal import visible
from jobtrack.pages.far.large import LARGEST, SMALL, high, in_rows, large, wide
from jobtrack.pages.typeset import Line, line, wrap

UNIT_WORDS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches", "thou": "thousandths of an inch",
    "ft": "feet", "kg": "kilograms", "g": "grams", "t": "tonnes", "lb": "pounds", "oz": "ounces", "N": "newtons",
    "kN": "kilonewtons", "lbf": "pounds force", "kgf": "kilograms force", "N·m": "newton metres",
    "lbf ft": "pound-force feet", "lbf in": "pound-force inches", "kPa": "kilopascals", "bar": "bar",
    "MPa": "megapascals", "psi": "pounds per square inch", "deg": "degrees", "mm/m": "millimetres in a metre",
    "°C": "degrees Celsius", "°F": "degrees Fahrenheit", "A": "amperes", "V": "volts", "%": "per cent", "L": "litres",
    "s": "seconds", "min": "minutes", "h": "hours", "km/h": "kilometres an hour", "mph": "miles an hour",
    "rpm": "turns a minute",
}  # fmt: skip
NO_NUMBER = "-"
_NUMBER = re.compile(r"[-~<>+.±]? ?[0-9](?:[0-9.,/+~<>=:'\"± -]|°(?! ?[CF]))*|[-~<>+.]+")


def typed_sizes(text: str, unit: str | None, width: int) -> list[list[Line]]:
    """What is being typed, its numbers large, and the unit that it is taken in, in words."""
    shown = visible(text).strip() or NO_NUMBER
    below = [line(_unit_words(shown, unit), "strong")]
    if not any(one in "0123456789-~<>+." for one in shown):
        words = in_rows(shown, SMALL, width)
        return [[line(row, "strong") for row in words], wrap(shown, width, "strong")] if words else [
            wrap(shown, width, "strong")
        ]  # fmt: skip
    sizes = [size for size in range(LARGEST, SMALL, -1) if mixed_wide(shown, size) <= width]
    sizes = sizes or ([SMALL] if mixed_wide(shown, SMALL) <= width else [])
    drawn = [[*(line(row, "strong") for row in mixed(shown, size)), *below] for size in sizes]
    return [*drawn, [*wrap(shown, width, "strong"), *below]]


def mixed(text: str, size: int) -> list[str]:
    """A typed text in one row: its numbers in large characters, its letters as they are at their foot."""
    rows = [""] * high(size)
    for run, is_number in _runs(text):
        drawn = large(run, size) if is_number else _at_foot(run, size)
        rows = [f"{row}{' ' if row else ''}{part}" for row, part in zip(rows, drawn, strict=True)]
    return rows


def _runs(text: str) -> list[tuple[str, bool]]:
    """The text in stretches, each with whether it is a number."""
    found, last = [], 0
    for match in _NUMBER.finditer(text):
        found += [(text[last : match.start()], False), (match[0].strip(), True)]
        last = match.end()
    return [(run, is_number) for run, is_number in (*found, (text[last:], False)) if run]


def _at_foot(run: str, size: int) -> list[str]:
    return [*([" " * len(run)] * (high(size) - 1)), run]


def mixed_wide(text: str, size: int) -> int:
    """How many cells that takes; nought where there is nothing."""
    runs = _runs(text)
    return sum(wide(run, size) if number else len(run) for run, number in runs) + max(len(runs) - 1, 0)


def _unit_words(text: str, unit: str | None) -> str:
    """The unit that the number is taken in, in words: the one typed behind it, else the template's."""
    typed = units.typed_unit(text)
    name = typed or units.shown(unit)
    return UNIT_WORDS.get(name, name) or "a plain number"
