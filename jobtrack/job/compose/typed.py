"""One typed text turned into what an act holds: a given's value, yes or no, an amount, a day, a reading."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from jobtrack import units
from jobtrack.job.acts.base import Plain
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose.refusal import Refused, Wants
from jobtrack.template.model import Given
from jobtrack.units.names import printable


def given_value(name: str, given: Given, text: str) -> Plain:
    """What was typed for a given, as its kind has it. Raises Refused or UnitError."""
    text = text.strip()
    if given.choose:
        if text not in given.choose:
            raise Refused(f"{name} is one of {', '.join(given.choose)}; not {printable(text)!r}")
        return text
    if given.kind == "yes/no":
        return yes_or_no(name, text)
    if given.kind == "date":
        return _date(name, text)
    if given.kind == "text":
        return text
    read = units.read(text, given.unit)
    if read.value is None:
        raise Refused(
            f"{name} wants one number in {given.unit}, not {printable(text)!r}; `?` is don't know yet"
        )
    return float(read.value)


def yes_or_no(name: str, text: str) -> bool:
    """Yes as True, no as False, in capitals or not. Raises Refused for anything else."""
    answer = {"yes": True, "no": False}.get(text.strip().casefold())
    if answer is None:
        raise Refused(f"{name} wants yes or no, not {printable(text)!r}")
    return answer


def amount(key: str, text: str, unit: str | None) -> float:
    """A number, nought or more, in this unit; one typed in another is a difference there, too (9 °F is 5 °C)."""
    own = units.typed_unit(text) or unit
    value = units.read(text, own).value
    if value is None or value < 0:
        raise Refused(f"{key} wants a number, nought or more, not {printable(text)!r}")
    return float(units.convert_difference(value, own, unit))


def day(option: str, text: str) -> str:
    """A day as YYYY-MM-DD. Raises Wants."""
    try:
        return datetime.strptime(text, "%Y-%m-%d").date().isoformat()
    except ValueError:
        raise Wants(f"{option} wants a day as 2031-04-02, not {printable(text)!r}") from None


def _date(name: str, text: str) -> str:
    try:
        return datetime.strptime(text, "%Y-%m-%d").date().isoformat()
    except ValueError:
        raise Refused(f"{name} wants a date as 2031-04-02, not {printable(text)!r}") from None


def reading_act(
    name: str, unit: str | None, read: Sequence[units.Typed], replaces: tuple[str, ...]
) -> ReadingAct:
    """A reading as typed, or several repeats of it. Raises Refused where a repeat isn't a plain number."""
    if len(read) == 1:
        one = read[0]
        plain = one.bound in ("none", "about") and one.value is not None
        return ReadingAct(
            name,
            float(one.value) if plain and one.value is not None else None,
            unit,
            one.typed,
            bound=None if one.bound == "none" else one.bound,
            low=None if one.low is None else float(one.low),
            high=None if one.high is None else float(one.high),
            word=one.word,
            replaces=replaces,
        )
    if any(one.value is None for one in read):
        raise Refused(f"{name}: repeats are plain numbers; record words and bounds alone")
    values = tuple(float(one.value) for one in read if one.value is not None)
    return ReadingAct(name, values, unit, tuple(one.typed for one in read), replaces=replaces)
