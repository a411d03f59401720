"""Where inside the job somebody stopped: each step in hand or to be looked at again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from jobtrack.job.acts.conditions import ClosesAct
from jobtrack.job.acts.doing import PlaceAct, TorqueAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.remarks.of_step import (
    Besides,
    NotCounted,
    NotTightened,
    NotWithin,
    OfStep,
    left_open,
    step_problems,
)
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, Job
from jobtrack.sheets.handover.handing import Handing, points, reading_name
from jobtrack.sheets.paper.blocks import Block, Message, Paragraph, Section, Table
from jobtrack.sheets.words.doing.recorded import in_step
from jobtrack.sheets.words.hazards import worst_first
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.sentences import NOT_CHECKED, headed, step_name
from jobtrack.sheets.words.values.in_units import wanted_in
from jobtrack.template.model import Hazard
from jobtrack.template.plan import PlannedStep

TITLE = "Where inside"
NOTHING_IN_HAND = "No step is recorded as in hand or to be looked at again."
OF_THE_JOB = "Hazards of the whole job, wherever it stands"
FIRST_PAGE, STEPS_PAGE = "the job's first page", "the step's own page"
MESSAGES = 2
"""So many hazard messages of one step, and of the job, stand here whole, the worst."""
HEAD = ("Reading", "Measured, with", "Wanted", "Where it lies")
ELSEWHERE = (TorqueAct, NoteAct, MarkAct, ClosesAct, PlaceAct)
"""What a step's rows leave to a section or a row of its own."""
TOLD_ELSEWHERE = (NotWithin, NotTightened, NotCounted, Besides)
"""What stands in the table of readings, or among the fasteners."""


def begun_steps(job: Job) -> list[PlannedStep]:
    """The steps in hand or to be looked at again, in the order of the plan."""
    return [planned for planned in job.steps.values() if job.state(planned.id) in (IN_HAND, LOOK_AGAIN)]


def inside_section(giving: Handing) -> Section:
    """Each step in hand or to be looked at again; without one, what was finished last."""
    told: list[Hazard] = []
    steps = begun_steps(giving.job)
    none = [] if steps else [Paragraph(f"{NOTHING_IN_HAND}{_finished_last(giving)}")]
    return Section(TITLE, tuple(none), tuple(_step(giving, planned, told) for planned in steps))


def _finished_last(giving: Handing) -> str:
    """Where the work stopped when nothing is in hand: the step that was finished last."""
    steps = giving.job.steps
    done = [
        one
        for one in giving.job.view.of_kind(FinishedAct)
        if one.entry.step in steps and giving.job.state(one.entry.step) == FINISHED
    ]
    last = max(done, key=lambda one: one.order, default=None)
    return f" Finished last: {step_name(steps[last.entry.step or ''])} ({giving.who(last)})." if last else ""


def _step(giving: Handing, planned: PlannedStep, told: list[Hazard]) -> Section:
    title = f"{step_name(planned)}: {giving.job.state(planned.id)}"
    hazards = _hazards(planned.step.hazard, told, STEPS_PAGE)
    return Section(
        title,
        (*_where(giving, planned), *hazards, *_readings(giving, planned), *points(_rows(giving, planned))),
    )


# Hazards


def hazards_section(giving: Handing) -> Section:
    """The hazards of the whole job, wherever it stands: behind how it stands now, or they would be read as that."""
    told: list[Hazard] = []
    for planned in begun_steps(giving.job):
        _hazards(planned.step.hazard, told, STEPS_PAGE)
    return Section(OF_THE_JOB, tuple(_hazards(giving.job.plan.template.hazard, told, FIRST_PAGE)))


def _hazards(hazards: Sequence[Hazard], told: list[Hazard], page: str) -> list[Block]:
    """The worst few that nobody was told yet on this sheet; what is left out by name, and where it stands."""
    new = [one for one in worst_first(hazards) if one not in told]
    told += new[:MESSAGES]
    left = [f"{one.signal} {one.hazard}" for one in new[MESSAGES:]]
    more = [Paragraph(f"More on {page}: {'; '.join(left)}.", "small")] if left else []
    return [*(Message(one.signal, one.hazard, one.does, one.avoid) for one in new[:MESSAGES]), *more]


