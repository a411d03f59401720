"""Hazard messages: the signal word, the hazard, what it does, how to avoid it."""

from __future__ import annotations

from datetime import datetime

from jobtrack.app.paper import Line, Span, rows
from jobtrack.record.job import Job, person
from jobtrack.template.model import Hazard
from jobtrack.template.plan import PlannedStep

WORST = ("DANGER", "WARNING", "CAUTION", "NOTICE")
WORD_WIDTH = 10


def seen_today(job: Job, planned: PlannedStep, by: str | None, at: datetime) -> bool:
    """Whether this person has recorded something in the step on this day, and so was shown its messages."""
    return by is not None and any(
        person(done.entry.by) == person(by) and done.entry.at.astimezone(at.tzinfo).date() == at.date()
        for done in job.view.in_step(planned.id)
    )


def hazard_lines(hazards: tuple[Hazard, ...], width: int, whole: bool) -> list[Line]:
    """The messages at full length, or one line with their signal words and hazards. The worst comes first."""
    ordered = sorted(hazards, key=lambda one: WORST.index(one.signal) if one.signal in WORST else len(WORST))
    if whole:
        return [row for one in ordered for row in _message(one, width)]
    return _one_line(ordered) if ordered else []


def _message(one: Hazard, width: int) -> list[Line]:
    text = f"{one.hazard}: {one.does}. How to avoid it: {one.avoid}."
    first, *more = rows(text, width - WORD_WIDTH - 1)
    panel = Span(f" {one.signal} ".ljust(WORD_WIDTH), one.signal)
    return [Line((panel, Span(f" {first}"))), *(Line((Span(" " * (WORD_WIDTH + 1) + row),)) for row in more)]


def _one_line(ordered: list[Hazard]) -> list[Line]:
    spans: list[Span] = []
    for one in ordered:
        spans += [Span(f" {one.signal} ", one.signal), Span(f" {one.hazard}  ")]
    return [Line(tuple(spans))]
