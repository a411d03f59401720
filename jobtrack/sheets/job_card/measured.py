"""The ruled inspection table of a step: what is measured, with what, what is wanted, a frame for each value."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.values.depends_on import bases, limit_refs
from jobtrack.sheets.job_card.card import Card, frame, frames
from jobtrack.sheets.paper.blocks import Block, Inline, Paragraph, Strong, Table, Text
from jobtrack.sheets.words.in_units import measured_in, row_of, wanted_in
from jobtrack.sheets.words.named import ref_name
from jobtrack.sheets.words.readings import doubt_sentences, verdict_words
from jobtrack.sheets.words.sentences import joined
from jobtrack.sheets.words.whose import source_sentences
from jobtrack.template.plan import PlannedStep

HEAD = ("reading", "wanted", "measured", "where it lies; who, when")
WORKED_OUT = "worked out by the program"
_NAMED = 3
"""So many of the things that a limit still waits for are named."""


def inspection(card: Card, planned: PlannedStep) -> Iterator[Block]:
    """The table, and below it what the doubts do, whose the limits are and what of them isn't known yet."""
    if not planned.step.reading:
        return
    yield Table(HEAD, tuple(_row(card, planned, name) for name in planned.step.reading))
    below = (
        *doubt_sentences(card.job, planned),
        *source_sentences(card.job, planned),
        *_unknown(card, planned),
    )
    yield from (Paragraph(text, "small") for text in below)


def _row(card: Card, planned: PlannedStep, name: str) -> tuple[Text, ...]:
    return (
        _label(planned, name),
        _wanted(card, planned, name),
        _measured(card, planned, name),
        _lies(card, planned, name),
    )


def _label(planned: PlannedStep, name: str) -> str:
    reading = planned.step.reading[name]
    with_ = f"with: {reading.with_}" if reading.with_ else ""
    many = f"{reading.times} times" if reading.times else ""
    how = (WORKED_OUT if reading.from_ else "", with_, many)
    return "; ".join(filter(None, (reading.say or name, *how)))


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
        cell.append(f", typed {'; '.join(typed)}")
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
    """Of each reading whose limit isn't known yet, what it comes from."""
    for name, reading in planned.step.reading.items():
        limits = card.job.now.limits(planned.id, name)
        if limits.wanted and not limits.known:
            refs = [
                one
                for ref in limit_refs(card.job.plan, planned, reading)
                for one in bases(card.job.plan, ref)
            ]
            missing = [
                f"“{ref_name(card.job, one)}”"
                for one in dict.fromkeys(refs)
                if card.job.now.value(one) is None
            ]
            more = [f"{len(missing) - _NAMED} more"] if missing[_NAMED:] else []
            if missing:
                yield f"Wanted of “{reading.say or name}” comes from {joined([*missing[:_NAMED], *more])}."
