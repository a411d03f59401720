"""What went otherwise than written: what stands against each step, and what was noted and agreed there, by whom."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import MetAct, NoteAct
from jobtrack.job.acts.steps import AddedStepAct, NotNeededAct, StandsAct, SwappedAct
from jobtrack.job.remarks.of_job import BesideClosing, GivenApart, LeftInClosed, OfJob, job_problems
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import NEXT, NOT_NEEDED, TO_COME
from jobtrack.sheets.paper.blocks import Block, Point, Points, Section, Strong
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.vehicle_record.sections.looked import NO_SECOND
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.sentences import counted, joined, raised, step_name
from jobtrack.template.plan import PlannedStep

NONE = "Nothing is recorded that went otherwise than the template has it."
NOTHING_NOTED = "What was decided about it isn't noted in this step."


def deviations(page: Page) -> Section:
    """Step by step: what stands against it, and under it what was said and agreed there."""
    points = [point for planned in page.on.steps if (point := _step(page, planned)) is not None]
    points += [Point(raised(text)) for text in with_names(page.job, _of_job(page), page.shown)]
    blocks: list[Block] = [Points(tuple(points))] if points else []
    return section("Deviations, and what was noted there", blocks, none=NONE)


def against(page: Page, planned: PlannedStep) -> list[str]:
    """What stands against a step that was come to; that a hold was seen by one alone stands with the holds."""
    if page.job.state(planned.id) in (TO_COME, NEXT):
        return []
    found = with_names(page.job, step_problems(page.job, planned.id), page.shown)
    return [text for text in found if NO_SECOND not in text]


def _step(page: Page, planned: PlannedStep) -> Point | None:
    found = [*against(page, planned), *_decided_otherwise(page, planned)]
    if not found:
        return None
    here = (done for kind in (NoteAct, AgreedAct) for done in page.of_kind(kind))
    beside = [done for done in here if done.entry.step == planned.id]
    noted = [f"{_said(done)} ({page.who(done.entry)})" for done in beside] or [NOTHING_NOTED]
    return Point((Strong(step_name(planned)),), tuple(map(Point, (*found, *noted))))


def _decided_otherwise(page: Page, planned: PlannedStep) -> Iterator[str]:
    """Not needed because, looked at again and stands because, swapped sides, a step that somebody put in."""
    for done in page.job.view.in_step(planned.id):
        match done.act:
            case NotNeededAct(because=because) if page.job.state(planned.id) == NOT_NEEDED:
                yield f"not needed: {because or 'no reason typed'} ({page.who(done.entry)})"
            case SwappedAct():
                yield f"left and right were confused: the readings changed sides ({page.who(done.entry)})"
    for done in page.job.view.of_kind(StandsAct):
        if isinstance(done.act, StandsAct) and planned.id in done.act.stands:
            because = done.act.because or "no reason typed"
            yield f"looked at again, and it stands: {because} ({page.who(done.entry)})"
    for done in page.job.view.of_kind(AddedStepAct):
        if isinstance(done.act, AddedStepAct) and done.act.step == planned.id and planned.added:
            yield f"a step that the template doesn't have, put in ({page.who(done.entry)})"


def _said(done: Done) -> str:
    return f"noted: {done.act.note}" if isinstance(done.act, NoteAct) else done.act.words()


def _of_job(page: Page) -> list[OfJob]:
    """What stands against the job as a whole, but for what is another vehicle's."""
    return [one for one in job_problems(page.job) if _mine(page, one)]


def _mine(page: Page, one: OfJob) -> bool:
    match one:
        case GivenApart(given=given):
            return page.on.given(given)
        case BesideClosing(step=step) | LeftInClosed(step=step):
            return page.on.place(step)
        case _:
            return True


def surprises(page: Page) -> Section:
    """What was met that nobody planned."""
    points = [Point(_met(page, done)) for done in page.of_kind(MetAct)]
    return section("Surprises", [Points(tuple(points))] if points else [], none="No surprise is recorded.")


def _met(page: Page, done: Done) -> str:
    words = raised(done.act.words().removeprefix("met: "))
    return f"{words}: {page.where(done.entry.step)} ({page.who(done.entry)})"


def outside(page: Page) -> str:
    """The steps against which something stands, counted and named for the first glance."""
    steps = [step_name(one) for one in page.on.steps if against(page, one)]
    if not steps:
        return NONE
    return f"{counted(len(steps), 'step')}: {joined([f'“{one}”' for one in steps])}"
