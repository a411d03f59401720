"""Conversion between units of one kind: exact, but for radians and slopes."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction

from jobtrack.units.names import Unit, UnitError, a_kind, find, printable

Number = Fraction | float | int

# The angle's way to and from degrees; mm/m and in/ft are slopes, so by the tangent.
_TO_DEGREES: dict[str, Callable[[float], float]] = {
    "deg": lambda a: a,
    "rad": math.degrees,
    "mm/m": lambda a: math.degrees(math.atan(a / 1000)),
    "in/ft": lambda a: math.degrees(math.atan(a / 12)),
}
_FROM_DEGREES: dict[str, Callable[[float], float]] = {
    "deg": lambda a: a,
    "rad": math.radians,
    "mm/m": lambda a: 1000 * math.tan(math.radians(a)),
    "in/ft": lambda a: 12 * math.tan(math.radians(a)),
}
ABSOLUTE_ZERO = Fraction("-273.15")
"""°C, by definition."""
_PLAIN = re.compile(r"[+-]?\d{1,400}(\.\d{1,400})?(/0*[1-9]\d{0,400})?", re.ASCII)


def exact(x: Number | str) -> Fraction:
    """Give `x` as a fraction; a float as the shortest decimal that names it (0.1 is one tenth)."""
    if isinstance(x, float):
        if not math.isfinite(x):
            raise UnitError(f"{x} is no number that can be reckoned with")
        return Fraction(repr(float(x)))
    if isinstance(x, str):
        if not _PLAIN.fullmatch(x.strip()):
            raise UnitError(f'"{printable(x)}" is no plain number')
        whole, _, under = x.strip().partition("/")
        return Fraction(whole) / int(under or 1)
    return Fraction(x)


def convert(value: Number, from_unit: str | None, to_unit: str | None) -> Fraction:
    """Give `value` in another unit of the same kind: exact, but for rad and mm/m (to float precision)."""
    return between(value, *_pair(from_unit, to_unit))


def between(value: Number, old: Unit, new: Unit) -> Fraction:
    """Give `value` in another unit of the same kind, as `convert` does."""
    amount = exact(value)
    if old is new:
        return amount
    if old.kind == "angle":
        return _turn(amount, old.name, new.name)
    return (amount * old.factor + old.offset - new.offset) / new.factor


def convert_difference(value: Number, from_unit: str | None, to_unit: str | None) -> Fraction:
    """Give a difference, tolerance or doubt in another unit: as `convert`, but 9 °F is 5 °C."""
    old, new = _pair(from_unit, to_unit)
    if old.kind == "temperature":
        return exact(value) * old.factor / new.factor
    return convert(value, from_unit, to_unit)


def _pair(from_unit: str | None, to_unit: str | None) -> tuple[Unit, Unit]:
    old, new = find(from_unit), find(to_unit)
    if old.kind != new.kind:
        raise UnitError(f"{_named(old)}; {_named(new)}: the one can't be given in the other")
    return old, new


def _named(unit: Unit) -> str:
    return f"{unit.name} is {a_kind(unit)}" if unit.name else "a plain number"


def _turn(value: Fraction, old: str, new: str) -> Fraction:
    try:
        degrees = _TO_DEGREES[old](float(value))
        if new in ("mm/m", "in/ft") and abs(degrees) >= 90:
            raise UnitError(f"an angle of 90 deg or more has no slope in {new}")
        return exact(_FROM_DEGREES[new](degrees))
    except OverflowError as error:
        raise UnitError("the number is too large for an angle") from error
