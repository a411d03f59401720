"""What is recorded as open, each once: what, its tag, who left it and since when, and the steps that it stops."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, Job
from jobtrack.sheets.handover.handing import Handing
from jobtrack.sheets.paper.blocks import Inline, Paragraph, Section, Strong, Table, Text
from jobtrack.sheets.words.sentences import NO_CONDITION, ended, joined, step_name, worst_first
from jobtrack.template.plan import PlannedStep

TITLE = "Recorded as open, right now"
HEAD = ("What", "Left by, since", "Stops")
STOPS_NOTHING = "No step of the template waits for it: decide together what does."
NAMED, NAMED_OF_MANY, MANY = 2, 1, 5
"""So many of the steps that a condition stops are named; so many where more than `MANY` conditions are open."""


def open_section(giving: Handing) -> Section:
    """Every open condition, the worst first, sides of one wording in one row; without one, what that doesn't say."""
    found = open_rows(giving.job)
    if not found:
        return Section(TITLE, (Paragraph(NO_CONDITION, "large"),))
    named = NAMED if sum(map(len, found)) <= MANY else NAMED_OF_MANY
    return Section(TITLE, (Table(HEAD, tuple(_row(giving, each, named) for each in found)),))


def open_rows(job: Job) -> list[list[OpenCondition]]:
    """The worst first; what the template opened and none of its steps waits for, a re-check after kilometres, last.

    Conditions that differ by their side and since when alone stand together, where the first of them stands.
    """
    groups: dict[object, list[OpenCondition]] = {}
    for one in sorted(worst_first(job), key=lambda one: _waited_for_by_none(job, one)):
        groups.setdefault(_alike(job, one), []).append(one)
    return [sorted(each, key=lambda one: one.member or "") for each in groups.values()]


def _alike(job: Job, one: OpenCondition) -> object:
    """What is the same of those that stand together; of one that stands by itself its name."""
    if one.member is None or one.since is None:
        return one.name
    return one.tag, one.text, one.remark, one.by, tuple(each.id for each in stopped_steps(job, one))


def sides_of(those: Sequence[OpenCondition]) -> str:
    """ " (left, right)"; empty where there are no sides."""
    sides = [one.member for one in those if one.member]
    return f" ({', '.join(sides)})" if sides else ""


def _waited_for_by_none(job: Job, one: OpenCondition) -> bool:
    own_words = one.id in one.openings
    return one.since is not None and not own_words and not stopped_steps(job, one)


def _row(giving: Handing, those: Sequence[OpenCondition], named: int) -> tuple[Text, ...]:
    first = those[0]
    remark = f" {ended(first.remark)}" if first.remark else ""
    stopped = stopped_steps(giving.job, first)
    lost = first.since is None and not stopped
    return (*_what(those, remark), _left(giving, those), "" if lost else _stops(stopped, named))


def _what(those: Sequence[OpenCondition], remark: str) -> tuple[tuple[Inline, ...]]:
    """The tag and the words, the sides once; without a tag the words alone."""
    first, of_sides = those[0], sides_of(those)
    if first.tag is None:
        return ((Strong(f"{ended(first.text)}{of_sides}"), remark),)
    return ((Strong(f"{first.tag}{of_sides}:"), f" {ended(first.text)}{remark}"),)


def _left(giving: Handing, those: Sequence[OpenCondition]) -> str:
    """Who left it, since when, of two sides each with its own; of what can't be read nobody knows that."""
    first, many = those[0], len(those) > 1
    times = [
        f"{giving.times.said(one.since)}{f' ({one.member})' if many else ''}" for one in those if one.since
    ]
    return f"{first.by}, {joined(times)}" if times else ""


def _stops(found: Sequence[PlannedStep], named: int) -> str:
    """ "“Down on its wheels”, “Roll test” and 3 more"."""
    if not found:
        return STOPS_NOTHING
    names = [f"“{step_name(planned)}”" for planned in found[:named]]
    more = len(found) - named
    return f"{', '.join(names)} and {more} more" if more > 0 else joined(names)


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
