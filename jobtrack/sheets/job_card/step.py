"""One step on its card, in the order in which it is read at the bench."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.steps import NotNeededAct
from jobtrack.job.state import order
from jobtrack.job.state.job import NOT_NEEDED
from jobtrack.sheets.drawings.on_paper import pictures_in
from jobtrack.sheets.job_card.bolts import torque_lines
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.checks import checks
from jobtrack.sheets.job_card.compared import compared
from jobtrack.sheets.job_card.ends import besides, holds, times
from jobtrack.sheets.job_card.known import either
from jobtrack.sheets.job_card.measured import inspection
from jobtrack.sheets.job_card.runs import weld_lines
from jobtrack.sheets.job_card.takes import takes
from jobtrack.sheets.job_card.together import Them, of_each, titled
from jobtrack.sheets.paper.blocks import Block, Message, Paragraph, Section
from jobtrack.sheets.words.answers import step_answers
from jobtrack.sheets.words.hazards import worst_first
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import headed, step_name
from jobtrack.template.model import Hazard
from jobtrack.template.plan import PlannedStep


def step_section(card: Card, them: Them) -> Section:
    """A step with its hazards, what it takes, what to do, and what is to be written down."""
    return Section(titled(them), (*_read(card, them), *_written_down(card, them)))


def _read(card: Card, them: Them) -> Iterator[Block]:
    """What is read before the work."""
    step = them[0].step
    yield from (message(one) for one in worst_first(step.hazard))
    yield from (Paragraph(text, "strong") for text in of_each(them, lambda one: _depends(card, one)))
    yield from takes(card, them)
    yield from (Paragraph(part) for part in step.do.split("\n") if part.strip())


def _written_down(card: Card, them: Them) -> Iterator[Block]:
    """What is written down in it, of each of them."""
    yield from (block for one in them for block in compared(card, one))
    yield from inspection(card, them)
    yield from (block for one in them for block in pictures_in(card.job, one, card.shown))
    yield from checks(card, them)
    yield from torque_lines(card, them)
    yield from weld_lines(card, them)
    yield from (Paragraph(text, "small") for text in step_answers(them[0].step))
    yield from holds(card, them)
    yield from besides(card, them)
    yield from times(card, them)


def message(one: Hazard) -> Message:
    """A hazard message."""
    return Message(one.signal, one.hazard, one.does, one.avoid)


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


def _depends(card: Card, planned: PlannedStep) -> Iterator[str]:
    """That the step depends on something that isn't known yet."""
    if order.wanted(card.job, planned) is None:
        yield f"Only where {_where(card, planned, known=False)}: not known yet."


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
