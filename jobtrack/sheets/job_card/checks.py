"""The checks of a step: what is asked, boxes for yes and no, or the answer."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.remarks.waits import since
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.paper.blocks import Block, Box, Strong, Table, Text
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import minutes_words
from jobtrack.template.plan import PlannedStep

HEAD = ("check; yes is what is wanted", "answer", "who, when")
YES_OR_NO: Text = (Box("yes"), "   ", Box("no"))


def checks(card: Card, planned: PlannedStep) -> Iterator[Block]:
    """A row a check."""
    if planned.step.tick:
        yield Table(HEAD, tuple(_row(card, planned, name) for name in planned.step.tick))


def _row(card: Card, planned: PlannedStep, name: str) -> tuple[Text, ...]:
    found, asked = card.job.places.tick(planned.id, name), planned.step.tick[name].ask
    if not found.acts:
        return asked + _wait(card, planned, name), YES_OR_NO, ""
    if not found.agreed:
        return asked, (Strong("disagreement"), "; counts as no until it is settled"), card.whose(found.acts)
    return asked, (Strong("yes" if found.value is True else "no"),), card.whose(found.acts)


def _wait(card: Card, planned: PlannedStep, name: str) -> str:
    """How long after which step it is answered yes at the soonest."""
    found = since(card.job, planned, name)
    if found is None:
        return ""
    return f" Not before {minutes_words(found.asked)} after the last of {Names(card.job).steps(found.steps)}."