# Readings, and how far it is


def _readings(giving: Handing, planned: PlannedStep) -> list[Block]:
    """What was measured, with what, what is wanted, and where it lies."""
    rows = tuple(filter(None, (_reading(giving, planned, name) for name in planned.step.reading)))
    return [Table(HEAD, rows)] if rows else []


def _reading(giving: Handing, planned: PlannedStep, name: str) -> tuple[str, ...] | None:
    job = giving.job
    measured = giving.measured(planned, name)
    if not measured:
        return None
    with_ = instrument(job, planned, name)
    verdict = job.now.verdict(planned.id, name)
    return (
        reading_name(planned, name),
        f"{measured}{with_ and f', {with_}'}",
        wanted_in(job, planned, name, giving.shown),
        "" if verdict == "none" else verdict,
    )


def instrument(job: Job, planned: PlannedStep, name: str) -> str:
    """What a reading was taken with: as recorded, else as the template asks."""
    reading = planned.step.reading[name]
    act = None if reading.from_ else job.places.reading(planned.id, name).reading
    return (act.with_ if act else None) or reading.with_ or ""


def _where(giving: Handing, planned: PlannedStep) -> list[Block]:
    """Where the hand stopped, the last mark first."""
    marks = [done for done in in_step(giving.job, planned.id) if isinstance(done.act, MarkAct)]
    said = [
        f"{done.act.mark} ({giving.who(done)})" for done in reversed(marks) if isinstance(done.act, MarkAct)
    ]
    if not said:
        return []
    before = f" Before that: {'; '.join(said[1:])}." if said[1:] else ""
    since = _since(giving, planned, marks[-1])
    return [Paragraph(f"Stopped at: {said[0]}.{since}{before}", "strong")]


def _since(giving: Handing, planned: PlannedStep, mark: Done) -> str:
    """What was done in the step after somebody had said where they stopped: a mark grows old."""
    acts = in_step(giving.job, planned.id)
    later = [one for one in acts if one.act.work and one.order > mark.order and one.entry is not mark.entry]
    if not later:
        return ""
    more = f", and {len(later) - 1} more before it" if later[1:] else ""
    return f" Recorded after that: {giving.row(max(later, key=lambda one: one.order))}{more}."


def _rows(giving: Handing, planned: PlannedStep) -> Iterator[str]:
    """What is against it, what isn't there yet, what was answered, and all else that was recorded in it."""
    job, against = giving.job, step_problems(giving.job, planned.id)
    not_yet = [one for one in left_open(job, planned.id) if one not in against]
    yield from notes(giving, planned.id)
    yield from (f"Wrong or missing: {text}" for text in said_here(giving, against))
    yield from (f"Not yet: {text}" for text in said_here(giving, not_yet))
    if yes := [f"{tick.ask} yes" for name, tick in planned.step.tick.items() if _is_yes(job, planned, name)]:
        yield f"Answered: {'; '.join(yes)}"
    yield from (f"{said}. {NOT_CHECKED}" for said in giving.release(job.hold(planned.id)))
    yield from (giving.row(done) for done in in_step(job, planned.id) if not isinstance(done.act, ELSEWHERE))


def said_here(giving: Handing, problems: Iterable[OfStep]) -> list[str]:
    """Problems in words, without those that have a table of their own."""
    left = [one for one in problems if not isinstance(one, TOLD_ELSEWHERE)]
    return with_names(giving.job, left, giving.shown)


def _is_yes(job: Job, planned: PlannedStep, name: str) -> bool:
    standing = job.places.tick(planned.id, name)
    return bool(standing.acts) and standing.value is True


def notes(giving: Handing, step: str) -> Iterator[str]:
    """The notes of a step; private ones stay in the shop."""
    for done in in_step(giving.job, step):
        if isinstance(done.act, NoteAct) and not done.act.private:
            yield f"{headed('Note', done.act.note)} ({giving.who(done)})"
