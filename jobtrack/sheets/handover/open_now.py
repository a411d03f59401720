"""What is recorded as open, each once: what, its tag, who left it and since when, and the steps that it stops."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.job.state.conditions import OpenCondition, of_member
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, Job
from jobtrack.sheets.handover.handing import Handing
from jobtrack.sheets.paper.blocks import Inline, Paragraph, Point, Points, Section, Strong
from jobtrack.sheets.words.sentences import NO_CONDITION, ended, joined, step_name, worst_first
from jobtrack.template.plan import PlannedStep

TITLE = "Recorded as open, right now"
STOPS_NOTHING = "No step of the template waits for it: decide together what does."
NAMED, NAMED_OF_MANY, MANY = 2, 1, 5
"""So many of the steps that a condition stops are named; so many where more than `MANY` conditions are open."""


def open_section(giving: Handing) -> Section:
    """Every open condition, the worst first; without one, what that doesn't say."""
    found = worst_first(giving.job)
    if not found:
        return Section(TITLE, (Paragraph(NO_CONDITION, "large"),))
    named = NAMED if len(found) <= MANY else NAMED_OF_MANY
    return Section(TITLE, (Points(tuple(_point(giving, one, named) for one in found)),))


def _point(giving: Handing, one: OpenCondition, named: int) -> Point:
    remark = [ended(one.remark)] if one.remark else []
    stopped = stopped_steps(giving.job, one)
    lost = one.since is None and not stopped
    said = [*_left(giving, one), *remark, *([] if lost else _stops(stopped, named))]
    return Point((*_what(one), f" {' '.join(said)}"))


def _what(one: OpenCondition) -> tuple[Inline, ...]:
    """The tag and the words, the side once; without a tag the words alone."""
    if one.tag is None:
        return (Strong(of_member(ended(one.text), one.member)),)
    return (Strong(f"{of_member(one.tag, one.member)}:"), f" {ended(one.text)}")


def _left(giving: Handing, one: OpenCondition) -> list[str]:
    """Who left it, since when; of what can't be read nobody knows that."""
    return [] if one.since is None else [f"{one.by}, since {giving.times.said(one.since)}."]


def _stops(found: Sequence[PlannedStep], named: int) -> list[str]:
    """ "Stops “Down on its wheels”, “Roll test” and 3 more." """
    if not found:
        return [STOPS_NOTHING]
    names = [f"“{step_name(planned)}”" for planned in found[:named]]
    more = len(found) - named
    said = f"{', '.join(names)} and {more} more" if more > 0 else joined(names)
    return [f"Stops {said}."]


def stopped_steps(job: Job, one: OpenCondition) -> list[PlannedStep]:
    """The steps that an open condition, or what a damaged entry may have opened, stops; those begun come first."""
    conditions = [(one.id, one.member), *((each.id, each.member) for each in one.perhaps)]
    stopped = [
        planned
        for planned in job.steps.values()
        if not job.settled(planned.id) and any(_stops_step(planned, *each) for each in conditions)
    ]
    return sorted(stopped, key=lambda planned: job.state(planned.id) not in (IN_HAND, LOOK_AGAIN))


def _stops_step(planned: PlannedStep, id: str, member: str | None) -> bool:
    return bool({id, f"{id}.{member}"} & set(planned.step.not_while))
