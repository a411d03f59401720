"""What entries have changed elsewhere: unsettled, opened, closed, or nothing at all. Put into words at the edge."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from jobtrack.job.state.changed import Changed, changed
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, RELEASED, RELEASED_BEFORE, Job
from jobtrack.job.state.look_again import Reason
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import WITHIN, Number


class Unsettled(Struct, frozen=True):
    """A step that stood and is to be looked at again, with the reasons."""

    step: str
    why: tuple[Reason, ...]


class StandsAgain(Struct, frozen=True):
    """A step that was to be looked at again and stands."""

    step: str


class HoldBefore(Struct, frozen=True):
    """A step whose hold counts as released before a change now."""

    step: str
    ask: str


class TargetMoved(Struct, frozen=True):
    """A target that moved under a reading of a finished step that is still within it: nothing is unsettled."""

    step: str
    reading: str
    target: Number
    value: Number
    unit: str | None


class Agreed(Struct, frozen=True):
    """A disagreement that is over: what stood there stands no more, whoever replaced it."""

    step: str
    reading: str
    was: Standing


class Opened(Struct, frozen=True):
    """A condition that wasn't open."""

    condition: OpenCondition


class Closed(Struct, frozen=True):
    """A condition that was open."""

    condition: OpenCondition


Effect = Unsettled | StandsAgain | HoldBefore | TargetMoved | Agreed | Opened | Closed


def effects(before: Job, after: Job) -> list[Effect]:
    """What follows from the entries that `after` has and `before` hasn't, looked for only where it may be."""
    return compared(before, after, changed(before, after))


def compared(before: Job, after: Job, where: Changed) -> list[Effect]:
    """What differs between two states in some steps and conditions."""
    steps = [step for step in where.steps if step in after.steps]
    return [
        *(effect for step in steps for effect in _unsettled(before, after, step)),
        *(effect for step in steps for effect in _moved_targets(before, after, step)),
        *(effect for step in steps for effect in _agreed(before, after, step)),
        *_conditions(before, after, where),
    ]


def _unsettled(before: Job, after: Job, step: str) -> Iterator[Effect]:
    if before.state(step) != LOOK_AGAIN == after.state(step):
        yield Unsettled(step, tuple(after.why_look_again(step)))
    elif before.state(step) == LOOK_AGAIN and after.state(step) == FINISHED:
        yield StandsAgain(step)
    held, holds = before.hold(step), after.hold(step)
    if held and holds and held.state == RELEASED and holds.state == RELEASED_BEFORE:
        yield HoldBefore(step, holds.ask)


def _moved_targets(before: Job, after: Job, step: str) -> Iterator[Effect]:
    if before.state(step) != FINISHED or after.state(step) != FINISHED:
        return
    for name, reading in before.steps[step].step.reading.items():
        old, new = before.now.limits(step, name).target, after.now.limits(step, name).target
        value = after.now.reading_value(step, name)
        moved = old is not None and new is not None and old != new
        if moved and new is not None and value is not None and after.now.verdict(step, name) == WITHIN:
            yield TargetMoved(step, name, new, value, reading.unit)


def _agreed(before: Job, after: Job, step: str) -> Iterator[Effect]:
    for name in before.steps[step].step.reading:
        was, now = before.places.reading(step, name), after.places.reading(step, name)
        if not was.agreed and now.agreed:
            yield Agreed(step, name, was)


def _conditions(before: Job, after: Job, where: Changed) -> Iterator[Effect]:
    was = {one.name: one for one in before.open_among(where.conditions)}
    now = {one.name: one for one in after.open_among(where.conditions)}
    yield from (Opened(one) for name, one in now.items() if name not in was)
    yield from (Closed(one) for name, one in was.items() if name not in now)
