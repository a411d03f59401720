"""Likely slips of the hand or of the unit, put as a question and never as a refusal."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from jobtrack.units.conversion import Number, convert, exact
from jobtrack.units.names import UnitError, find, printable
from jobtrack.units.showing import show, show_roughly
from jobtrack.units.typed.plain import plain_characters
from jobtrack.units.typed.reading import Typed, typed_unit

_NEAR = Fraction(15, 100)
"""Share of what is expected within which a value isn't questioned. The slip between N·m and lbf ft is 26 %."""
_MATCH = Fraction(6, 100)
"""Share within which a mended value counts as what was expected."""
_TURNING_TORQUE = 5
"""N·m; a pinion that needs more to turn is a surprise. Common practice, no source."""
_OFTEN_MISTAKEN = {
    "length": ("in", "mm", "m", "thou", "ft"),
    "mass": ("lb", "kg", "t"),
    "force": ("lbf", "N", "kN", "kgf"),
    "torque": ("lbf ft", "lbf in", "N·m", "kgf·m"),
    "pressure": ("psi", "kPa", "bar", "MPa"),
    "angle": ("mm/m", "deg"),
    "speed": ("mph", "km/h", "m/s", "ft/min", "m/min"),
    "time": ("min", "h", "s"),
    "temperature": ("°F", "°C"),
    "volume": ("US gal", "L"),
    "number": ("%",),
}
_FRACTION = re.compile(r"\d+ ?/ ?(\d+)", re.ASCII)
_ON_A_RULE = (2, 4, 8, 16, 32, 64)
_THOUSANDS_DOT = re.compile(r"(?<![\d.,])[1-9]\d{0,2}\.\d{3}(?![\d.,])", re.ASCII)
_SELDOM_TO_A_THOUSANDTH = {"kg", "lb", "N", "lbf", "rpm"}
_RULE_FRACTION = re.compile(r"\d/(2|4|8|16|32|64)$|[½¼¾⅛⅜⅝⅞]$", re.ASCII)


class Slip(Struct, frozen=True):
    """A likely slip: the question about it, and the text that may have been meant."""

    question: str
    meant: str | None = None
    """As it would be typed; None where nothing better than a question can be said."""


def question(typed: Typed, expected: Number | None, doubt: Number | None = None) -> str | None:
    """The question about a likely slip; None where nothing is odd."""
    found = likely(typed, expected, doubt)
    return found.question if found is not None else None


def likely(typed: Typed, expected: Number | None, doubt: Number | None = None) -> Slip | None:
    """A likely slip of unit or decimal point; None where nothing is odd.

    `expected` and `doubt` (half-width) are in the box's unit. Values near what is expected, within
    15 % or three doubts, are never questioned.
    """
    if typed.value is None or typed.unit is None:
        return None
    if expected is None:
        return _odd_alone(typed, typed.value)
    wanted, wide = exact(expected), 3 * exact(doubt or 0)
    if abs(typed.value - wanted) <= max(_NEAR * abs(wanted), wide):
        return None
    return (
        _other_unit(typed, typed.value, wanted)
        or _shifted_point(typed, typed.value, wanted)
        or _high_turning_torque(typed, typed.value, wanted)
        or _odd_alone(typed, typed.value)
    )


def _odd_alone(typed: Typed, value: Fraction) -> Slip | None:
    """What is odd whatever is expected."""
    return _inch_fraction(typed, value) or _on_no_rule(typed) or _thousands_dot(typed)


def _on_no_rule(typed: Typed) -> Slip | None:
    """A third or a tenth of an inch, which no rule has."""
    fraction = _FRACTION.search(plain_characters(typed.typed))
    if not fraction or int(fraction[1]) in _ON_A_RULE or _unit_typed(typed) != "in":
        return None
    text = printable(typed.typed)
    return Slip(f"{text}: an inch rule has halves to 64ths. Was a fraction by {fraction[1]} meant?")


