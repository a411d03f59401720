"""Checks on the order: loops, steps nobody can reach, values that are measured too late."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.in_order.dry_walk import walked
from jobtrack.template.checks.in_order.sequence import loop, plan_links, sequence
from jobtrack.template.kept import kept
from jobtrack.template.plan import Plan, PlannedStep, Ref
from jobtrack.template.values import limit_names, readings, step_key

Use = tuple[PlannedStep, tuple[str, str], Ref, tuple[str, ...]]
"""A use of a value: where, the names of what uses it and of what is used, its reference, its key."""


def check_loops(plan: Plan) -> Iterator[Problem]:
    """No step or stage comes before itself."""
    stages = loop(plan.template.stage, {name: stage.after for name, stage in plan.template.stage.items()})
    if stages:
        yield Problem(("stage", stages[0], "after"), _round(stages), "Take one `after` out of the circle")
        return
    steps = loop(plan.steps, plan_links(plan))
    if steps:
        explicit = [name for name in steps if plan.steps[name].step.after is not None] or steps
        yield Problem(
            step_key(plan.steps[explicit[0]], "after"), _round(steps), "Take one `after` out of the circle"
        )


def _round(names: list[str]) -> str:
    return f"the order goes round in a circle: {' after '.join(names[:9])}"


def check_fed_by(plan: Plan) -> Iterator[Problem]:
    """No value stands on itself, through targets and workings-out."""
    feeds: dict[str, list[str]] = {}
    for _, (user, used), _, _ in uses(plan):
        if user != used:
            feeds.setdefault(user, []).append(used)
    names = loop(feeds, feeds)
    if names:
        base, _, item = names[0].rpartition(".")
        planned = plan.steps[base]
        where = "reading" if item in planned.step.reading else "work_out"
        yield Problem(
            step_key(planned, where, item), f"the value stands on itself: {' from '.join(names[:9])}",
            "Take the target or the input from somewhere else",
        )  # fmt: skip


@kept
def uses(plan: Plan) -> list[Use]:
    """Each use of a value in the template."""
    return list(_uses(plan))


def _uses(plan: Plan) -> Iterator[Use]:
    for planned, name, reading, key in readings(plan):
        named = [*limit_names(planned, reading), *([(("from",), reading.from_)] if reading.from_ else [])]
        for part, wanted in named:
            yield from _use(plan, planned, name, wanted, (*key, *part))
    for planned in plan.steps.values():
        for name, work in planned.step.work_out.items():
            for input_key, value in work.inputs.items():
                if isinstance(value, str):
                    yield from _use(
                        plan, planned, name, value, step_key(planned, "work_out", name, input_key)
                    )


def _use(plan: Plan, planned: PlannedStep, name: str, wanted: str, key: tuple[str, ...]) -> Iterator[Use]:
    ref = plan.resolve(wanted, planned)
    if ref is not None and ref.step is not None:
        yield planned, (f"{planned.id}.{name}", f"{ref.step}.{ref.item}"), ref, key


def check_measured_before(plan: Plan) -> Iterator[Problem]:
    """What a step uses is measured in it or before it."""
    order = sequence(plan)
    for planned, (_, used), ref, key in uses(plan):
        if ref.step is None or ref.step == planned.id or order.before(ref.step, planned.id):
            continue
        if order.before(planned.id, ref.step):
            yield Problem(
                key, f"{used} is measured only after this step", "Mend the order, or name another value"
            )
        else:
            yield remark(
                key, f"nothing in the order puts {ref.step} before this step", f"Add {ref.step} to after"
            )


def check_file_order(plan: Plan) -> Iterator[Problem]:
    """A step that is to come after one further down the file is hard to follow: a remark."""
    place = {base: number for number, base in enumerate(plan.template.step)}
    for planned in plan.steps.values():
        if planned.step.after is None:
            continue
        later = [name for name in planned.after if place[plan.steps[name].base] > place[planned.base]]
        if later:
            yield remark(
                step_key(planned, "after"),
                f"{later[0]} stands further down in the file",
                "Write the steps in their order",
            )


def check_reach(plan: Plan) -> Iterator[Problem]:
    """Every step can be reached when the steps are taken in their order."""
    walk = walked(plan)
    left = [planned for name, planned in plan.steps.items() if name not in walk.finished]
    for planned in left:
        if all(step in walk.finished for step in planned.after) and (conditions := walk.stopped_by(planned)):
            yield Problem(
                step_key(planned, "not_while"), f"out of reach: {conditions[0]} is still open then",
                "Close it in a step before this one, or take it out of not_while",
            )  # fmt: skip
    stopped = [planned for planned in left if walk.stopped_by(planned)]
    if left and not stopped:
        names = ", ".join(planned.id for planned in left[:5])
        yield Problem(
            step_key(left[0]), f"nobody can reach {names}", "Mend after, or one_by_one in its stage"
        )


def check_one_by_one(plan: Plan) -> Iterator[Problem]:
    """`one_by_one` belongs to a stage that is repeated, and its steps repeat over the same set."""
    for name, stage in plan.template.stage.items():
        if stage.one_by_one and stage.for_each is None:
            yield Problem(
                ("stage", name, "one_by_one"), "the stage isn't repeated over a set", "Add for_each"
            )
        for planned in plan.in_stage(name) if stage.one_by_one else ():
            if stage.for_each is not None and planned.set != stage.for_each:
                yield Problem(
                    step_key(planned, "for_each"), f"its stage goes one by one over {stage.for_each}",
                    "Repeat the step over the same set, or put it in another stage",
                )  # fmt: skip
