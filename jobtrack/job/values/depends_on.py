"""What stands under a name: the names it is worked out from, and the typed values at the bottom."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.template.model import Reading
from jobtrack.template.plan import Plan, PlannedStep, Ref


def bases(plan: Plan, ref: Ref) -> Iterator[Ref]:
    """The typed values (readings, ticks, givens) that a name stands on in the end, each once."""
    return (one for one in under(plan, ref) if _below(plan, one) is None)


def under(plan: Plan, ref: Ref) -> Iterator[Ref]:
    """A name and all that it stands on, workings-out from the top down, each once."""
    seen = {ref.name}
    todo = [ref]
    while todo:
        one = todo.pop()
        yield one
        for each in reversed(_below(plan, one) or ()):
            if each.name not in seen:
                seen.add(each.name)
                todo.append(each)


def _below(plan: Plan, ref: Ref) -> list[Ref] | None:
    """What a name is worked out from; None for what is typed."""
    planned = plan.steps.get(ref.step or "")
    if planned is None or ref.kind in ("given", "tick"):
        return None
    if ref.kind == "result":
        names = [value for value in planned.step.work_out[ref.item].inputs.values() if isinstance(value, str)]
    else:
        from_ = planned.step.reading[ref.item].from_
        if from_ is None:
            return None
        names = [from_]
    return [one for name in names if (one := plan.resolve(name, planned)) is not None]


def limit_refs(plan: Plan, planned: PlannedStep, reading: Reading) -> list[Ref]:
    """The names that a reading's limits, and its value where it is worked out, are taken from."""
    limits = [planned.limit(one) for one in (reading.target, reading.at_least, reading.at_most)]
    names = [one for one in (*limits, reading.from_) if isinstance(one, str)]
    return [ref for name in names if (ref := plan.resolve(name, planned)) is not None]
