"""What is known of the job and its vehicles: a row each, with a frame or boxes where it isn't."""

from __future__ import annotations

from collections.abc import Iterable

from jobtrack.job.acts.base import plain_words
from jobtrack.job.acts.values import GivenAct
from jobtrack.sheets.job_card.card import Card, frame
from jobtrack.sheets.paper.blocks import Box, Inline, Strong, Table, Text
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.problems import both_sides
from jobtrack.units.rounding import as_typed

HEAD = ("asked", "answer; who, when")
WORDS = 16
"""Letters of a frame for words."""


def known_table(card: Card) -> Table:
    """A row for each thing that the template asks."""
    return Table(HEAD, tuple(_row(card, name) for name in card.job.plan.givens), "columns")


def known_words(card: Card, name: str) -> str:
    """A given as it stands, a number in the units shown and as it was typed; empty where it isn't known."""
    found, unit = card.job.places.given(name), card.job.plan.givens[name].unit
    if not found.agreed:
        return f"disagreement, {both_sides(found)}; counts as not known until it is settled"
    value = found.value
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return card.shown.words(as_typed(value, unit))


def _row(card: Card, name: str) -> tuple[Text, ...]:
    acts, said = card.job.places.given(name).acts, known_words(card, name)
    asked = _not_yet(acts and acts[-1].act)
    answer = (Strong(said),) if said else (*_frames(card, name), *asked)
    who = (f"; {card.whose(acts)}",) if acts else ()
    return given_name(card.job, name) + _only_when(card, name), (*answer, *who)


def _not_yet(act: object) -> tuple[str, ...]:
    """That somebody said that it isn't known yet."""
    return (" don't know yet",) if isinstance(act, GivenAct) and act.unknown else ()


def _frames(card: Card, name: str) -> tuple[Inline, ...]:
    given = card.job.plan.givens[name]
    choices = given.choose or (("yes", "no") if given.kind == "yes/no" else ())
    if choices:
        return tuple(part for one in choices for part in (Box(one), "   "))
    unit = card.shown.unit(given.unit)
    return (frame(unit),) if given.unit is not None else (frame(None, WORDS),)


def _only_when(card: Card, name: str) -> str:
    """On what it depends that this is asked."""
    wanted = card.job.plan.givens[name].only_when
    vehicle = name.rpartition(".")[0]
    said = (f"“{given_name(card.job, _own(card, vehicle, one))}” is {either(v)}" for one, v in wanted.items())
    return f" (only where {' and '.join(said)})" if wanted else ""


def _own(card: Card, vehicle: str, name: str) -> str:
    """A given by its full name: a vehicle's own first."""
    own = f"{vehicle}.{name}"
    return own if own in card.job.plan.givens else name


def either(values: Iterable[str | bool]) -> str:
    """ "“clips” or “pressed”", "yes"."""
    return " or ".join(plain_words(one) if isinstance(one, bool) else f"“{one}”" for one in values)
