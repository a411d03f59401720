"""One amount, as typed with or without its unit: `-2.5`, `37-15/16 in`, `3' 2 1/2"`, `1:30`."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from jobtrack.units.conversion import ABSOLUTE_ZERO, between
from jobtrack.units.names import Unit, UnitError, a_kind, find, printable, spellings, tidy

LARGEST = Fraction(10**15)
"""No reading of a workshop is larger, in any unit."""

_MIXED = re.compile(r"(\d+)(?: +|-)(\d+) ?/ ?(\d+)", re.ASCII)
_FRACTION = re.compile(r"(\d+) ?/ ?(\d+)", re.ASCII)
_DECIMAL = re.compile(r"\d+(?:[.,]\d+)?|\.\d+", re.ASCII)
_TO_NEXT_NUMBER = re.compile(r"(?:(?!\.?[0-9]).)*", re.DOTALL)
_THOUSANDS = re.compile(
    r"\d{1,3}(?:(?:,\d{3})+\.\d+|(?:\.\d{3})+,\d+|(?:,\d{3}){2,}|(?:\.\d{3}){2,})(?![.,]?\d)", re.ASCII
)
"""A number with its thousands parted: 1,012.5 or 1.012,5 or 1,012,500."""
ARC = re.compile(
    r"[-+~<>]? ?(\d+) ?(?:°|deg) ?([0-5]?\d(?:[.,]\d+)?) ?(?:'|min)(?: ?([0-5]?\d(?:[.,]\d+)?) ?(?:\"|s))?",
    re.ASCII,
)
"""Degrees with minutes, perhaps seconds: 12° 30' 15"."""
_CLOCK = re.compile(r"(\d{1,4}):([0-5]\d)", re.ASCII)
_COMPOUND = {"length", "time", "mass"}
_TAKEN_AS = {
    "force": {"lb": "lbf", "lbs": "lbf"},
    "line load": {"lb/in": "lbf/in", "lbs/in": "lbf/in"},
    "torque": {"kgm": "kgf·m", "kg m": "kgf·m", "mkg": "kgf·m", "m kg": "kgf·m"},
    "pressure": {"psig": "psi", "lb/in²": "psi", "lbs/in²": "psi", "lb/sq in": "psi"},
}
"""A mass where a force is meant, and a pressure over that of the air: read, with a remark."""
_GAUGE = {"psig"}


class Wording(Struct, frozen=True):
    """How numbers of one typed text are read."""

    typed: str

    def refuse(self, why: str) -> UnitError:
        """The error to raise: what was typed, and what is wrong with it."""
        return UnitError(f'"{printable(self.typed)}": {why}')

    def at(self, text: str, start: int) -> tuple[Fraction, int]:
        """Read the number at `start`; give it and where it ends."""
        if match := _THOUSANDS.match(text, start):
            raise self.refuse(f"thousands stand without a sign between: write {_in_one(match[0])}")
        if match := _MIXED.match(text, start):
            part = self.fraction(match[2], match[3])
            if part >= 1:
                raise self.refuse(f"the fraction {match[2]}/{match[3]} beside a whole number is not below 1")
            return int(match[1]) + part, match.end()
        if match := _FRACTION.match(text, start):
            return self.fraction(match[1], match[2]), match.end()
        if match := _DECIMAL.match(text, start):
            return self.decimal(match[0]), match.end()
        raise self.refuse("it does not begin with a number; words without digits are read as words")

    def fraction(self, over: str, under: str) -> Fraction:
        """A fraction of two typed whole numbers. Raises UnitError for one over 0."""
        if int(under) == 0:
            raise self.refuse("nothing can be divided by 0")
        return Fraction(int(over), int(under))

    def decimal(self, digits: str) -> Fraction:
        """A decimal number with a point or a comma. Raises UnitError where the comma may part thousands."""
        whole, comma, part = digits.partition(",")
        if comma and len(part) == 3:
            raise self.refuse(f"two meanings: write {whole}{part} or {whole}.{part}")
        return Fraction(digits.replace(",", "."))


def _in_one(parted: str) -> str:
    """A number with parted thousands as it is to be typed; the last sign is the decimal's where there are both."""
    decimal = parted[max(parted.rfind("."), parted.rfind(","))] if {".", ","} <= set(parted) else ""
    return "".join("." if c == decimal else c for c in parted if c.isdigit() or c == decimal)


def signed_amount(text: str, box: Unit, number: Wording) -> tuple[Fraction, str | None]:
    """Read a signed value in `box`'s unit; the sign counts for the whole of it."""
    sign = -1 if text.startswith("-") else 1
    body = text[1:].lstrip() if text[:1] in {"+", "-"} else text
    if body[:1] in {"+", "-"}:
        raise number.refuse("one sign is enough")
    if match := _CLOCK.fullmatch(body):
        amount, remark = sign * _clock(match, box, number), None
    elif box.kind == "angle" and (match := ARC.fullmatch(body)):
        amount, remark = between(sign * _arc(match), find("deg"), box), None
    else:
        amount, remark = _sum(_terms(body, number), sign, box, number)
    return _sensible(amount, box, number), remark


