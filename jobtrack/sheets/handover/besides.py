"""What else was recorded: every act has its place on the sheet, and what nothing else tells stands here."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.conditions import ClosesAct
from jobtrack.job.acts.doing import PlaceAct, TorqueAct
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.doing.parts import parts_of, tools_of
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, NEXT, TO_COME, Job
from jobtrack.job.time.clock import times
from jobtrack.sheets.handover.against import noted_here, told_here
from jobtrack.sheets.handover.handing import Handing, points
from jobtrack.sheets.handover.inside import notes, said_here
from jobtrack.sheets.paper.blocks import Block, Paragraph, Point, Points, Section
from jobtrack.sheets.words.doing.recorded import in_step, of_job
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import clock_lines, headed, step_name
from jobtrack.sheets.words.values.readings import given_words
from jobtrack.template.plan import PlannedStep

TITLE = "What else was recorded"
FINISHED_STEPS = (
    "The readings and checks of finished steps stand in the job itself; what is against them stands above."
)
ELSEWHERE = (TorqueAct, NoteAct, MarkAct, FinishedAct, ClosesAct, PlaceAct)
"""What has a section or a row of its own; what finishing closed is gone from the first section."""


def besides_section(giving: Handing) -> Section:
    """Steps that aren't in hand, the job as a whole, notes, and what is known; on a page of its own."""
    parts = (
        Section("Other steps worked on", tuple(_other_steps(giving))),
        Section("For the job as a whole", tuple(points(_of_job(giving), "small"))),
        Section("Known", _known(giving.job)),
    )
    return Section(TITLE, (), tuple(one for one in parts if one.blocks), new_page=True)


def _other_steps(giving: Handing) -> Iterator[Block]:
    """Those with more to say of them a row each, the others in one."""
    found = list(_steps(giving))
    if more := tuple(Point(f"{said}. {'; '.join(under)}") for said, under in found if under):
        yield Points(more, "small")
    if alone := [said for said, under in found if not under]:
        yield Paragraph(f"{'; '.join(alone)}.", "small")
    if found:
        yield Paragraph(FINISHED_STEPS, "small")


def _steps(giving: Handing) -> Iterator[tuple[str, list[str]]]:
    """The steps finished, not needed, or with something recorded ahead of its time; what there is to say of each."""
    for planned in giving.job.steps.values():
        acts, state = in_step(giving.job, planned.id), giving.job.state(planned.id)
        finished = _finished(giving, acts)
        under = [said.removesuffix(finished) for said in _under(giving, planned, acts, state)]
        if state not in (IN_HAND, LOOK_AGAIN) and (acts or under):
            yield f"{headed(step_name(planned), state)}{finished}", under


def _finished(giving: Handing, acts: list[Done]) -> str:
    last = [done for done in acts if isinstance(done.act, FinishedAct)][-1:]
    return f" ({giving.who(last[0])})" if last else ""


def _under(giving: Handing, planned: PlannedStep, acts: list[Done], state: str) -> Iterator[str]:
    against = step_problems(giving.job, planned.id) if state not in (TO_COME, NEXT) else []
    here = [one for one in against if not told_here(one)]
    yield from (f"Wrong or missing: {text}" for text in said_here(giving, here))
    yield from giving.release(giving.job.hold(planned.id))
    yield from (giving.row(one) for one in acts if not isinstance(one.act, ELSEWHERE))
    if not noted_here(giving.job, planned.id):
        yield from notes(giving, planned.id)


def _of_job(giving: Handing) -> Iterator[str]:
    """What is about the whole job, notes too; not what has been told of it, nor this handing over."""
    parts, tools = parts_of(giving.job), tools_of(giving.job)
    told = {done.name for one in parts if one.outstanding for done in one.buying}
    told |= {done.name for one in parts for done in one.places}
    told |= {done.name for one in tools for done in one.places}
    for done in of_job(giving.job):
        if done.name in told or isinstance(done.act, AgreedAct) or giving.is_this(done):
            continue
        if not (isinstance(done.act, NoteAct) and done.act.private):
            yield giving.row(done)
    found = times(giving.job)
    yield from clock_lines(found.running, found.on_break)


def _known(job: Job) -> tuple[Block, ...]:
    """What is known for the whole job; what isn't stands with what can be begun next."""
    known = [name for name in job.plan.givens if job.places.given(name).value is not None]
    said = "; ".join(headed(given_name(job, name), given_words(job, name)) for name in known)
    return (Paragraph(f"{said}.", "small"),) if known else ()
