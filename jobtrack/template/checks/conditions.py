"""Checks: what a step leaves open is closed again, by a step that comes after it."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.dry_walk import Walk, comes_before
from jobtrack.template.checks.names import ASK_FIRST_CONDITION
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.values import step_key


def _with(plan: Plan, key: str, condition: str) -> list[PlannedStep]:
    return [
        planned for planned in plan.steps.values()
        if any(name.partition(".")[0] == condition for name in getattr(planned.step, key))
    ]  # fmt: skip


def check_opened_and_closed(plan: Plan) -> Iterator[Problem]:
    """A declared condition is opened by a step, and closed or passed to a due-afterwards line."""
    for name, condition in plan.template.condition.items():
        opening, closing = _with(plan, "opens", name), _with(plan, "closes", name)
        if not opening and (closing or _with(plan, "not_while", name)):
            yield Problem(
                ("condition", name),
                "it is closed or waited for, but no step opens it",
                "Add it to opens of the step that leaves it",
            )
        elif not opening and name != ASK_FIRST_CONDITION:
            yield remark(("condition", name), "no step opens it", "Use it, or remove it")
        elif opening and not closing and condition.passes_to is None:
            yield Problem(
                ("condition", name), "it is opened and never closed: the job couldn't be closed",
                "Add it to closes of a later step, or name a due-afterwards line under passes_to",
            )  # fmt: skip


def check_closed_after_opened(plan: Plan) -> Iterator[Problem]:
    """A closing step comes after an opening one."""
    before = comes_before(plan)
    for name in plan.template.condition:
        opening = {planned.id for planned in _with(plan, "opens", name)}
        for planned in _with(plan, "closes", name) if opening else ():
            if not opening & {planned.id, *before[planned.id]}:
                yield Problem(
                    step_key(planned, "closes"), f"no step before this one opens {name}",
                    "Mend the order, or take it out of closes",
                )  # fmt: skip


def check_left_open(plan: Plan) -> Iterator[Problem]:
    """A dry walk through the steps ends with nothing left open that a step closes."""
    walk = Walk(plan).run()
    for condition, member in sorted(walk.open, key=str) if len(walk.finished) == len(plan.steps) else ():
        declared = plan.template.condition.get(condition)
        if declared is None or declared.passes_to is not None or not _closed_after_opened(plan, condition):
            continue
        of = f" of {member}" if member else ""
        yield Problem(
            ("condition", condition), f"{condition}{of} is still open when all steps are finished",
            "Close it in a step after the last one that opens it",
        )  # fmt: skip


def _closed_after_opened(plan: Plan, condition: str) -> bool:
    before = comes_before(plan)
    opening = {planned.id for planned in _with(plan, "opens", condition)}
    return any(opening & {planned.id, *before[planned.id]} for planned in _with(plan, "closes", condition))


def check_needed_too(plan: Plan) -> Iterator[Problem]:
    """Where the opening step is needed, a closing one is: a step that isn't needed closes nothing."""
    for name, condition in plan.template.condition.items():
        closing = _with(plan, "closes", name)
        for planned in _with(plan, "opens", name) if closing and condition.passes_to is None else ():
            if not _one_needed(plan, planned, closing):
                yield remark(
                    ("condition", name), f"{planned.base} can open it where no step that closes it is needed",
                    "Mend only_when, or say why under answered",
                )  # fmt: skip


def _one_needed(plan: Plan, opening: PlannedStep, closing: list[PlannedStep]) -> bool:
    """Whether a closing step is needed whenever the opening one is; several may take turns by one given."""
    covered: dict[str, set[str | bool]] = {}
    for planned in closing:
        open_ends = {
            name: set(answers) for name, answers in planned.only_when.items()
            if not set(opening.only_when.get(name, ("",))) <= set(answers)
        }  # fmt: skip
        if not open_ends:
            return True
        if len(open_ends) == 1:
            ((name, answers),) = open_ends.items()
            covered.setdefault(name, set()).update(answers)
    return any(_answers(plan, opening, name) <= answers for name, answers in covered.items())


def _answers(plan: Plan, opening: PlannedStep, name: str) -> set[str | bool]:
    ref = plan.resolve(name, opening)
    given = plan.givens.get(ref.item) if ref else None
    return set(opening.only_when.get(name) or (given.choose if given and given.choose else (True, False)))


def check_waited_for(plan: Plan) -> Iterator[Problem]:
    """What a step must not be begun with is something that can be open by then: else a remark."""
    before = comes_before(plan)
    for name in plan.template.condition:
        opening = _with(plan, "opens", name)
        for planned in _with(plan, "not_while", name):
            if opening and all(planned.id in before[step.id] for step in opening):
                yield remark(
                    step_key(planned, "not_while"), f"{name} is opened only after this step",
                    "Mend the order, or take it out of not_while",
                )  # fmt: skip


def check_ask_first(plan: Plan) -> Iterator[Problem]:
    """What has to be asked first is open from the beginning: no step opens it, no condition has its id."""
    for planned in _with(plan, "opens", ASK_FIRST_CONDITION) if plan.template.ask_first else ():
        yield Problem(
            step_key(planned, "opens"), "what has to be asked first is open from the beginning",
            f"Take {ASK_FIRST_CONDITION} out of opens",
        )  # fmt: skip
    if ASK_FIRST_CONDITION in plan.template.condition:
        yield Problem(("condition", ASK_FIRST_CONDITION), "this condition is there by itself", "Rename it")