def _sensible(amount: Fraction, box: Unit, number: Wording) -> Fraction:
    if abs(amount) > LARGEST:
        raise number.refuse("the number is too large for a reading")
    if box.kind == "temperature" and between(amount, box, find("°C")) < ABSOLUTE_ZERO:
        raise number.refuse("below absolute zero")
    if box.whole and amount.denominator != 1:
        raise number.refuse("a whole number is asked for")
    return amount


def _clock(match: re.Match[str], box: Unit, number: Wording) -> Fraction:
    if box.kind != "time":
        raise number.refuse("1:30 is read only where a time is asked (hours and minutes)")
    return between(60 * int(match[1]) + int(match[2]), find("min"), box)


def _arc(match: re.Match[str]) -> Fraction:
    """Degrees, minutes and seconds of arc in degrees."""
    degrees, minutes, seconds = (Fraction((part or "0").replace(",", ".")) for part in match.groups())
    return degrees + minutes / 60 + seconds / 3600


def _terms(text: str, number: Wording) -> list[tuple[Fraction, str]]:
    """Split `3' 2 1/2"` into its numbers, each with the unit after it as typed."""
    terms: list[tuple[Fraction, str]] = []
    at = 0
    while at < len(text) or not terms:
        amount, end = number.at(text, at)
        match = _TO_NEXT_NUMBER.match(text, end)
        raw = match[0] if match else ""
        at = end + len(raw)
        terms.append((amount, _unit_text(raw, text[at:], number)))
    return terms


def _unit_text(raw: str, rest: str, number: Wording) -> str:
    """Give the unit as typed; a `-` before another number joins feet and inches only."""
    unit = raw.strip()
    if not rest:
        return unit
    if raw in {"'-", "ft-"}:
        return raw[:-1]
    if unit.endswith("-"):
        raise number.refuse("two meanings: a range is typed 1012..1014, a difference as its result")
    if unit.casefold() == "e":
        raise number.refuse("powers of ten are not read: write the number out")
    if not raw and rest.startswith("."):
        raise number.refuse("a number has one decimal point")
    if not unit:
        raise number.refuse("two numbers with no unit between them")
    return unit


def _sum(
    terms: list[tuple[Fraction, str]], sign: int, box: Unit, number: Wording
) -> tuple[Fraction, str | None]:
    if len(terms) == 1:
        amount, spelling = terms[0]
        unit, remark = (_meant(spelling, box, number)) if spelling else (box, None)
        return between(sign * amount, unit, box), remark
    units = [_meant(spelling, box, number)[0] for _, spelling in terms if spelling]
    if len(units) < len(terms):
        raise number.refuse("the last number has no unit")
    if box.kind not in _COMPOUND or any(a.factor <= b.factor for a, b in pairwise(units)):
        raise number.refuse("several numbers are read together only as in 3 ft 2 in, 1 h 30 min, 2 lb 4 oz")
    if any(amount.denominator != 1 for amount, _ in terms[:-1]):
        raise number.refuse("only the last of several numbers may have a fraction")
    total = sum((between(a, u, box) for (a, _), u in zip(terms, units, strict=True)), Fraction(0))
    return sign * total, None


def _meant(spelling: str, box: Unit, number: Wording) -> tuple[Unit, str | None]:
    """Find the unit typed, and a remark where it is read as another."""
    if spelling[0] in ".,:" or (spelling[0] == "/" and not spelling[1:].strip()):
        raise number.refuse("that is no number that can be read")
    own = tidy(spelling).casefold()
    if taken := _TAKEN_AS.get(box.kind, {}).get(own):
        return find(
            taken
        ), f"{own} {'is pressure above that of the air, ' if own in _GAUGE else ''}taken as {taken}"
    try:
        unit = find(spelling)
    except UnitError as error:
        raise number.refuse(f"{error}; {_asked(box)}") from error
    if unit.kind != box.kind:
        raise number.refuse(_wrong_kind(unit, box))
    return unit, None


def _asked(box: Unit) -> str:
    if box.kind == "number":
        return "a plain number or % is asked for"
    return f"{a_kind(box)} is read in {', '.join(spellings(box.kind))}"


def _wrong_kind(unit: Unit, box: Unit) -> str:
    if unit.kind == "number":
        return f"% is a share; {_asked(box)}"
    return f"{unit.name} is {a_kind(unit)}; {_asked(box)}"
