"""Why something finished, released or seen stands no more: two questions, by which `job.py` decides.

First, for each reading that has limits and was within them: is it still, against the limits as they
are now? Second, for every other value stood on: has it changed by more than its own doubt? A value
that feeds only the limits of readings that are still within them unsettles nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from msgspec import Struct

from jobtrack import units
from jobtrack.job.acts.base import On, Plain
from jobtrack.job.state.standing import own_names
from jobtrack.job.values.depends_on import bases, limit_refs
from jobtrack.job.values.evaluation import Evaluation
from jobtrack.job.values.limits import WITHIN, Limits, Number
from jobtrack.job.values.sources import Source, Then
from jobtrack.template.plan import Plan, PlannedStep, Ref


class NoValue(Struct, frozen=True):
    """A reading of the step was within its limits and has no value now that counts."""

    reading: str


class NoLimits(Struct, frozen=True):
    """The limits that a reading of the step was within can't be worked out any more."""

    reading: str


class NoLongerWithin(Struct, frozen=True):
    """A reading of the step was within its limits and isn't; numbers in its unit."""

    reading: str
    value: Number
    limits: Limits
    verdict: str
    unit: str | None
    moved: tuple[Number, Number] | None = None
    """The target as it was and as it is, where it is another one."""


class NowDiffers(Struct, frozen=True):
    """A value stood on was another one; None: not recorded."""

    ref: Ref
    before: Plain | None
    after: Plain | None
    unit: str | None


Reason = NoValue | NoLimits | NoLongerWithin | NowDiffers


def stands_on(plan: Plan, planned: PlannedStep) -> dict[str, Ref]:
    """Every typed value that a step's readings, targets, workings-out, torques and `only_when` stand on, by name."""
    if planned.id not in plan.stands_on:
        found = {ref.name: ref for name in own_names(planned) if (ref := plan.resolve(name)) is not None}
        for ref in _used(plan, planned):
            found.update((base.name, base) for base in bases(plan, ref))
        plan.stands_on[planned.id] = found
    return plan.stands_on[planned.id]


def looking_at(plan: Plan, name: str) -> frozenset[str]:
    """The steps whose judgement looks at a typed value: those that stand on it, or on a reading limited by it."""
    if not plan.looking_at:
        found: dict[str, set[str]] = {}
        for planned in plan.steps.values():
            for one in _looked_at(plan, planned):
                found.setdefault(one, set()).add(planned.id)
        plan.looking_at.update((one, frozenset(steps)) for one, steps in found.items())
    return plan.looking_at.get(name, frozenset())


def _looked_at(plan: Plan, planned: PlannedStep) -> Iterator[str]:
    """What a step stands on, and what gives the limits of another step's reading among it."""
    for name, ref in stands_on(plan, planned).items():
        yield name
        if ref.kind == "reading" and ref.step is not None:
            other = plan.steps[ref.step]
            for limit in limit_refs(plan, other, other.step.reading[ref.item]):
                yield from (base.name for base in bases(plan, limit))


def _used(plan: Plan, planned: PlannedStep) -> Iterator[Ref]:
    for reading in planned.step.reading.values():
        yield from limit_refs(plan, planned, reading)
    for name in planned.step.work_out:
        yield Ref("result", f"{planned.id}.{name}.", planned.id, name)
    torques = [name for one in planned.step.torque.values() for name in (one.given, one.bolts)]
    for name in (*planned.only_when, *(name for name in torques if isinstance(name, str))):
        if (ref := plan.resolve(name, planned)) is not None:
            yield ref


def values_now(plan: Plan, planned: PlannedStep, now: Evaluation) -> dict[str, Plain]:
    """What a step stands on as it counts now, and its targets: the `on` of an act."""
    on: dict[str, Plain] = {}
    for name, ref in stands_on(plan, planned).items():
        written = now.source.standing(ref).written
        if written is not None:
            on[name] = written
    for name, reading in planned.step.reading.items():
        target = now.limits(planned.id, name).target if reading.target is not None else None
        if target is not None:
            on[f"{planned.id}.{name}.target"] = float(target)
    return on


