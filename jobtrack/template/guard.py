"""How large a template may become once it is spread out over its members, and how deep its figures may stand
on one another: a short text can ask for more than any machine holds."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem
from jobtrack.template.model import Stage, Step, Template
from jobtrack.template.plan import Plan, Ref

MOST_STEPS = 10_000
"""Steps, spread out over their members."""
MOST_ITEMS = 100_000
"""Readings, checks, workings-out and fasteners of all steps, spread out."""
MOST_ORDER = 200_000
"""Steps named by the `after` of all steps, spread out."""
MOST_BELOW = 60
"""Figures that one figure may be worked out from, near and far."""
MOST_FEEDING = 200_000
"""The squares of those counts, all together."""
_SMALLER = "Make it smaller, or several templates of it"


def too_large(template: Template) -> Iterator[Problem]:
    """The bound that a template goes beyond once it is spread out, at the step where it does."""
    steps = items = order = 0
    for base, step in template.step.items():
        times = max(1, _members(template, step))
        steps += times
        items += times * _items(step)
        order += times * sum(_reach(template, name) for name in step.after or ())
        if steps > MOST_STEPS:
            yield Problem(("step", base), f"spread out, there are more than {MOST_STEPS} steps", _SMALLER)
        elif items > MOST_ITEMS:
            what = "readings, checks and workings-out"
            yield Problem(
                ("step", base), f"spread out, there are more than {MOST_ITEMS} {what} in all", _SMALLER
            )
        elif order > MOST_ORDER:
            yield Problem(
                ("step", base, "after"), f"spread out, more than {MOST_ORDER} steps are named", _SMALLER
            )
        else:
            continue
        return


def _members(template: Template, step: Step) -> int:
    stage = template.stage.get(step.stage, Stage(title=""))
    name = step.for_each or stage.for_each or ""
    return len(template.vehicle) if name == "vehicle" else len(template.set.get(name, ()))


def _reach(template: Template, name: str) -> int:
    """How many steps a name in `after` may mean."""
    step = template.step.get(name)
    return max(1, _members(template, step)) if step is not None else 1


def _items(step: Step) -> int:
    tables = (step.reading, step.tick, step.work_out, step.compare, step.part, step.torque, step.weld)
    lists = (step.opens, step.closes, step.not_while, step.hazard)
    return sum(len(one) for one in tables) + sum(len(one) for one in lists)


def check_feeding(plan: Plan) -> Iterator[Problem]:
    """A figure that stands on too many others, or too many of them together: each one's doubt is found by
    working out anew all that lies below it, once for each reading there."""
    below: dict[str, list[Ref]] = {}
    work = 0
    for ref in _fed(plan):
        count = len(_stands_on(plan, ref, below))
        work += count * count
        if count > MOST_BELOW or work > MOST_FEEDING:
            key = ("step", plan.steps[ref.step or ""].base)
            yield Problem(key, f"{ref.name} stands on too many other figures", _SMALLER)
            return


def _fed(plan: Plan) -> Iterator[Ref]:
    for planned in plan.steps.values():
        for name in planned.step.work_out:
            yield Ref("result", f"{planned.id}.{name}", planned.id, name)
        for name, reading in planned.step.reading.items():
            if reading.from_ is not None:
                yield Ref("reading", f"{planned.id}.{name}", planned.id, name)


def _stands_on(plan: Plan, ref: Ref, below: dict[str, list[Ref]]) -> set[str]:
    """The names of all that a figure is worked out from, itself too; no more than the bound and a few."""
    seen = {_node(ref)}
    todo = [ref]
    while todo and len(seen) <= MOST_BELOW:
        one = todo.pop()
        node = _node(one)
        if node not in below:
            below[node] = _below(plan, one)
        for each in below[node]:
            if _node(each) not in seen:
                seen.add(_node(each))
                todo.append(each)
    return seen


def _node(ref: Ref) -> str:
    """One name for all results of a working-out, which are worked out together."""
    return f"{ref.step}.{ref.item}" if ref.kind == "result" else ref.name


def _below(plan: Plan, ref: Ref) -> list[Ref]:
    planned = plan.steps.get(ref.step or "")
    if planned is None or ref.kind in ("given", "tick"):
        return []
    if ref.kind == "result":
        names = [one for one in planned.step.work_out[ref.item].inputs.values() if isinstance(one, str)]
    else:
        from_ = planned.step.reading[ref.item].from_
        names = [from_] if from_ is not None else []
    return [one for name in names if (one := plan.resolve(name, planned)) is not None]
