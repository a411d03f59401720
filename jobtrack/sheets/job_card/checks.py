"""The checks of a step: what is asked, boxes for yes and no, or the answer."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.remarks.waits import since
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.together import Them, columns, of_any
from jobtrack.sheets.paper.blocks import Block, Box, Look, Strong, Table, Text
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import minutes_words
from jobtrack.template.plan import PlannedStep

ASKED = "check; yes is what is wanted"
HEADS = ("yes or no; who, when",)
MANY = 4
"""Checks from which on they stand in two columns."""
YES_OR_NO: Text = (Box("yes"), "   ", Box("no"))


def checks(card: Card, them: Them) -> Iterator[Block]:
    """A row a check, with an answer for each of them."""
    if asked := them[0].step.tick:
        look: Look = "columns" if len(them) == 1 and len(asked) >= MANY else ""
        yield Table((ASKED, *columns(them, HEADS)), tuple(_row(card, them, name) for name in asked), look)


def _row(card: Card, them: Them, name: str) -> tuple[Text, ...]:
    answers = tuple(_answer(card, one, name) for one in them)
    return (
        " ".join((them[0].step.tick[name].ask, *of_any(them, lambda one: _wait(card, one, name)))),
        *answers,
    )


def _answer(card: Card, planned: PlannedStep, name: str) -> Text:
    found = card.job.places.tick(planned.id, name)
    if not found.acts:
        return YES_OR_NO
    if not found.agreed:
        return Strong("disagreement"), f"; counts as no until it is settled; {card.whose(found.acts)}"
    return Strong("yes" if found.value is True else "no"), f"; {card.whose(found.acts)}"


def _wait(card: Card, planned: PlannedStep, name: str) -> Iterator[str]:
    """How long after which step it is answered yes at the soonest, while it isn't answered."""
    found = since(card.job, planned, name)
    if found is not None and not card.job.places.tick(planned.id, name).acts:
        yield f"Not before {minutes_words(found.asked)} after the last of {Names(card.job).steps(found.steps)}."
