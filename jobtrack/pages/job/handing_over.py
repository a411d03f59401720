"""Handing over and taking over: what the next person must see first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job, person
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.pages.paper import paper_lines
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import NO_CONDITION, day_and_time, step_name
from jobtrack.sheets.handover.handing import GIVER_SAYS
from jobtrack.sheets.handover.sheet import taking_over_sections
from jobtrack.sheets.paper.blocks import Cut, Lines, Section, Sheet
from jobtrack.sheets.words.sentences import tag_or_words
from jobtrack.units.chosen import Chosen

STANDS_UNTIL = "The job says so until that is closed, or somebody takes over having seen it."


def asked_of_giver(by: str, to: str) -> tuple[tuple[str, str], ...]:
    """What is asked: of whoever leaves the job to themselves for the morning only what holds the vehicle up."""
    return GIVER_SAYS[:1] if person(by) == person(to) else GIVER_SAYS


def giving_words(by: str, to: str, said: Mapping[str, str]) -> list[str]:
    """What the second key records of a handover."""
    whole = f"Handed over by {by} to {to}."
    for_oneself = f"Left by {by}, to carry on with it later."
    words = "; ".join(f"{name.replace('_', ' ')}: {said[name]}" for name, _ in GIVER_SAYS if said.get(name))
    return [
        for_oneself if person(by) == person(to) else whole,
        *([f"In your words: {words}"] if words else []),
    ]


def given_lines(job: Job, given: Done, width: int) -> list[Line]:
    """Who hands over, to whom and when, above what is open."""
    to = given.act.to if isinstance(given.act, HandoverAct) else ""
    said = f"Not taken over yet. Handed over by {given.entry.by} to {to}, {day_and_time(given.entry.at)}."
    nothing = [] if job.open_conditions else wrap(NO_CONDITION, width)
    return [*wrap(said, width, "strong"), line(), *wrap("Recorded as open", width, "strong"), *nothing]


def seen_words(one: OpenCondition, seen: bool) -> str:
    """An open condition, and whether the comer has said that they have seen it."""
    return f"{'Open, seen' if seen else 'Open, not seen yet'}: {condition_sentence(one)}"


def beside_open(job: Job, given: Done, shown: Chosen, width: int) -> list[Line]:
    """What stands below what is open: the rest of the sheet that the comer reads, without the lines to write on."""
    sections = tuple(_to_read(taking_over_sections(job, given, shown)))
    rows = paper_lines(Sheet("handover", "", (), sections), width)
    first = next(number for number, row in enumerate(rows) if row.plain)
    # No empty row at the end: it would have to be scrolled to before the page counts as read.
    return [line(), *rows[first:]]


def _to_read(sections: Iterable[Section]) -> Iterator[Section]:
    """Nobody writes on a screen, or cuts it."""
    for one in sections:
        blocks = tuple(block for block in one.blocks if not isinstance(block, Lines | Cut))
        yield replace(one, blocks=blocks, sections=tuple(_to_read(one.sections)))


def taking_over_words(by: str, unseen: Sequence[OpenCondition], again: str) -> list[str]:
    """What the second key says of who takes over: what they haven't seen, and which reading they took again."""
    names = ", ".join(dict.fromkeys(map(tag_or_words, unseen)))
    seen = f"{by} (as typed) has seen all that is recorded as open and takes over."
    not_seen = f"{by} (as typed) takes over without having seen: {names}. {STANDS_UNTIL}"
    return [not_seen if unseen else seen, again or "No reading was taken again."]


def recorded_readings(job: Job) -> list[tuple[str, str, str]]:
    """Every reading that has been taken: its step, its id, and what to call it, the latest step last."""
    return [(planned.id, name, f"{reading.say or name}, {step_name(planned)}")
            for planned in job.steps.values() for name, reading in planned.step.reading.items()
            if reading.from_ is None and job.places.reading(planned.id, name).acts]  # fmt: skip
