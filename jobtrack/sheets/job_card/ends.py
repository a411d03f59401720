"""The end of a step on its card: the hold behind it, when it was begun and ended, what else there is to say."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.doing import TorqueAct, WeldAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.doing.tightening import NOTHING, far
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import NEXT, RELEASED, TO_COME
from jobtrack.sheets.job_card.card import WHO, Card, frame
from jobtrack.sheets.paper.blocks import Block, Box, Inline, Lines, Paragraph, Point, Points, Strong
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.recorded import in_step, words
from jobtrack.sheets.words.sentences import released_line
from jobtrack.template.plan import PlannedStep

NAMES = "Names are typed or written down; nobody is authenticated."


def hold(card: Card, planned: PlannedStep) -> Iterator[Block]:
    """The hold point or go or stop behind a step: who released it, or a line to write that on."""
    found = card.job.hold(planned.id)
    if found is None:
        return
    plain = planned.step.hold is None
    yield Paragraph((Strong("Go or stop: " if plain else "Hold point, work should stop here: "), found.ask))
    if found.release is not None:
        yield Paragraph(released_line(found))
    if found.release is None or found.state != RELEASED:
        yield from (Paragraph((Box("go"), "   ", Box("stop"))),) if plain else ()
        yield Lines("Released by, name and time")
        yield Paragraph(NAMES, "small")


def times(card: Card, planned: PlannedStep) -> Block:
    """When the step was begun and ended, and by whom; frames where that isn't recorded."""
    acts = card.job.view.in_step(planned.id)
    begun = next((one for one in acts if one.act.work), None)
    ended = next((one for one in reversed(acts) if isinstance(one.act, FinishedAct)), None)
    return Paragraph(("Begun: ", *_when(card, begun), "Ended: ", *_when(card, ended)))


def _when(card: Card, done: Done | None) -> tuple[Inline, Inline]:
    return (Strong(card.whose([done])), ". ") if done is not None else (frame(None, WHO), " ")


def besides(card: Card, planned: PlannedStep) -> Iterator[Block]:
    """What was recorded besides, what stands against the step, and a line for remarks."""
    found = [Point(f"{words(card.job, one)} ({card.whose([one])})") for one in _others(card, planned)]
    if card.job.state(planned.id) not in (TO_COME, NEXT):
        against = with_names(card.job, step_problems(card.job, planned.id), card.shown)
        found += [Point((Strong("Wrong or missing: "), text)) for text in against]
    if found:
        yield Points(tuple(found))
    yield Lines("Remarks")


def _others(card: Card, planned: PlannedStep) -> Iterator[Done]:
    """What stands in none of the tables; private notes stay off."""
    for done in in_step(card.job, planned.id):
        if not isinstance(done.act, FinishedAct) and not _private(done) and not _in_a_table(done, planned):
            yield done


def _private(done: Done) -> bool:
    return isinstance(done.act, NoteAct) and done.act.private


def _in_a_table(done: Done, planned: PlannedStep) -> bool:
    """Whether a bolt or a run has its row: not what the template doesn't have."""
    match done.act:
        case TorqueAct(torque=name, stage=stage):
            return name in planned.step.torque and far(planned.step.torque[name], stage) != NOTHING
        case WeldAct(weld=name):
            return name in planned.step.weld
    return False
