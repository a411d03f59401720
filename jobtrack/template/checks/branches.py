"""Checks on branches: what holds a step back where the step before it may not be needed."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.conditions import one_needed
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.values import step_key


def check_held_back(plan: Plan) -> Iterator[Problem]:
    """An `after` that is written down is taken as it stands: where no step in it is needed, the step is next at once.

    A step that has none comes after the step before it in its stage, and where that one is of a branch that isn't
    taken, after what comes before that (`jobtrack/job/state/order.py`).
    """
    for planned in plan.steps.values():
        if planned.step.after is None:
            continue
        before = [plan.steps[step] for step in planned.after]
        waited_for = dict.fromkeys(further.base for one in before for further in _before(plan, one))
        if waited_for and not one_needed(plan, planned, [one.only_when for one in before]):
            names = ", ".join(
                f'"{each}"' for each in dict.fromkeys((*(one.base for one in before), *waited_for))
            )
            yield remark(
                step_key(planned, "after"),
                f"{_these(before)} may not be needed, and then nothing comes before this step",
                f"Name also what comes before the branch: after = [{names}]",
            )


def _before(plan: Plan, planned: PlannedStep) -> list[PlannedStep]:
    return [plan.steps[step] for step in planned.after]


def _these(before: list[PlannedStep]) -> str:
    return " and ".join(dict.fromkeys(one.base for one in before))