def unsettled(
    plan: Plan, planned: PlannedStep, now: Evaluation, on: On, seen: Source | None = None
) -> list[Reason]:
    """Why an act that stood on these values stands no more; empty: it stands.

    `seen` is what whoever entered it could see, where a strict reading's doubt then may matter.
    """
    below = stands_on(plan, planned)
    if all(on.get(name) == now.source.standing(ref).written for name, ref in below.items()) and not (
        seen and _surer_then(plan, below, seen, now.source)
    ):
        return []  # limits and workings-out follow from these values, so nothing can have moved
    then = Evaluation(plan, Then(on, now.source, seen))
    within = [name for name in planned.step.reading if then.verdict(planned.id, name) == WITHIN]
    return [
        *(
            _no_longer_within(planned, name, then, now)
            for name in within
            if now.verdict(planned.id, name) != WITHIN
        ),
        *_differing(plan, planned, on, then, now, _feeding(plan, planned, within)),
    ]


def _feeding(plan: Plan, planned: PlannedStep, readings: Iterable[str]) -> set[str]:
    """What feeds the limits of these readings of a step, but for what was typed in the step itself."""
    limits = (ref for name in readings for ref in limit_refs(plan, planned, planned.step.reading[name]))
    return {base.name for ref in limits for base in bases(plan, ref) if base.step != planned.id}


def _differing(
    plan: Plan, planned: PlannedStep, on: On, then: Evaluation, now: Evaluation, covered: Collection[str]
) -> Iterator[NowDiffers]:
    """The second question, for every value that the first hasn't covered."""
    for name, ref in stands_on(plan, planned).items():
        asked_already = ref.step != planned.id and _within_both(ref, then, now)
        if name not in covered and not asked_already and _changed(ref, on.get(name), now):
            yield NowDiffers(ref, on.get(name), now.source.standing(ref).written, _unit(plan, ref))


def _unit(plan: Plan, ref: Ref) -> str | None:
    if ref.kind != "reading" or ref.step is None:
        return None
    return plan.steps[ref.step].step.reading[ref.item].unit


def _surer_then(plan: Plan, below: Mapping[str, Ref], seen: Source, now: Source) -> bool:
    """Whether a reading has another doubt now: taken again with another instrument."""
    return doubts_of(plan, below, seen) != doubts_of(plan, below, now)


def doubts_of(plan: Plan, below: Mapping[str, Ref], source: Source) -> tuple[float | None, ...]:
    """How sure each reading among some values is in a source."""
    readings = [(ref, plan.steps[ref.step or ""]) for ref in below.values() if ref.kind == "reading"]
    return tuple(source.doubt(ref, planned) for ref, planned in readings)


def _within_both(ref: Ref, then: Evaluation, now: Evaluation) -> bool:
    """Whether another step's reading was within its own limits and still is: the first question, not the second."""
    if ref.kind != "reading" or ref.step is None:
        return False
    return then.verdict(ref.step, ref.item) == WITHIN == now.verdict(ref.step, ref.item)


def _changed(ref: Ref, before: Plain | None, now: Evaluation) -> bool:
    after = now.source.standing(ref).written
    if before is None or after is None or isinstance(before, str | bool) or isinstance(after, str | bool):
        return before != after
    doubt = now.doubt(ref) if ref.kind == "reading" else None
    return abs(units.exact(after) - units.exact(before)) > units.exact(doubt or 0)


def _no_longer_within(planned: PlannedStep, name: str, then: Evaluation, now: Evaluation) -> Reason:
    value = now.reading_value(planned.id, name)
    if value is None:
        return NoValue(name)
    old, new = then.limits(planned.id, name), now.limits(planned.id, name)
    if new.wanted and not new.known:
        return NoLimits(name)
    was, is_ = old.target, new.target
    moved = (was, is_) if was is not None and is_ is not None and was != is_ else None
    verdict, unit = now.verdict(planned.id, name), planned.step.reading[name].unit
    return NoLongerWithin(name, value, new, verdict, unit, moved)
