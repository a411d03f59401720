"""Checks on sets and their members, on names within a step, and on the table that compares the vehicles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from jobtrack.schema.problem import Key, Problem
from jobtrack.template.checks.names import check_value, unknown
from jobtrack.template.model import Step
from jobtrack.template.plan import VEHICLE_SET, Plan, PlannedStep, members
from jobtrack.template.values import NUMBER, Sort, did_you_mean, readings, sort_of, step_key


def check_members(plan: Plan) -> Iterator[Problem]:
    """A limit for each member names the members of the step's set."""
    for planned, _, reading, key in readings(plan):
        for limit in ("target", "at_least", "at_most"):
            value = getattr(reading, limit)
            those = members(plan.template, planned.set)
            if isinstance(value, dict) and not those:
                yield Problem(
                    (*key, limit), "this step isn't repeated over a set", "Write one limit, or add for_each"
                )
            elif isinstance(value, dict):
                for name in value.keys() - set(those):
                    yield unknown((*key, limit, name), name, f"member of {planned.set}", those)
                if not value:
                    yield Problem((*key, limit), "no member has a limit", "Remove it, or write one a member")


def check_sets(plan: Plan) -> Iterator[Problem]:
    """Sets have members, each once; `vehicle` is a set by itself; members go by one name only."""
    template = plan.template
    for name, those in template.set.items():
        if name == VEHICLE_SET:
            yield Problem(
                ("set", name),
                "vehicle is a set by itself",
                "Declare the vehicles under vehicle, or rename the set",
            )
        for member in _twice(those):
            yield Problem(("set", name), f"{member} stands twice", "Name each member once")
        if not those:
            yield Problem(("set", name), "the set has no member", "Name its members, or remove it")
    for vehicle in template.vehicle:
        if vehicle in template.given or vehicle in template.step:
            where = "given" if vehicle in template.given else "step"
            yield Problem((where, vehicle), f"a vehicle is named {vehicle} too", "Rename one of the two")


def check_names_differ(plan: Plan) -> Iterator[Problem]:
    """Members, readings, ticks and workings-out of one step have different names."""
    for base, planned in ((base, steps[0]) for base, steps in plan.by_base.items()):
        names = [*planned.step.reading, *planned.step.tick, *planned.step.work_out]
        for name in _twice([*names, *members(plan.template, planned.set)]):
            where = next(
                (key for key in ("work_out", "tick", "reading") if name in getattr(planned.step, key)), ""
            )
            if not where:
                continue
            yield Problem(
                ("step", base, where, name), f"two things in this step are named {name}", "Rename one of them"
            )
        yield from _names_twice(base, planned.step)


def _names_twice(base: str, step: Step) -> Iterator[Problem]:
    for key in ("opens", "closes", "not_while", "after", "does"):
        for name in _twice(getattr(step, key) or ()):
            yield Problem(("step", base, key), f"{name} stands twice", "Name it once")


def _twice(names: Iterable[str]) -> list[str]:
    return [name for name, count in Counter(names).items() if count > 1]


def check_compare(plan: Plan) -> Iterator[Problem]:
    """A line of the comparison sets one reading of both vehicles side by side, and asks what follows."""
    for planned in plan.steps.values():
        for name, row in planned.step.compare.items():
            key = step_key(planned, "compare", name)
            yield from _compared(plan, key, row.of)
            if row.by is not None:
                yield from _by(plan, planned, (*key, "by"), row.by)
            if row.then is not None:
                ref = plan.resolve(row.then, planned)
                given = plan.givens.get(ref.item) if ref and ref.kind == "given" else None
                if given is None:
                    choices = [each for each, one in plan.givens.items() if one.choose]
                    yield unknown((*key, "then"), row.then, "given", choices)
                elif not given.choose:
                    yield Problem(
                        (*key, "then"), f"{row.then} has nothing to choose from", "Give it choose = […]"
                    )


def _by(plan: Plan, planned: PlannedStep, key: Key, name: str) -> Iterator[Problem]:
    ref = plan.resolve(name, planned)
    if ref is not None and ref.kind != "result":
        yield Problem(key, f"{name} is a {ref.kind}", "Name the result of a working-out")
    elif ref is None or sort_of(plan, ref) is None:
        yield from check_value(plan, planned, key, name, Sort(NUMBER))


def _compared(plan: Plan, key: Key, of: str) -> Iterator[Problem]:
    base, _, item = of.partition(".")
    steps = [step for step in plan.by_base.get(base, ()) if step.set == VEHICLE_SET]
    if not steps or item not in steps[0].step.reading:
        known = [
            f"{step.base}.{name}" for step, name, _, _ in readings(plan)
            if step.set == VEHICLE_SET
        ]  # fmt: skip
        what = "reading of a step that is repeated over vehicle"
        yield Problem(
            (*key, "of"), f"{of} is no {what}", did_you_mean(of, known, "Name STEP.READING of such a step")
        )
