"""What was looked at: checks, holds and whether a second person saw them; and every step, one by one."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.steps import FinishedAct, NotNeededAct
from jobtrack.job.remarks.of_step import BY_THE_SAME, Hold, step_problems
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import NOT_NEEDED, RELEASED, RELEASED_BEFORE, HoldState
from jobtrack.job.state.standing import Standing
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Strong, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.words.sentences import counted, joined, step_name
from jobtrack.template.plan import PlannedStep

NOT_CHECKED = "Names are as typed: who typed them, and what they are qualified for, was not checked."
SECOND, NO_SECOND, NOT_RELEASED = "seen by a second person", "not seen by a second person", "not released"
CHECKS = ("What was asked at each step, and the answer",)
SEEN_MEANS = (
    "Seen by a second person: released by another name than the one that finished the step. "
    "How closely they looked isn't recorded."
)
HOLDS = ("Hold behind the step", "Released by, when", "Second person")
STEPS = ("Step", "Where it stands", "Finished by, when")


def checks(page: Page) -> Section:
    """Every check that was answered, with its answer."""
    rows = [row for planned in page.on.steps for row in _checks(page, planned)]
    return section(
        "Checks", [Table(CHECKS, tuple(rows), "small")] if rows else [], none="No check is answered."
    )


def _checks(page: Page, planned: PlannedStep) -> Iterator[tuple[Text, ...]]:
    """The checks of a step in one row, those answered no first and strong."""
    found = {name: page.job.places.tick(planned.id, name) for name in planned.step.tick}
    answered = {name: standing for name, standing in found.items() if standing.acts}
    asked = {name: planned.step.tick[name].ask for name in answered}
    yes = [asked[name] for name, one in answered.items() if one.value is True]
    no = [f"{asked[name]}{_apart(one)}" for name, one in answered.items() if one.value is not True]
    by = dict.fromkeys(page.who(done.entry) for one in answered.values() for done in one.acts)
    if answered:
        refused = (Strong(f"No: {' · '.join(no)}"), "; " if yes else "") if no else ()
        agreed = (f"yes: {' · '.join(yes)}" if no else f"Yes: {' · '.join(yes)}",) if yes else ()
        yield ((Strong(step_name(planned)), f" ({' / '.join(by)}). ", *refused, *agreed),)


def _apart(standing: Standing) -> str:
    return "" if standing.agreed else " (a disagreement; it counts as no)"


def holds(page: Page) -> Section:
    """Every hold that was come to: who released it, and whether that was somebody else than who did the step."""
    found = [(one, page.job.hold(one.id)) for one in page.on.steps]
    rows = [
        (f"{step_name(planned)}: {hold.ask}", _released(page, hold), seen(page, planned, hold))
        for planned, hold in found if hold is not None and (hold.release or planned.id in page.worked_on)
    ]  # fmt: skip
    blocks: list[Block] = [Paragraph(SEEN_MEANS), Table(HOLDS, tuple(rows), "small")] if rows else []
    return section("Holds, and whether a second person looked", blocks, none="No hold was come to.")


def _released(page: Page, hold: HoldState) -> str:
    if hold.release is None:
        return NOT_RELEASED
    before = " (before a change: released anew by nobody)" if hold.state == RELEASED_BEFORE else ""
    return f"{page.who(hold.release.entry)}{before}"


def seen(page: Page, planned: PlannedStep, hold: HoldState) -> str:
    """Whether somebody else than the one who finished the step released it, by the names as typed."""
    if hold.state != RELEASED:
        return NO_SECOND
    problems = step_problems(page.job, planned.id)
    same = any(isinstance(one, Hold) and one.release == BY_THE_SAME for one in problems)
    return NO_SECOND if same or not _finished(page, planned.id) else SECOND


def _finished(page: Page, step: str) -> list[Done]:
    return [done for done in page.job.view.in_step(step) if isinstance(done.act, FinishedAct)]


def every_step(page: Page) -> Section:
    """Every step that was come to, in the order of the work, by whom and when it was finished."""
    come_to = [one for one in page.on.steps if _come_to(page, one)]
    rows: list[tuple[Text, ...]] = []
    for before, planned in zip([None, *come_to], come_to, strict=False):
        if before is None or before.step.stage != planned.step.stage:
            rows.append(((Strong(planned.stage.title),),))
        rows.append((step_name(planned), page.job.state(planned.id), _by(page, planned.id)))
    blocks: list[Block] = [Table(STEPS, tuple(rows), "small")] if rows else []
    spared = sum(page.job.state(one.id) == NOT_NEEDED and not _come_to(page, one) for one in page.on.steps)
    if spared:
        blocks.append(Paragraph(f"Not needed, by what was answered: {counted(spared, 'step')} more."))
    return section("Every step", blocks, none="No step was begun.")


def _come_to(page: Page, planned: PlannedStep) -> bool:
    """Whether anything was recorded in a step but notes and photos, or somebody marked it as not needed."""
    marked = any(isinstance(done.act, NotNeededAct) for done in page.job.view.in_step(planned.id))
    return marked or planned.id in page.worked_on


def _by(page: Page, step: str) -> str:
    finished = _finished(page, step)
    if finished:
        return page.who(finished[-1].entry)
    names = dict.fromkeys(done.entry.by for done in page.job.view.in_step(step) if done.act.work)
    return f"begun by {joined(list(names))}" if names else ""
