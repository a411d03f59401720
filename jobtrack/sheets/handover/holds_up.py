"""What holds the vehicle up: the giver's words, and what is recorded of the steps that lift or lower."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.handing import Handing, said_or_lines
from jobtrack.sheets.paper.blocks import Paragraph, Point, Points, Section
from jobtrack.sheets.words.sentences import headed, step_name
from jobtrack.template.plan import PlannedStep

TITLE = "What holds it up"
NOT_RECORDED = "No step that lifts or lowers is recorded."
LIFTS = frozenset({"lifts", "lowers"})
HEADS = ("Recorded", "Before that")
STEPS = len(HEADS)
"""So many of the steps that lift or lower are told: those that left something open, and the last ones."""


def holds_up_section(giving: Handing) -> Section:
    """In the giver's words, or lines for them; and what is recorded of it."""
    found = sorted(_lifting(giving.job), key=lambda one: _rank(giving.job, *one), reverse=True)[:STEPS]
    latest_first = sorted(found, key=lambda one: one[0].order, reverse=True)
    rows = tuple(
        Point(f"{head}: {_told(giving, *one)}") for head, one in zip(HEADS, latest_first, strict=False)
    )
    told = Points(rows, "small") if rows else Paragraph(NOT_RECORDED)
    return Section(TITLE, (said_or_lines(giving, "holds_up"), told))


def _lifting(job: Job) -> Iterator[tuple[Done, PlannedStep]]:
    """The steps that lift or lower and are recorded, each with its last act."""
    for planned in job.steps.values():
        done = (
            [one for one in job.view.in_step(planned.id) if one.act.work]
            if LIFTS & set(planned.step.does)
            else []
        )
        if done:
            yield done[-1], planned


def _rank(job: Job, last: Done, planned: PlannedStep) -> tuple[bool, tuple[int, str, str, int]]:
    """What a step left open still says how the vehicle stands; of the others the last says most."""
    return any(one.step == planned.id for one in job.open_conditions), last.order


def _told(giving: Handing, last: Done, planned: PlannedStep) -> str:
    """A step with its checks as they were answered, by whom and when."""
    checks = [
        f"{headed(tick.ask, _answer(giving.job, planned, name))}" for name, tick in planned.step.tick.items()
    ]
    state = giving.job.state(planned.id)
    return f"{step_name(planned)}, {state}, {giving.who(last)}.{''.join(f' {one}.' for one in checks)}"


def _answer(job: Job, planned: PlannedStep, name: str) -> str:
    standing = job.places.tick(planned.id, name)
    if not standing.agreed:
        return "a disagreement; it counts as no"
    return {True: "yes", False: "no"}.get(standing.value is True, "") if standing.acts else "not answered"
