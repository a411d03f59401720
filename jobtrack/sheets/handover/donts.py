"""What nobody does at somebody else's half-finished job before both have looked at it."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.conditions import ClosesAct
from jobtrack.job.remarks.of_step import NotWithin, step_problems
from jobtrack.job.remarks.waits import Since, since
from jobtrack.job.state.conditions import of_member, of_step, openings
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, RELEASED, RELEASED_BEFORE, Job
from jobtrack.sheets.handover.handing import Handing, points, reading_name
from jobtrack.sheets.paper.blocks import Section
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import minutes_words
from jobtrack.sheets.words.sentences import joined, step_name
from jobtrack.template.plan import PlannedStep

TITLE = "Don't"
BEFORE_THE_WALK_ROUND = (
    "Don't press the pedal, lower it, turn the key, move a jack or grind off a mark before you have walked "
    "round it together."
)
HOT = frozenset({"cuts", "grinds", "welds", "heats"})
"""Kinds of work from which something may still glow; common practice, no source."""


def donts_section(giving: Handing) -> Section:
    """What not to touch, where not to go on, how long to watch, and what this sheet can't know."""
    rows = (
        BEFORE_THE_WALK_ROUND,
        *_holds(giving.job),
        *_outside(giving.job),
        *_watches(giving),
        *_hidden(giving.job),
    )
    return Section(TITLE, tuple(points(rows)))


def _holds(job: Job) -> Iterator[str]:
    """Steps begun, finished ones too, whose hold nobody has released as things are now."""
    for planned in job.steps.values():
        hold = job.hold(planned.id)
        if hold and hold.state != RELEASED and job.state(planned.id) in (IN_HAND, FINISHED, LOOK_AGAIN):
            why = "was released before a change" if hold.state == RELEASED_BEFORE else "isn't released"
            yield f"Don't go on past “{step_name(planned)}”: its hold {why}: {hold.ask}"


def _outside(job: Job) -> Iterator[str]:
    """Steps that are begun and not finished in which a reading is outside, or too close to call."""
    for planned in job.steps.values():
        if job.state(planned.id) not in (IN_HAND, LOOK_AGAIN):
            continue
        found = not_within(job, planned)
        for verdict in dict.fromkeys(one.verdict for one in found):
            names = [reading_name(planned, one.reading) for one in found if one.verdict == verdict]
            are = "is" if len(names) == 1 else "are"
            yield f"Don't go on in “{step_name(planned)}”: {joined(names)} {are} {verdict}."


def not_within(job: Job, planned: PlannedStep) -> list[NotWithin]:
    """The readings of a step that are outside, or too close to call."""
    return [one for one in step_problems(job, planned.id) if isinstance(one, NotWithin)]


# Sparks and flames


def _watches(giving: Handing) -> Iterator[str]:
    """The end of each wait that isn't answered yet, and when the last spark or flame was."""
    for planned in giving.job.steps.values():
        for name in planned.step.tick if not giving.job.settled(planned.id) else ():
            yield from _watch(giving, planned, name)
    if (last := _last_hot(giving.job)) is not None:
        step = giving.job.steps[last.entry.step or ""]
        closed = "".join(f"; closed since then: {one}" for one in _closed_since(giving, step, last))
        yield f"Last sparks or flame, by the entries: “{step_name(step)}”, {giving.who(last)}{closed}."


def _closed_since(giving: Handing, step: PlannedStep, last: Done) -> Iterator[str]:
    """What the step had opened and was closed after it, a fire watch above all, by whom and when."""
    job, own = giving.job, of_step(step)
    names = {one.done.name: one.id for one in openings(job.plan, job.view) if (one.id, one.member) in own}
    for done in job.view.of_kind(ClosesAct):
        closes = done.act.closes if isinstance(done.act, ClosesAct) and done.order > last.order else ()
        for id in dict.fromkeys(names[name] for name in closes if name in names):
            condition = job.plan.template.condition[id]
            yield f"{of_member(condition.tag or condition.text, step.member)} ({giving.who(done)})"


def _watch(giving: Handing, planned: PlannedStep, name: str) -> Iterator[str]:
    """A check that waits: "Fire watch (left): not before 16:40, by the entries"."""
    found = since(giving.job, planned, name)
    if (
        found is not None
        and found.not_before is not None
        and not giving.job.places.tick(planned.id, name).acts
    ):
        yield f"{step_name(planned)}: {_not_before(giving, found)}. To answer then: {planned.step.tick[name].ask}"


def _not_before(giving: Handing, found: Since) -> str:
    assert found.not_before is not None
    there = found.not_before
    waits = f"{minutes_words(found.asked)} after the last entry of {Names(giving.job).steps(found.steps)}"
    if there <= giving.at:
        return f"the wait was over {giving.times.said(there)}, by the entries ({waits})"
    return f"not before {giving.times.said(there)}, by the entries ({waits})"


def _last_hot(job: Job) -> Done | None:
    """The last entry, by the clocks, in which something was done in a step with sparks or flame."""
    done = [
        one
        for planned in job.steps.values()
        if HOT & set(planned.step.does)
        for one in job.view.in_step(planned.id)
        if one.act.work
    ]
    return max(done, key=lambda one: (one.entry.at, one.order), default=None)


def _hidden(job: Job) -> Iterator[str]:
    """That something of the file can't be read, and what that means for the sheet."""
    if any(one.since is None for one in job.open_conditions):
        yield (
            "Don't take this sheet for the whole: something of the job can't be read or is gone, as the first rows "
            "say, and what it said isn't known."
        )
