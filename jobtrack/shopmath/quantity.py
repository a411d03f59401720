"""Inputs and results: their units, and the values that are accepted for them."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from jobtrack.shopmath.tables_plausible import Plausible

Number = int | float | Fraction
"""A plain number. Fractions stay exact wherever only + - * / is involved."""

Value = Fraction | float | int | str | bool | tuple[Any, ...] | None
"""What goes into a working-out and what comes out of it."""

LARGEST = 10**9
SMALLEST = Fraction(1, 10**9)
"""No shop measures more, nor less unless it is 0, in any unit of the catalogue: such numbers are slips."""

_DATE = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


class WorkingOutError(ValueError):
    """One line: which input, what is wrong with it, what would be accepted."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """One input or result: its key, its unit, and for an input whether it can be left out."""

    key: str
    unit: str
    """A unit, or count, ratio, percent, number, text, yes/no, date, choices as "a|b", or "list X".

    number: a plain number, or all of a working-out's numbers in one unit. A date is YYYY-MM-DD.
    """
    optional: bool = False
    default: Value = None
    """What counts when it is left out; None: it is then not used."""
    beside: str = ""
    """The key of another input without which this one counts for nothing."""
    nominal: bool = False
    """Whether a number typed for it is all there is to it: a size from a list, a share chosen, turns counted.
    Another is taken as sure to half of its last place."""
    plausible: Plausible | None = None
    """What is usual for it, or for each item of a list; None: nothing is asked or said about it."""
    towards: str = "nearest"
    """Which way it is rounded in words: "down" an upper limit and what is left, "up" what is the least."""
    step: Fraction | None = None
    """How fine it is said, in its unit, where that is finer or coarser than its unit is said."""
    figures: int = 0
    """The same as a number of figures; 0: by its step or its unit."""
    like: str = ""
    """The result to whose last place it is said."""
    against: tuple[str, ...] = ()
    """What it is compared with: results and inputs by their keys, or numbers in its unit. It is never said
    to be on a limit that it isn't on."""

    @property
    def choices(self) -> tuple[str, ...]:
        """The words to choose from; empty when it isn't a choice."""
        return tuple(self.unit.split("|")) if "|" in self.unit else ()

    @property
    def items(self) -> Quantity | None:
        """The quantity of each item of a list; None when it isn't a list."""
        return replace(self, unit=self.unit[5:]) if self.unit.startswith("list ") else None


def nearest(word: str, known: Sequence[str]) -> str:
    """ "; did you mean ...?" for the nearest spelling; empty when none is near."""
    close = get_close_matches(word, known, n=1)
    return f"; did you mean {close[0]}?" if close else ""


def said(text: str) -> str:
    """Typed text for a message: short, and with stand-ins for what doesn't print."""
    short = text if len(text) <= 60 else f"{text[:60]}…"
    return short if short.isprintable() else repr(short)


def wanted(quantity: Quantity) -> str:
    """What is accepted for a quantity, in words."""
    if quantity.choices:
        return "one of " + ", ".join(quantity.choices)
    if quantity.items:
        return f"a list of {quantity.items.unit}"
    return _WANTED.get(quantity.unit, f"a number in {quantity.unit}")


_WANTED = {
    "count": "a whole number",
    "ratio": "a plain number",
    "number": "a plain number, or all in one unit",
    "text": "text",
    "yes/no": "yes or no",
    "date": "a date as 2031-04-02",
}


def accept(quantity: Quantity, value: Value) -> Value:
    """The value in the form the functions take, or a refusal that names the key."""
    if quantity.items:
        return _accept_list(quantity, quantity.items, value)
    if quantity.unit == "mass @ distance":
        return _accept_pair(quantity, value)
    if quantity.choices or quantity.unit == "text":
        return _accept_text(quantity, value)
    if quantity.unit == "yes/no":
        return _accept_yes_no(quantity, value)
    if quantity.unit == "date":
        return _accept_date(quantity, value)
    return _accept_number(quantity, value)


def _accept_list(quantity: Quantity, item: Quantity, value: Value) -> tuple[Value, ...]:
    if not isinstance(value, list | tuple) or not value:
        raise _refusal(quantity, value)
    return tuple(accept(item, each) for each in value)


def _accept_pair(quantity: Quantity, value: Value) -> tuple[Value, Value]:
    if not isinstance(value, list | tuple) or len(value) != 2:
        raise _refusal(quantity, value)
    mass, distance = value
    return (
        _accept_number(Quantity(quantity.key, "kg"), mass),
        _accept_number(Quantity(quantity.key, "mm"), distance),
    )


def _accept_text(quantity: Quantity, value: Value) -> str:
    if not isinstance(value, str) or not value.strip():
        raise _refusal(quantity, value)
    if quantity.choices and value not in quantity.choices:
        raise WorkingOutError(
            f"{quantity.key}: {said(value)} is none of its choices{nearest(value, quantity.choices)}; "
            f"accepted: {', '.join(quantity.choices)}"
        )
    return value


def _accept_yes_no(quantity: Quantity, value: Value) -> bool:
    if not isinstance(value, bool):
        raise _refusal(quantity, value)
    return value


def _accept_date(quantity: Quantity, value: Value) -> str:
    if not isinstance(value, str) or not _DATE.fullmatch(value.strip()):
        raise _refusal(quantity, value)
    try:
        return date.fromisoformat(value.strip()).isoformat()
    except ValueError as error:
        raise WorkingOutError(
            f"{quantity.key}: {value.strip()} is no day of the calendar; give {wanted(quantity)}"
        ) from error


def _accept_number(quantity: Quantity, value: Value) -> Number:
    if isinstance(value, bool) or not isinstance(value, int | float | Fraction):
        raise _refusal(quantity, value)
    if isinstance(value, float) and not math.isfinite(value):
        raise _refusal(quantity, value)
    if value != 0 and not SMALLEST <= max(value, -value) <= LARGEST:
        raise WorkingOutError(
            f"{quantity.key}: too large or too small to be measured; give {wanted(quantity)}"
        )
    if quantity.unit == "count":
        if value != int(value):
            raise _refusal(quantity, value)
        return int(value)
    return value if isinstance(value, float) else Fraction(value)


def _refusal(quantity: Quantity, value: object) -> WorkingOutError:
    shown = str(value) if isinstance(value, Fraction) else repr(value)
    return WorkingOutError(f"{quantity.key}: {shown[:60]} can't be used; give {wanted(quantity)}")
