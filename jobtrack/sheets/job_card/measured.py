"""The ruled inspection table of a step: what is measured, with what, what is wanted, a frame for each value."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.values import ReadingAct
from jobtrack.sheets.job_card.card import Card, frame, frames
from jobtrack.sheets.job_card.goes_by import limit_waits_for
from jobtrack.sheets.job_card.together import Them, columns, of_each, whose
from jobtrack.sheets.paper.blocks import Block, Inline, Paragraph, Strong, Table, Text
from jobtrack.sheets.words.named import own_name
from jobtrack.sheets.words.sentences import joined
from jobtrack.sheets.words.values.in_units import measured_in, row_of, wanted_in
from jobtrack.sheets.words.values.readings import doubt_sentences, verdict_words
from jobtrack.sheets.words.values.whose import source_sentences, values_words
from jobtrack.template.plan import PlannedStep, Ref

READING = "reading"
HEADS = ("measured", "where it lies; who, when")
WORKED_OUT = "worked out by the program"


def inspection(card: Card, them: Them) -> Iterator[Block]:
    """The table, and below it what the doubts do, what of the limits isn't known yet and whose they are."""
    if not them[0].step.reading:
        return
    rows = tuple(_row(card, them, name) for name in them[0].step.reading)
    yield Table((READING, "wanted", *columns(them, HEADS)), rows)
    if below := " ".join(of_each(them, lambda one: _below(card, one))):
        yield Paragraph(below, "small")


def _row(card: Card, them: Them, name: str) -> tuple[Text, ...]:
    values = ((_measured(card, one, name), _lies(card, one, name)) for one in them)
    cells = tuple(cell for both in values for cell in both)
    return (_label(them[0], name), _wanted_of(card, them, name), *cells)


def _below(card: Card, planned: PlannedStep) -> Iterator[str]:
    unknown = tuple(_unknown(card, planned))
    yield from doubt_sentences(card.job, planned)
    yield from unknown
    yield from source_sentences(card.job, planned, unknown=not unknown)


def _label(planned: PlannedStep, name: str) -> str:
    reading = planned.step.reading[name]
    with_ = f"with: {reading.with_}" if reading.with_ else ""
    many = f"{reading.times} times" if reading.times else ""
    how = (WORKED_OUT if reading.from_ else "", with_, many)
    return "; ".join(filter(None, (reading.say or name, *how)))


def _wanted_of(card: Card, them: Them, name: str) -> Text:
    """What is wanted of each; once where it is the same for all of them, known or not."""
    wanted = {whose(them, one): _wanted(card, one, name) for one in them}
    waits = {limit_waits_for(card, one, name) for one in them}
    if len(waits) == 1 and len(set(wanted.values())) == 1:
        return wanted[whose(them, them[0])]
    between = "; " if all(isinstance(one, str) for one in wanted.values()) else " "
    pieces = [piece for of, text in wanted.items() for piece in (between, Strong(of), *_pieces(text))]
    return tuple(pieces[1:])


def _pieces(text: Text) -> tuple[Inline, ...]:
    return (text,) if isinstance(text, str) else text


def _wanted(card: Card, planned: PlannedStep, name: str) -> Text:
    """The limits as far as they are known; an empty frame for those that aren't."""
    limits = card.job.now.limits(planned.id, name)
    if limits.wanted and not limits.known and limits.target is None:
        return (frame(_unit(card, planned, name)),)
    return wanted_in(card.job, planned, name, card.shown, None)


def _unit(card: Card, planned: PlannedStep, name: str) -> str | None:
    return row_of(card.job, planned, name).unit(card.shown)


def _measured(card: Card, planned: PlannedStep, name: str) -> Text:
    """What is recorded, in the units shown and as typed, and a frame for each value that is still asked."""
    reading, found = planned.step.reading[name], card.job.places.reading(planned.id, name)
    said = measured_in(card.job, planned, name, card.shown, None)
    unit, asked = _unit(card, planned, name), reading.times or 1
    if not said or card.empty:  # what the template's own figures give isn't measured either
        return frames(unit, asked)
    cell: list[Inline] = [Strong(said)]
    if isinstance(typed := getattr(found.last and found.last.act, "typed", None), tuple) and found.agreed:
        as_typed = "; ".join(typed)
        cell += [f", typed {as_typed}"] if as_typed not in said else []
    left = asked - len(found.values) if reading.from_ is None and found.values else 0
    return (*cell, " ", *frames(unit, left)) if left > 0 else tuple(cell)


def _lies(card: Card, planned: PlannedStep, name: str) -> Text:
    """The verdict in words, with what it was measured where that isn't as asked, by whom and when."""
    acts = () if planned.step.reading[name].from_ else card.job.places.reading(planned.id, name).acts
    tools = [f"with {one.act.with_}" for one in acts if isinstance(one.act, ReadingAct) and one.act.with_]
    rest = "; ".join(filter(None, (*dict.fromkeys(tools), card.whose(acts))))
    verdict = "" if card.empty else verdict_words(card.job, planned, name)
    if not verdict:
        return rest
    return (Strong(verdict), f"; {rest}") if rest else (Strong(verdict),)


def _unknown(card: Card, planned: PlannedStep) -> Iterator[str]:
    """What the limits that aren't known yet come from, said once of all readings that wait for the same."""
    groups: dict[tuple[Ref, ...], list[str]] = {}
    for name, reading in planned.step.reading.items():
        if refs := limit_waits_for(card, planned, name):
            groups.setdefault(refs, []).append(f"“{reading.say or name}”")
    for refs, names in groups.items():
        yield f"Wanted of {joined(names)} comes from {joined(list(_by_step(card, planned, refs)))}: not known yet."


def _by_step(card: Card, planned: PlannedStep, refs: tuple[Ref, ...]) -> Iterator[str]:
    """What values are called, a step that several share said once, this step not at all."""
    by_step: dict[str | None, list[Ref]] = {}
    for ref in refs:
        by_step.setdefault(ref.step, []).append(ref)
    for step, of_it in by_step.items():
        here = step == planned.id
        yield (
            joined([f"“{own_name(card.job, one)}”" for one in of_it])
            if here
            else values_words(card.job, of_it)
        )
