"""Showing a value: no binary noise, no trailing noughts, and in both unit systems."""

from __future__ import annotations

import math
from fractions import Fraction

from jobtrack.units.conversion import Number, between, exact
from jobtrack.units.names import Unit, UnitError, find

_EXACT_DECIMALS = 6
_DECIMALS = 4
_SIGNIFICANT = 4
_FEWEST = 3
_BY_FRACTIONS = ("in", "ft")
_SIXTY_FOURTH, _THOUSANDTH, _SHORT = Fraction(1, 64), Fraction(1, 1000), Fraction(1, 4)
_TURNED_BY_HAND = 5
"""N·m; turning torques up to here are told in lbf in by US shops. Common practice, no source."""


def show(value: Number, unit: str | None, digits: int | None = None) -> str:
    """Give a value with its unit, "23.5 mm", rounded to `digits` decimals.

    Without `digits`: exactly up to six decimals, otherwise rounded to four decimals or, if that
    is more, to four significant figures.
    """
    return f"{_number(value, digits)}{_after(unit)}"


def show_roughly(value: Fraction, unit: str | None) -> str:
    """Give a value with its unit to five significant figures, for a sentence."""
    return show(value, unit, max(0, 4 - _tens(value)))


def _number(value: Number, digits: int | None) -> str:
    try:
        amount = exact(value)
    except UnitError:
        return "no number"
    places = _places(amount) if digits is None else digits
    scaled = round(abs(amount) * 10**places)
    whole, part = divmod(scaled, 10**places)
    decimals = f"{part:0{places}d}".rstrip("0") if places else ""
    sign = "-" if amount < 0 and scaled else ""
    return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"


def _places(amount: Fraction) -> int:
    if (amount * 10**_EXACT_DECIMALS).denominator == 1:
        return _EXACT_DECIMALS
    return max(_DECIMALS, _SIGNIFICANT - 1 - _tens(amount))


def _tens(amount: Fraction) -> int:
    """The power of ten of the first figure."""
    power = len(str(abs(amount.numerator))) - len(str(amount.denominator))
    return power if abs(amount) >= Fraction(10) ** power else power - 1


def _after(unit: str | None) -> str:
    try:
        name = find(unit).name
    except UnitError:
        name = unit or ""
    return f" {name}" if name else ""


def both(value: Number, unit: str | None) -> str:
    """Give a value in both unit systems: "965 mm = 37.99 in (37 63/64)". An angle stands alone.

    The other figure is rounded so that its last place is no coarser than that of the first; the
    fraction of an inch is the nearest 64th; under a quarter inch only one as near as a thousandth.
    """
    first = show(value, unit)
    try:
        amount, own = exact(value), find(unit)
    except UnitError:
        return first
    other = other_unit(amount, own)
    if other is None:
        return first
    converted = between(amount, own, other)
    there = show(converted, other.name, fine_enough(first, own, converted, other))
    inches = {"in"} & {own.name, other.name} and own.kind == "length"
    return f"{first} = {there}{_near_64th(between(amount, own, find('in'))) if inches else ''}"


def other_unit(amount: Fraction, own: Unit) -> Unit | None:
    """The unit of the other system that an amount is shown in too; None for an angle and a plain number."""
    if own.name == "N·m" and abs(amount) <= _TURNED_BY_HAND:
        return find("lbf in")
    return find(own.other) if own.other else None


def fine_enough(first: str, own: Unit, there: Fraction, other: Unit) -> int:
    """How many decimals the other figure wants, for one that is written so.

    As many figures as were written, or one more where its first figure is the smaller of the two (NIST SP 1038,
    2006, section 4.4, as engineers quote it: eng-tips.com/threads/metric-conversion.149127); at least three, as
    many as a figure that was worked out has. Inches and feet are written to a fraction, whose figures don't tell
    how fine it is: there the last place is no coarser than a 64th.
    """
    decimals = len(first.split(" ")[0].partition(".")[2])
    ratio = float(own.factor / other.factor)
    most = min(decimals, 3) + (1 if ratio >= 1 else math.ceil(-math.log10(ratio)))
    if own.name in _BY_FRACTIONS or not there:
        return most
    return max(0, min(most, max(_figures(first, there), _FEWEST) - 1 - _tens(there)))


def _figures(first: str, there: Fraction) -> int:
    """How many figures a number takes in another unit, for those that were written."""
    written = "".join(filter(str.isdigit, first.split(" ")[0])).lstrip("0")
    leading = int(abs(there) / Fraction(10) ** _tens(there))
    return len(written) + (leading < int(written[:1] or 0))


def _near_64th(inches: Fraction) -> str:
    """The nearest 64th in brackets; of a short length, read by thousandths, only one as near as a thousandth."""
    nearest = _to_a_64th(inches)
    far = abs(inches) < _SHORT and abs(nearest - inches) > _THOUSANDTH
    return "" if far else as_fraction(nearest)


def _to_a_64th(inches: Fraction) -> Fraction:
    return round(inches / _SIXTY_FOURTH) * _SIXTY_FOURTH


def as_fraction(inches: Fraction) -> str:
    """A whole number of 64ths of an inch in brackets; nothing where it is a whole number of inches or nought."""
    whole, part = divmod(abs(inches), 1)
    if not part:
        return ""
    sign = "-" if inches < 0 else ""
    return f" ({sign}{f'{whole} ' if whole else ''}{part.numerator}/{part.denominator})"