def _thousands_dot(typed: Typed) -> Slip | None:
    """A dot before three digits in a unit that is seldom read to a thousandth."""
    number = _THOUSANDS_DOT.search(typed.typed)
    unit = _unit_typed(typed)
    if not number or unit not in _SELDOM_TO_A_THOUSANDTH:
        return None
    meant = number[0].replace(".", "")
    asked = f"{number[0]} {unit} is read with a decimal dot. Was {meant} {unit} meant?"
    return Slip(asked, f"{_about(typed)}{meant} {unit}")


def _about(typed: Typed) -> str:
    """The sign in front of a number that somebody wasn't sure of."""
    return "~" if typed.bound == "about" else ""


def _in_unit(typed: Typed, number: Fraction, unit: str) -> str:
    """What was typed with another unit behind it: the same writing where it had none."""
    bare = typed_unit(typed.typed) is None
    return f"{typed.typed.strip()} {unit}" if bare else f"{_about(typed)}{_digits(number)} {unit}"


def _digits(number: Fraction) -> str:
    """A number in plain decimals: exact for whatever was typed in decimals."""
    text = format(Decimal(number.numerator) / Decimal(number.denominator), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _matches(value: Fraction, wanted: Fraction) -> bool:
    return wanted != 0 and abs(value - wanted) <= _MATCH * abs(wanted)


def _odd(typed: Typed, value: Fraction, wanted: Fraction) -> str:
    return f"{show_roughly(value, typed.unit)} is far from the {show_roughly(wanted, typed.unit)} expected."


def _unit_typed(typed: Typed) -> str:
    """The unit of the number that stands in what was typed."""
    if typed.remark:
        return typed.remark.rpartition(" ")[2]
    return typed_unit(typed.typed) or find(typed.unit).name


def _other_unit(typed: Typed, value: Fraction, wanted: Fraction) -> Slip | None:
    used = _unit_typed(typed)
    number = _converted(value, typed.unit, used)
    for unit in _OFTEN_MISTAKEN.get(find(typed.unit).kind, ()):
        if number is None or unit == used:
            continue
        meant = _converted(number, unit, typed.unit)
        if meant is not None and _matches(meant, wanted):
            asked = f"{_odd(typed, value, wanted)} {_meant(number, unit, meant, typed.unit)}"
            return Slip(asked, _in_unit(typed, number, unit))
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


def _shifted_point(typed: Typed, value: Fraction, wanted: Fraction) -> Slip | None:
    for factor in (Fraction(10), Fraction(1, 10), Fraction(100), Fraction(1, 100)):
        if _matches(value * factor, wanted):
            asked = f"{_odd(typed, value, wanted)} Was {show_roughly(value * factor, typed.unit)} meant?"
            return Slip(asked, f"{_about(typed)}{_digits(value * factor)} {find(typed.unit).name}")
    return None


def _high_turning_torque(typed: Typed, value: Fraction, wanted: Fraction) -> Slip | None:
    if find(typed.unit).kind != "torque":
        return None
    if not 0 < convert(wanted, typed.unit, "N·m") <= _TURNING_TORQUE < convert(value, typed.unit, "N·m"):
        return None
    asked = f"{_odd(typed, value, wanted)} Over {_TURNING_TORQUE} N·m is a lot to turn: was lbf in meant?"
    number = _converted(value, typed.unit, _unit_typed(typed))
    return Slip(asked, None if number is None else _in_unit(typed, number, "lbf in"))


def _inch_fraction(typed: Typed, value: Fraction) -> Slip | None:
    """A fraction as rules have it, typed bare in a millimetre box."""
    if find(typed.unit).name not in {"mm", "cm"} or not _RULE_FRACTION.search(typed.typed):
        return None
    meant = convert(value, "in", typed.unit)
    text = printable(typed.typed)
    asked = f"{text} is read in {typed.unit}. Was {text} in = {show_roughly(meant, typed.unit)} meant?"
    return Slip(asked, f"{typed.typed.strip()} in")
