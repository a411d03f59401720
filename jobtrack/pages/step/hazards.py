"""Hazard messages: the signal word, the hazard, what it does, how to avoid it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from jobtrack.job.state.job import Job, person
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, Span, rows, wrap
from jobtrack.sheets.words.hazards import hazard_message, worst_first
from jobtrack.template.model import Hazard
from jobtrack.template.plan import PlannedStep

WORD_WIDTH = 10
SHOW_ALL = "z"
"""The key that shows every message of a step and of its job whole."""


def seen_today(job: Job, planned: PlannedStep, by: str | None, at: datetime) -> bool:
    """Whether this person has recorded something in the step on this day, and so was shown its messages."""
    return by is not None and any(
        person(done.entry.by) == person(by) and done.entry.at.astimezone(at.tzinfo).date() == at.date()
        for done in job.view.in_step(planned.id)
    )


def hazard_lines(hazards: Sequence[Hazard], width: int) -> list[Line]:
    """The messages at full length, the worst first."""
    return [row for one in worst_first(hazards) for row in _message(one, hazard_message(one), width)]


def short_lines(hazards: Sequence[Hazard], width: int) -> list[Line]:
    """Each message without what the hazard does; how to avoid it is never left out."""
    return [row for one in worst_first(hazards) for row in _message(one, _short(one), width)]


def pinned_lines(hazards: Sequence[Hazard], width: int, most: int) -> list[Line]:
    """The short messages that fit into `most` rows, the worst whole in any case, and the hazards of the others."""
    ordered = worst_first(hazards)
    for shown in range(len(ordered), 1, -1):
        found = [*short_lines(ordered[:shown], width), *_others(ordered[shown:], width)]
        if len(found) <= most:
            return found
    return [*short_lines(ordered[:1], width), *_others(ordered[1:], width)]


def whole_job_lines(job: Job, width: int, whole: bool) -> list[Line]:
    """The template's own messages, which hold in every step."""
    hazards = job.plan.template.hazard
    head = wrap("In every step of this job:", width) if hazards else []
    return head + (hazard_lines if whole else short_lines)(hazards, width)


def _message(one: Hazard, text: str, width: int) -> list[Line]:
    """The signal word on one row with the beginning of its message, whatever the width."""
    first, *more = rows(text, width - WORD_WIDTH - 1)
    panel = Span(f" {one.signal} ".ljust(WORD_WIDTH), one.signal)
    return [Line((panel, Span(f" {first}"))), *(Line((Span(" " * (WORD_WIDTH + 1) + row),)) for row in more)]


def _short(one: Hazard) -> str:
    return f"{one.hazard}. {one.avoid[:1].upper()}{one.avoid[1:]}."


def _others(hazards: Sequence[Hazard], width: int) -> list[Line]:
    if not hazards:
        return []
    each = "; ".join(f"{one.signal}: {one.hazard}" for one in hazards)
    key = named(SHOW_ALL, "hazards")
    return wrap(f"and {len(hazards)} more, {key} shows how to avoid it: {each}", width, "strong")
