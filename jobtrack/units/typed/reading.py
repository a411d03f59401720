"""Reading what a person typed for a box of one unit: exact, nothing guessed."""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.units.names import Unit, UnitError, find, known, printable
from jobtrack.units.table import REFUSED
from jobtrack.units.typed.amount import ARC, Wording, signed_amount
from jobtrack.units.typed.plain import plain_characters

LONGEST = 200
"""Characters that a value or a word may have."""


class Typed(Struct, frozen=True):
    """What a person typed, and how it was read."""

    typed: str
    """As typed, stripped."""
    value: Fraction | None
    """Exact, in `unit`; None for over, under, range and word."""
    unit: str | None
    """The unit asked for; None is a plain number."""
    bound: str = "none"
    """none, about, over, under, range."""
    low: Fraction | None = None
    """Of over and range."""
    high: Fraction | None = None
    """Of under and range."""
    word: str | None = None
    """Typed instead of a value: "can't reach", "seized"."""
    remark: str | None = None
    """How it was taken, where that isn't plain: "lb taken as lbf"."""


_NO_NUMBER = {"nan", "inf", "infinity"}


def read(text: str, unit: str | None) -> Typed:
    """Read what a person typed for a box of this unit (None: a plain number). Raises UnitError."""
    if len(text) > LONGEST:
        raise UnitError(f"longer than {LONGEST} characters: put it in a note")
    return _read(text.strip(), unit)


def _read(typed: str, unit: str | None) -> Typed:
    box = find(unit)
    text = plain_characters(typed)
    if not text:
        raise UnitError("nothing is typed")
    if text == "?":
        raise UnitError('"?" means that it is not known yet, and is no value')
    if not any(c.isdigit() for c in text):
        return Typed(typed, None, unit, word=_word(typed, text))
    return replace(_bounded(text, box, Wording(typed)), typed=typed, unit=unit)


def _word(typed: str, text: str) -> str:
    first, _, rest = text.lstrip("+-~<> ").casefold().partition(" ")
    if first in _NO_NUMBER and (not rest or known(rest)):
        raise UnitError(f'"{printable(typed)}" is no number that can be measured')
    if known(text) or text.casefold() in REFUSED:
        raise UnitError(f'"{printable(typed)}" is a unit without a number')
    if not any(c.isalpha() for c in text):
        raise UnitError(f'"{printable(typed)}" is neither a number nor a word')
    return typed


def _bounded(text: str, box: Unit, number: Wording) -> Typed:
    sign, rest = text[0], text[1:].strip()
    if ".." in text:
        return _range(text, box, number)
    if sign in "<>" and rest.startswith("="):
        raise number.refuse(f"{sign}= is not read: type {sign} with a number, or a range such as 3..5")
    if sign not in "~<>":
        value, remark = signed_amount(text, box, number)
        return Typed(text, value, None, remark=remark)
    value, remark = signed_amount(rest, box, number)
    if sign == "~":
        return Typed(text, value, None, "about", remark=remark)
    if sign == ">":
        return Typed(text, None, None, "over", low=value, remark=remark)
    return Typed(text, None, None, "under", high=value, remark=remark)


def _range(text: str, box: Unit, number: Wording) -> Typed:
    first, _, last = text.partition("..")
    if not first.strip() or not last.strip() or ".." in last or last.startswith("."):
        raise number.refuse("a range is two numbers with two dots between: 1012..1014")
    if re.search("[0-9]$", first.strip()):
        first += _last_unit(last)
    low, remark = signed_amount(first.strip(), box, number)
    high, high_remark = signed_amount(last.strip(), box, number)
    if low > high:
        raise number.refuse("the first number of a range is the smaller one")
    return Typed(text, None, None, "range", low, high, remark=remark or high_remark)


def _last_unit(text: str) -> str:
    return re.split("[0-9]", text)[-1]


def typed_unit(text: str) -> str | None:
    """Give the last unit that stands in a typed value ("mm" for "965 mm"); None where it is a bare number."""
    plain = plain_characters(text).rpartition("..")[2].strip()
    last = "deg" if ARC.fullmatch(plain) else re.split("[0-9]", plain)[-1].strip()
    return find(last).name if last and known(last) else None
