"""One step on its card, in the order in which it is read at the bench."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.steps import NotNeededAct
from jobtrack.job.state import order
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, NOT_NEEDED
from jobtrack.sheets.drawings.on_paper import pictures_in
from jobtrack.sheets.job_card.bolts import torque_lines
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.checks import checks
from jobtrack.sheets.job_card.compared import compared
from jobtrack.sheets.job_card.ends import besides, hold, times
from jobtrack.sheets.job_card.known import either
from jobtrack.sheets.job_card.measured import inspection
from jobtrack.sheets.job_card.runs import weld_lines
from jobtrack.sheets.job_card.takes import takes
from jobtrack.sheets.paper.blocks import Block, Message, Named, Paragraph, Section
from jobtrack.sheets.words.answers import step_answers
from jobtrack.sheets.words.hazards import worst_first
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import headed, step_name
from jobtrack.template.model import Hazard
from jobtrack.template.plan import PlannedStep


def step_section(card: Card, planned: PlannedStep) -> Section:
    """A step with its hazards, what it takes, what to do, and what is to be written down."""
    return Section(step_name(planned), tuple(_blocks(card, planned)))


def _blocks(card: Card, planned: PlannedStep) -> Iterator[Block]:
    yield Paragraph(_titled(card, planned), "small")
    yield from (message(one) for one in worst_first(planned.step.hazard))
    if depends := _depends(card, planned):
        yield Paragraph(depends, "strong")
    if rows := tuple(takes(card, planned)):
        yield Named(rows)
    yield from (Paragraph(part) for part in planned.step.do.split("\n") if part.strip())
    yield from compared(card, planned)
    yield from inspection(card, planned)
    yield from pictures_in(card.job, planned, card.shown)
    yield from checks(card, planned)
    yield from torque_lines(card, planned)
    yield from weld_lines(card, planned)
    yield from (Paragraph(text, "small") for text in step_answers(planned.step))
    yield from hold(card, planned)
    yield times(card, planned)
    yield from besides(card, planned)


def message(one: Hazard) -> Message:
    """A hazard message."""
    return Message(one.signal, one.hazard, one.does, one.avoid)


def _titled(card: Card, planned: PlannedStep) -> str:
    """The name by which the step is typed, and where it stands if something is recorded of it."""
    state = card.job.state(planned.id)
    return f"{planned.id}, {state}" if state in (IN_HAND, FINISHED, LOOK_AGAIN) else planned.id


def not_needed(card: Card, planned: PlannedStep) -> str | None:
    """Why a step that nothing else is recorded of isn't needed, in one row; None where it is written out whole."""
    if card.job.state(planned.id) != NOT_NEEDED:
        return None
    acts = card.job.view.in_step(planned.id)
    marks = [one for one in acts if isinstance(one.act, NotNeededAct)]
    if len(marks) < len(acts):
        return None
    said = "; ".join(f"{one.act.words()} ({card.whose([one])})" for one in marks)
    return headed(step_name(planned), said or f"not needed, {_where(card, planned, known=True)}")


def _depends(card: Card, planned: PlannedStep) -> str:
    """That the step depends on something that isn't known yet."""
    if order.wanted(card.job, planned) is not None:
        return ""
    return f"Only where {_where(card, planned, known=False)}: not known yet."


def _where(card: Card, planned: PlannedStep, *, known: bool) -> str:
    """On what a step depends: what is wanted, and what is known where that is asked."""
    said = []
    for name, values in planned.only_when.items():
        ref = card.job.plan.resolve(name, planned)
        called = f"“{given_name(card.job, ref.name if ref is not None else name)}”"
        value = card.job.now.source.standing(ref).value if ref is not None and known else None
        now = f"{called} is {either([value])}, not " if isinstance(value, str | bool) else f"{called} is "
        if not known or value not in values:
            said.append(f"{now}{either(values)}")
    return " and ".join(said)
