"""What one entry has changed elsewhere, a sentence each: unsettled, opened, closed, or nothing at all."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack import units
from jobtrack.job.remarks.problems import both_sides
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, RELEASED, RELEASED_BEFORE, Job
from jobtrack.job.values.limits import WITHIN


def effects(before: Job, after: Job) -> list[str]:
    """What follows from the entries that `after` has and `before` hasn't."""
    return [
        *_unsettled(before, after),
        *_moved_targets(before, after),
        *_settled(before, after),
        *_conditions(before, after),
    ]


def _unsettled(before: Job, after: Job) -> Iterator[str]:
    for step in before.steps:
        if before.state(step) != LOOK_AGAIN == after.state(step):
            yield f"{step}: look again: {'; '.join(after.why_look_again(step))}"
        elif before.state(step) == LOOK_AGAIN and after.state(step) == FINISHED:
            yield f"{step}: stands again"
        held, holds = before.hold(step), after.hold(step)
        if held and holds and held.state == RELEASED and holds.state == RELEASED_BEFORE:
            yield f"{step}: its hold was released before a change: {holds.ask}"


def _moved_targets(before: Job, after: Job) -> Iterator[str]:
    """A target that moved under a reading that is still within it: said, and nothing unsettled."""
    for step, planned in before.steps.items():
        if before.state(step) != FINISHED or after.state(step) != FINISHED:
            continue
        for name, reading in planned.step.reading.items():
            old, new = before.now.limits(step, name).target, after.now.limits(step, name).target
            value = after.now.reading_value(step, name)
            moved = old is not None and new is not None and old != new
            if moved and new is not None and value is not None and after.now.verdict(step, name) == WITHIN:
                yield (
                    f"{step}: the target of {name} is now {units.show(new, reading.unit)}; "
                    f"{units.show(value, reading.unit)} is within it, so this unsettles nothing"
                )


def _settled(before: Job, after: Job) -> Iterator[str]:
    """A disagreement that is over: what stands no more is named once, whoever replaced it."""
    for step, planned in before.steps.items():
        for name in planned.step.reading:
            was, now = before.places.reading(step, name), after.places.reading(step, name)
            if not was.agreed and now.agreed:
                yield f"{step}: the disagreement about {name} is over, {both_sides(was)} no longer count"


def _conditions(before: Job, after: Job) -> Iterator[str]:
    was = {one.name: one for one in before.open_conditions}
    now = {one.name: one for one in after.open_conditions}
    for name in [one for one in now if one not in was]:
        yield f"recorded as open: {now[name].words}"
    for name in [one for one in was if one not in now]:
        yield f"recorded as closed: {was[name].words}"
