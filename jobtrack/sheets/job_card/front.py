"""The first page of a job card: what it is, how it is typed in, what stands for the whole job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jobtrack.job.acts.ending import DueDoneAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.doing.parts import PartOf, parts_of
from jobtrack.sheets.job_card.card import WHO, Card, frame
from jobtrack.sheets.job_card.known import known_table
from jobtrack.sheets.job_card.step import message
from jobtrack.sheets.paper.blocks import Block, Box, Lines, Paragraph, Point, Points, Section, Table, Text
from jobtrack.sheets.words.answers import template_answers
from jobtrack.sheets.words.doing.parts import before_words, part_title, recorded_words
from jobtrack.sheets.words.doing.recorded import of_job, words
from jobtrack.sheets.words.hazards import worst_first
from jobtrack.sheets.words.sentences import FIRST_WORD, NO_CONDITION, condition_line
from jobtrack.sheets.words.sentences import worst_first as open_first
from jobtrack.template.model import DueAfterwards

HOW = (
    "What is written here isn't recorded until it is typed in, with the time when it was done and the name of "
    "whoever did it. Names are typed or written down; nobody is authenticated.",
    "In the app: “Typed in from paper” in the index asks when it was done, for all until Escape; the key of who is "
    "here says who did it.",
    "On the command line: jobtrack record JOB.job.toml STEP --by NAME --at 2031-05-14T16:20:00, then what was "
    "done. STEP is the name in bold under each title.",
    "Type each number with the unit behind its frame. Where none can be had, write why: can't reach, seized. What "
    "the program works out is read off the screen; it has a frame all the same.",
)
"""How a card is used, and what of it the program doesn't know by itself."""


def head(card: Card) -> tuple[Text, ...]:
    """The template, and how far the card is filled in."""
    template = card.job.plan.template
    last = card.job.view.entries[-1:]
    as_of = (
        f"Filled in as recorded until {card.of_entry(last[0])}." if last else "Nothing recorded is filled in."
    )
    return (f"Template: {template.title}, version {template.version}. {as_of}",)


def front(card: Card) -> Iterator[Section]:
    """What holds for the whole job, before its stages."""
    template = card.job.plan.template
    if template.hazard:
        hazards = tuple(message(one) for one in worst_first(template.hazard))
        yield Section("In every step of this job", hazards)
    if not card.empty:
        yield Section("Recorded as open", (_open(card),))
    how = (*HOW, FIRST_WORD, *template_answers(template))
    yield Section("How this card is used", (Points(tuple(map(Point, how))),))
    if card.job.plan.givens:
        yield Section("Known, and not known yet", (known_table(card),))
    if template.part:
        yield Section("Parts of the whole job", (_parts(card),))


def _open(card: Card) -> Block:
    lines = [condition_line(one) for one in open_first(card.job)]
    return Points(tuple(map(Point, lines)), "strong") if lines else Paragraph(NO_CONDITION)


def _parts(card: Card) -> Table:
    """A row a part of the template's head: how many, before which stage, and what is recorded of it."""
    known = [one for one in parts_of(card.job) if one.name in card.job.plan.template.part]
    rows = (
        ("; ".join(filter(None, (part_title(one), before_words(card.job, one)))), _recorded(card, one))
        for one in known
    )
    return Table(("part", "how far, where it lies"), tuple(rows))


def _recorded(card: Card, one: PartOf) -> Text:
    said = "; ".join(recorded_words(card.job, one, None))
    return said or (Box("here"), " ", frame(None, WHO))


def back(card: Card) -> Iterator[Section]:
    """What was recorded for the job as a whole, and what is due once it has ended."""
    found = [one for one in of_job(card.job) if not (isinstance(one.act, NoteAct) and one.act.private)]
    rows = tuple(Point(f"{words(card.job, one)} ({card.whose([one])})") for one in found)
    yield Section("For the job as a whole", (*((Points(rows),) if rows else ()), Lines("Remarks", 3)))
    if due := card.job.plan.template.due_afterwards:
        yield Section(
            "Due afterwards", (Table(("what", "after", "done, who and when"), tuple(_due(card, due))),)
        )


def _due(card: Card, due: Mapping[str, DueAfterwards]) -> Iterator[tuple[Text, ...]]:
    for name, one in due.items():
        done = [each for each in card.job.view.of_kind(DueDoneAct) if getattr(each.act, "due", None) == name]
        yield one.say or name, one.after, card.whose(done[-1:]) or (frame(None, WHO),)
