"""Checks: what a step leaves open is closed again, by a step that comes after it."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.in_order.dry_walk import walked
from jobtrack.template.checks.in_order.sequence import sequence
from jobtrack.template.checks.names import ASK_FIRST_CONDITION
from jobtrack.template.kept import kept
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.values import step_key

OnlyWhen = dict[str, tuple[str | bool, ...]]


@kept
def _by_condition(plan: Plan) -> dict[tuple[str, str], list[PlannedStep]]:
    """The steps by the key (opens, closes, not_while) under which they name a condition, and by that condition."""
    found: dict[tuple[str, str], list[PlannedStep]] = {}
    for planned in plan.steps.values():
        for key in ("opens", "closes", "not_while"):
            for name in dict.fromkeys(each.partition(".")[0] for each in getattr(planned.step, key)):
                found.setdefault((key, name), []).append(planned)
    return found


def _with(plan: Plan, key: str, condition: str) -> list[PlannedStep]:
    return _by_condition(plan).get((key, condition), [])


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
    for name in plan.template.condition:
        opening = _opening(plan, name)
        for planned in _with(plan, "closes", name) if opening else ():
            if not opening & sequence(plan).with_own(planned.id):
                yield Problem(
                    step_key(planned, "closes"), f"no step before this one opens {name}",
                    "Mend the order, or take it out of closes",
                )  # fmt: skip


def _opening(plan: Plan, condition: str) -> int:
    return sequence(plan).set_of(planned.id for planned in _with(plan, "opens", condition))


def check_left_open(plan: Plan) -> Iterator[Problem]:
    """A dry walk through the steps ends with nothing left open that a step closes."""
    walk = walked(plan)
    left = [(condition, member) for condition, members in walk.open.items() for member in members]
    for condition, member in sorted(left, key=str) if len(walk.finished) == len(plan.steps) else ():
        declared = plan.template.condition.get(condition)
        if declared is None or declared.passes_to is not None or not _closed_after_opened(plan, condition):
            continue
        of = f" of {member}" if member else ""
        yield Problem(
            ("condition", condition), f"{condition}{of} is still open when all steps are finished",
            "Close it in a step after the last one that opens it",
        )  # fmt: skip


def _closed_after_opened(plan: Plan, condition: str) -> bool:
    opening = _opening(plan, condition)
    return any(opening & sequence(plan).with_own(planned.id) for planned in _with(plan, "closes", condition))


def check_closed_at_the_first(plan: Plan) -> Iterator[Problem]:
    """What is opened once for several members isn't closed as soon as one of them is finished: else a remark."""
    for name in plan.template.condition:
        opening = _with(plan, "opens", name)
        for over in dict.fromkeys(one.set for one in opening):
            left = sequence(plan).set_of(one.id for one in opening if one.set == over)
            yield from _at_the_first(plan, name, over, left)


def _at_the_first(plan: Plan, name: str, over: str | None, left: int) -> Iterator[Problem]:
    """`left`: the steps over one set that open it, as bits; less those behind which it is closed at once."""
    closing = _with(plan, "closes", name)
    for one in closing:
        left &= ~sequence(plan).with_own(one.id) if one.set in (None, over) else -1
    for one in closing:
        if left & sequence(plan).with_own(one.id):
            yield remark(
                step_key(one, "closes"), f"{name} is opened once, and the first {one.set} that is finished closes it",
                "Close it in a step behind all of them, or say why under answered",
            )  # fmt: skip
            return


def check_needed_too(plan: Plan) -> Iterator[Problem]:
    """Where the opening step is needed, a closing one is: a step that isn't needed closes nothing."""
    for name, condition in plan.template.condition.items():
        closing = list(
            {tuple(one.only_when.items()): one.only_when for one in _with(plan, "closes", name)}.values()
        )
        for planned in _with(plan, "opens", name) if closing and condition.passes_to is None else ():
            if not one_needed(plan, planned, closing):
                yield remark(
                    ("condition", name), f"{planned.base} can open it where no step that closes it is needed",
                    "Mend only_when, or say why under answered",
                )  # fmt: skip


def one_needed(plan: Plan, opening: PlannedStep, closing: list[OnlyWhen]) -> bool:
    """Whether a closing step is needed whenever the opening one is; several may take turns by one given."""
    covered: dict[str, set[str | bool]] = {}
    for only_when in closing:
        open_ends = {
            name: set(answers) for name, answers in only_when.items()
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
    for name in plan.template.condition:
        opening = _with(plan, "opens", name)
        before_all = sequence(plan).before_all(planned.id for planned in opening)
        for planned in _with(plan, "not_while", name) if opening else ():
            if before_all >> sequence(plan).place[planned.id] & 1:
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
