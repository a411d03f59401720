"""How many bolts a torque line has: by the template itself, or by the given that it names, as that counts now."""

from __future__ import annotations

from fractions import Fraction

from jobtrack.job.values.evaluation import Evaluation
from jobtrack.template.plan import PlannedStep
from jobtrack.template.values import holds_a_count, is_count


def bolt_count(now: Evaluation, planned: PlannedStep, name: str) -> int | None:
    """The number of bolts; None where the given isn't known, is in disagreement, or holds no number of bolts."""
    bolts = planned.step.torque[name].bolts
    if isinstance(bolts, int):
        return bolts
    ref = now.plan.resolve(bolts, planned)
    if ref is None or ref.kind != "given" or not holds_a_count(now.plan.givens[ref.name]):
        return None
    held = now.value(ref)
    return int(held) if isinstance(held, Fraction) and is_count(held) else None


def counting_given(now: Evaluation, planned: PlannedStep, name: str) -> str | None:
    """The full name of the given that says how many bolts there are; None where the template says it itself.

    As the template writes it, where that is no given.
    """
    bolts = planned.step.torque[name].bolts
    if isinstance(bolts, int):
        return None
    ref = now.plan.resolve(bolts, planned)
    return ref.name if ref is not None else bolts
