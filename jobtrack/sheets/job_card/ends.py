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
from jobtrack.sheets.job_card.together import Them, whose
from jobtrack.sheets.paper.blocks import Block, Box, Inline, Lines, Paragraph, Point, Points, Strong
from jobtrack.sheets.words.doing.recorded import in_step, words
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.sentences import raised, released_line
from jobtrack.template.plan import PlannedStep

REMARKS, LESS = 34, 10
"""Letters of a frame for remarks, and by how many it is shorter where more stands in front of it."""


def holds(card: Card, them: Them) -> Iterator[Block]:
    """The hold point or go or stop behind each: who released it, or a line to write that on."""
    for one in them:
        yield from _hold(card, one, f", {one.member}" if whose(them, one) else "")


def _hold(card: Card, planned: PlannedStep, of: str) -> Iterator[Block]:
    found = card.job.hold(planned.id)
    if found is None:
        return
    plain = planned.step.hold is None
    to_release = found.release is None or found.state != RELEASED
    either = ("   ", Box("go"), "   ", Box("stop")) if plain and to_release else ()
    asked = Strong(f"Go or stop{of}: " if plain else f"Hold point{of}, work should stop here: ")
    yield Paragraph((asked, found.ask, *either))
    if found.release is not None:
        yield Paragraph(released_line(found))
    if to_release:
        yield Lines("Released by, name and time")


def times(card: Card, them: Them) -> Iterator[Block]:
    """When each was begun and ended, and by whom, with frames where that isn't recorded, and for remarks until then."""
    for one in them:
        of = (Strong(whose(them, one)),) if whose(them, one) else ()
        yield Paragraph((*of, *_times(card, one, REMARKS - LESS * len(of))))


def _times(card: Card, planned: PlannedStep, letters: int) -> tuple[Inline, ...]:
    acts = card.job.view.in_step(planned.id)
    begun = next((one for one in acts if one.act.work), None)
    ended = next((one for one in reversed(acts) if isinstance(one.act, FinishedAct)), None)
    said = ("Begun ", *_when(card, begun), "Ended ", *_when(card, ended))
    return said if ended else (*said, "Remarks ", frame(None, letters - (LESS if begun else 0)))


def _when(card: Card, done: Done | None) -> tuple[Inline, Inline]:
    return (Strong(card.whose([done])), ". ") if done is not None else (frame(None, WHO), " ")


def besides(card: Card, them: Them) -> Iterator[Block]:
    """What was recorded besides, and what stands against the step."""
    if found := [point for one in them for point in _besides(card, one, whose(them, one))]:
        yield Points(tuple(found))


def _besides(card: Card, planned: PlannedStep, of: str) -> list[Point]:
    found = [Point(f"{of}{words(card.job, one)} ({card.whose([one])})") for one in _others(card, planned)]
    if card.job.state(planned.id) not in (TO_COME, NEXT):
        against = with_names(card.job, step_problems(card.job, planned.id), card.shown)
        found += [Point((Strong(raised(f"{of}wrong or missing: ")), text)) for text in against]
    return found


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
