"""Checks: every name stands for something, and for something of the kind that is wanted there."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from jobtrack.schema.problem import Key, Problem
from jobtrack.template.kept import kept
from jobtrack.template.plan import VEHICLE_SET, Plan, PlannedStep
from jobtrack.template.values import (
    NUMBER,
    Sort,
    did_you_mean,
    items_of,
    limit_names,
    one_of,
    or_else,
    readings,
    same_kind,
    sort_of,
    step_key,
    step_names,
    value_names,
)

ASK_FIRST_CONDITION = "ask-first"


def conditions(plan: Plan) -> list[str]:
    """The conditions of a template; what has to be asked first is one."""
    return [*plan.template.condition, *([ASK_FIRST_CONDITION] if plan.template.ask_first else [])]


def unknown(key: Key, name: str, what: str, known: Iterable[str]) -> Problem:
    """The problem of a name that is none of the known ones."""
    known = list(known)
    return Problem(key, f"{name} is no {what}", did_you_mean(name, known, one_of(known)))


def check_references(plan: Plan) -> Iterator[Problem]:
    """Stages, sets, conditions, steps and due-afterwards lines that are named must be declared."""
    template = plan.template
    sets = dict.fromkeys(["", *([VEHICLE_SET] if template.vehicle else []), *template.set])
    stages = dict.fromkeys(["", *template.stage])
    for name, stage in template.stage.items():
        yield from _all_known(("stage", name, "after"), stage.after, "stage", template.stage)
        yield from _all_known(("stage", name, "for_each"), [stage.for_each or ""], "set", sets)
    for name, step in template.step.items():
        key = ("step", name)
        yield from _all_known((*key, "stage"), [step.stage], "stage", template.stage)
        yield from _all_known((*key, "for_each"), [step.for_each or ""], "set", sets)
        for inner, part in step.part.items():
            yield from _all_known((*key, "part", inner, "before"), [part.before or ""], "stage", stages)
    for name, part in template.part.items():
        yield from _all_known(("part", name, "before"), [part.before or ""], "stage", stages)
    yield from _lines_known(plan)


def _lines_known(plan: Plan) -> Iterator[Problem]:
    """Conditions pass to due-afterwards lines, which name steps."""
    lines = dict.fromkeys(["", *plan.template.due_afterwards])
    for name, condition in plan.template.condition.items():
        passes_to = [condition.passes_to or ""]
        yield from _all_known(("condition", name, "passes_to"), passes_to, "due-afterwards line", lines)
    steps = dict.fromkeys(["", *plan.template.step, *plan.steps])
    for name, due in plan.template.due_afterwards.items():
        yield from _all_known(("due_afterwards", name, "step"), [due.step or ""], "step", steps)


def _all_known(key: Key, names: Iterable[str], what: str, known: Collection[str]) -> Iterator[Problem]:
    for name in names:
        if name not in known:
            yield unknown(key, name, what, [each for each in known if each])


def check_conditions_named(plan: Plan) -> Iterator[Problem]:
    """`opens`, `closes` and `not_while` name conditions; `not_while` may name a member."""
    known = dict.fromkeys(conditions(plan))
    for base, step in plan.template.step.items():
        yield from _all_known(("step", base, "opens"), step.opens, "condition", known)
        yield from _all_known(("step", base, "closes"), step.closes, "condition", known)
        for name in step.not_while:
            condition, _, member = name.partition(".")
            yield from _all_known(("step", base, "not_while"), [condition], "condition", known)
            those = _opened_for(plan).get(condition, {}) if member and condition in known else ()
            if member and condition in known and member not in those:
                yield unknown(
                    ("step", base, "not_while"),
                    name,
                    "condition of a member",
                    [f"{condition}.{m}" for m in those],
                )


@kept
def _opened_for(plan: Plan) -> dict[str, dict[str, None]]:
    """The members that each condition is opened for."""
    found: dict[str, dict[str, None]] = {}
    for planned in plan.steps.values():
        if planned.member:
            for condition in planned.step.opens:
                found.setdefault(condition, {})[planned.member] = None
    return found


def check_after(plan: Plan) -> Iterator[Problem]:
    """`after` names steps, seen from each member."""
    for planned in plan.steps.values():
        for name in planned.step.after or ():
            if not plan.named(name, planned):
                mend = one_of([])
                if name in plan.template.stage:
                    mend = f"Name the last step of the stage {name}"
                yield Problem(
                    step_key(planned, "after"), f"{name} is no step",
                    or_else(step_names(plan).nearest(name), mend),
                )  # fmt: skip


def check_limits_named(plan: Plan) -> Iterator[Problem]:
    """Targets and limits that are names stand for numbers of the reading's kind."""
    for planned, name, reading, key in readings(plan):
        for limit, wanted in limit_names(planned, reading):
            if wanted == name:
                mend = (
                    f"Rename the reading: in its step it goes before the given {name}"
                    if name in _own(plan, planned)
                    else "Name another value"
                )
                yield Problem((*key, *limit), f"{name} is its own limit", mend)
            else:
                yield from check_value(plan, planned, (*key, *limit), wanted, Sort(NUMBER, reading.unit))
        if reading.from_ is not None:
            yield from check_value(
                plan, planned, (*key, "from"), reading.from_, Sort(NUMBER, reading.unit), {"result"}
            )


def _own(plan: Plan, planned: PlannedStep) -> set[str]:
    return {
        name.rpartition(".")[2] for name in plan.givens if name.rpartition(".")[0] in {"", planned.member}
    }


def check_value(
    plan: Plan,
    planned: PlannedStep,
    key: Key,
    name: str,
    wanted: Sort,
    kinds: frozenset[str] | set[str] = frozenset(),
) -> Iterator[Problem]:
    """A name must stand for one value of the kind that is wanted."""
    ref = plan.resolve(name, planned)
    if ref is None:
        yield Problem(key, f"nothing in this template is named {name}", _nearest(plan, planned, name))
        return
    found = sort_of(plan, ref)
    if found is None:
        if ref.kind == "result":
            use = plan.steps[ref.step or ""].step.work_out[ref.item].use
            yield from _unknown_result(plan, key, name, ref.result, use)
    elif kinds and ref.kind not in kinds:
        yield Problem(key, f"{name} is a {ref.kind}", f"Name the {' or '.join(kinds)} of a working-out")
    elif found.sort != wanted.sort:
        yield Problem(key, f"{name} is {found}, wanted is {wanted}", "Name another value")
    elif not same_kind(found.unit, wanted.unit):
        yield Problem(
            key, f"{name} is in {found.unit or 'plain numbers'}, wanted is {wanted.unit or 'a plain number'}",
            "Name a value of that kind, or mend the unit",
        )  # fmt: skip


def _unknown_result(plan: Plan, key: Key, name: str, result: str, use: str) -> Iterator[Problem]:
    from jobtrack.template.values import results_of

    known = [quantity.key for quantity in results_of(use)]
    if known:
        yield unknown(key, result, f"result of {use}", known)


def _nearest(plan: Plan, planned: PlannedStep, name: str) -> str:
    several = plan.named(name.rpartition(".")[0], planned)
    if len(several) > 1:
        item = name.rpartition(".")[2]
        return f"Name its member: {', '.join(f'{step.id}.{item}' for step in several[:4])}"
    near = value_names(plan).nearest(name, items_of(planned))
    return or_else(near, "Declare it, or name a reading, a given or a result")
