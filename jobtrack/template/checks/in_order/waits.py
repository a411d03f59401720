"""Checks on the wait of a check: how long after the last entry of which step it is answered."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.template.checks.in_order.sequence import sequence
from jobtrack.template.model import Wait
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.values import or_else, step_key, step_names

LONGEST = 7 * 24 * 60
"""Minutes of the longest wait that one check is meant for; what is due later is due afterwards."""


def _waits(plan: Plan) -> Iterator[tuple[PlannedStep, Wait, Key]]:
    for planned in plan.steps.values():
        for name, tick in planned.step.tick.items():
            if tick.wait is not None:
                yield planned, tick.wait, step_key(planned, "tick", name, "wait")


def check_waits(plan: Plan) -> Iterator[Problem]:
    """A wait has a length, and names another step to wait for."""
    for planned, wait, key in _waits(plan):
        if not 0 < wait.minutes <= LONGEST:
            mend = "Write the minutes, from 1 to 10080 (a week)"
            yield Problem((*key, "minutes"), f"a wait of {wait.minutes} minutes", mend)
        steps = plan.named(wait.since, planned)
        if not steps:
            near = step_names(plan).nearest(wait.since)
            yield Problem(
                (*key, "since"),
                f"{wait.since} is no step",
                or_else(near, "Name the step after whose last entry is waited"),
            )
        elif planned in steps:
            yield Problem(
                (*key, "since"),
                "a check can't wait for its own step: the answer is an entry of it",
                "Name the step after which is waited, or put the check in a step of its own",
            )


def check_waited_since(plan: Plan) -> Iterator[Problem]:
    """What is waited for comes before the check that waits."""
    order = sequence(plan)
    for planned, wait, key in _waits(plan):
        for since in plan.named(wait.since, planned):
            if order.before(planned.id, since.id):
                mend = "Mend the order, or name a step before this one"
                yield Problem((*key, "since"), f"{since.id} comes only after this step", mend)
            elif not order.before(since.id, planned.id):
                yield remark(
                    (*key, "since"),
                    f"nothing in the order puts {since.id} before this step",
                    f"Add {wait.since} to after",
                )
