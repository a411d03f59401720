"""Likely slips of the hand or of the unit, put as a question and never as a refusal."""

from __future__ import annotations

import re
from fractions import Fraction

from jobtrack.units.conversion import Number, convert, exact
from jobtrack.units.names import UnitError, find, printable
from jobtrack.units.reading import Typed, typed_unit
from jobtrack.units.showing import show, show_roughly

_NEAR = Fraction(15, 100)
"""Share of what is expected within which a value isn't questioned. The slip between N m and ft lb is 26 %."""
_MATCH = Fraction(6, 100)
"""Share within which a mended value counts as what was expected."""
_TURNING_TORQUE = 5
"""N·m; a pinion that needs more to turn is a surprise. Common practice, no source."""
_OFTEN_MISTAKEN = {
    "length": ("in", "mm", "m", "thou", "ft"),
    "mass": ("lb", "kg", "t"),
    "force": ("lbf", "N", "kN", "kgf"),
    "torque": ("ft lb", "in lb", "N·m", "kgf·m"),
    "pressure": ("psi", "kPa", "bar", "MPa"),
    "angle": ("mm/m", "deg"),
    "speed": ("mph", "km/h", "m/s", "ft/min", "m/min"),
    "time": ("min", "h", "s"),
    "temperature": ("°F", "°C"),
    "volume": ("US gal", "L"),
    "number": ("%",),
}
_RULE_FRACTION = re.compile(r"\d/(2|4|8|16|32|64)$|[½¼¾⅛⅜⅝⅞]$", re.ASCII)


def question(typed: Typed, expected: Number | None, doubt: Number | None = None) -> str | None:
    """Ask about a likely slip of unit or decimal point; None where nothing is odd.

    `expected` and `doubt` (half-width) are in the box's unit. Values near what is expected, within
    15 % or three doubts, are never questioned.
    """
    if typed.value is None or typed.unit is None:
        return None
    if expected is None:
        return _inch_fraction(typed, typed.value)
    wanted, wide = exact(expected), 3 * exact(doubt or 0)
    if abs(typed.value - wanted) <= max(_NEAR * abs(wanted), wide):
        return None
    return (
        _other_unit(typed, typed.value, wanted)
        or _shifted_point(typed, typed.value, wanted)
        or _high_turning_torque(typed, typed.value, wanted)
        or _inch_fraction(typed, typed.value)
    )


def _matches(value: Fraction, wanted: Fraction) -> bool:
    return wanted != 0 and abs(value - wanted) <= _MATCH * abs(wanted)


def _odd(typed: Typed, value: Fraction, wanted: Fraction) -> str:
    return f"{show_roughly(value, typed.unit)} is far from the {show_roughly(wanted, typed.unit)} expected."


def _unit_typed(typed: Typed) -> str:
    """The unit of the number that stands in what was typed."""
    if typed.remark:
        return typed.remark.rpartition(" ")[2]
    return typed_unit(typed.typed) or find(typed.unit).name


def _other_unit(typed: Typed, value: Fraction, wanted: Fraction) -> str | None:
    used = _unit_typed(typed)
    number = _converted(value, typed.unit, used)
    for unit in _OFTEN_MISTAKEN.get(find(typed.unit).kind, ()):
        if number is None or unit == used:
            continue
        meant = _converted(number, unit, typed.unit)
        if meant is not None and _matches(meant, wanted):
            return f"{_odd(typed, value, wanted)} {_meant(number, unit, meant, typed.unit)}"
    return None


def _converted(number: Fraction, unit: str | None, box: str | None) -> Fraction | None:
    try:
        return convert(number, unit, box)
    except UnitError:
        return None


def _meant(number: Fraction, unit: str, meant: Fraction, box: str | None) -> str:
    same = find(box).name == unit
    return (
        f"Was {show(number, unit)} meant?"
        if same
        else f"Was {show(number, unit)} = {show_roughly(meant, box)} meant?"
    )


def _shifted_point(typed: Typed, value: Fraction, wanted: Fraction) -> str | None:
    for factor in (Fraction(10), Fraction(1, 10), Fraction(100), Fraction(1, 100)):
        if _matches(value * factor, wanted):
            return f"{_odd(typed, value, wanted)} Was {show_roughly(value * factor, typed.unit)} meant?"
    return None


def _high_turning_torque(typed: Typed, value: Fraction, wanted: Fraction) -> str | None:
    if find(typed.unit).kind != "torque":
        return None
    if not 0 < convert(wanted, typed.unit, "N·m") <= _TURNING_TORQUE < convert(value, typed.unit, "N·m"):
        return None
    return f"{_odd(typed, value, wanted)} Over {_TURNING_TORQUE} N·m is a lot to turn: were in lb meant?"


def _inch_fraction(typed: Typed, value: Fraction) -> str | None:
    """A fraction as rules have it, typed bare in a millimetre box."""
    if find(typed.unit).name not in {"mm", "cm"} or not _RULE_FRACTION.search(typed.typed):
        return None
    meant = convert(value, "in", typed.unit)
    text = printable(typed.typed)
    return f"{text} is read in {typed.unit}. Was {text} in = {show_roughly(meant, typed.unit)} meant?"
