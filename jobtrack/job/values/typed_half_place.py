"""How far a typed value of the record is left open by its writing."""

from __future__ import annotations

from fractions import Fraction

from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct, ReadingAct
from jobtrack.job.values.movable import Movable
from jobtrack.shopmath import catalogue
from jobtrack.template.plan import Ref
from jobtrack.units.typed.half_place import half_a_place


def half_place(now: Movable, result: Ref, base: Ref) -> Fraction:
    """Half of the last place that was typed for `base`, in its unit; 0: a list's size, counted, no one number."""
    if _nominal(now, result, base):
        return Fraction(0)
    last, unit = now.source.standing(base).last, _unit(now, base)
    act = last.act if last is not None else None
    if not isinstance(act, GivenAct | ReadingAct | SettledAct) or act.typed is None:
        return Fraction(0)
    texts = act.typed if isinstance(act.typed, tuple) else (act.typed,)
    return max((half_a_place(text, unit) for text in texts), default=Fraction(0))


def _unit(now: Movable, base: Ref) -> str | None:
    if base.kind == "given":
        return now.plan.givens[base.name].unit
    return now.plan.steps[base.step or ""].step.reading[base.item].unit if base.kind == "reading" else None


def _nominal(now: Movable, result: Ref, base: Ref) -> bool:
    """Whether the result's own working-out takes this value as nominal, or as a count."""
    planned = now.plan.steps[result.step or ""]
    work = planned.step.work_out[result.item]
    names = {key: value for key, value in work.inputs.items() if isinstance(value, str)}
    refs = {key: now.plan.resolve(name, planned) for key, name in names.items()}
    takers = [key for key, ref in refs.items() if ref is not None and ref.name == base.name]
    kinds = [catalogue.find(work.use).input(key) for key in takers]
    return bool(kinds) and all(one.nominal or one.unit == "count" for one in kinds)
