"""The torque of a stage: a share of the figure that the template or a given holds, never worked out from a bolt."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from jobtrack import units
from jobtrack.job.values.evaluation import Evaluation
from jobtrack.template.model import Torque
from jobtrack.template.plan import Plan, PlannedStep, Ref
from jobtrack.units.conversion import Number, exact
from jobtrack.units.rounding import Figure, as_given, as_typed, figure, tens

UNIT = "N*m"
_TELLS = Fraction(5, 100)
"""The step that a figure is said to is at most this share of it, so that rounding moves it by less than the 4 %
by which a torque wrench may be off above 10 N·m: type II class A, a maker's summary of ISO 6789 (2003)."""


class FigureKnown(Struct, frozen=True):
    """A figure in N·m, and whose it is: the template's source, or the given that holds it."""

    value: Number
    source: str = ""
    given: Ref | None = None


def known_figure(now: Evaluation, planned: PlannedStep, name: str) -> FigureKnown | None:
    """The figure of a torque line as it counts now; None: whoever it is to be asked of hasn't said it yet."""
    line = planned.step.torque[name]
    if isinstance(line.figure, dict):
        value = _written(line.figure["value"])
        return None if value is None else FigureKnown(value, line.figure["source"])
    ref = now.plan.resolve(line.given, planned) if line.given else None
    held = now.value(ref, UNIT) if ref is not None and ref.kind == "given" else None
    if isinstance(held, bool) or not isinstance(held, int | float | Fraction):
        return None
    return FigureKnown(held, given=ref)


def unit_of_line(plan: Plan, planned: PlannedStep, name: str) -> str:
    """The unit that a bare torque is taken in: that of the given or of the figure in the template, else N·m."""
    line = planned.step.torque[name]
    if isinstance(line.figure, dict):
        return units.typed_unit(line.figure["value"]) or UNIT
    ref = plan.resolve(line.given, planned) if line.given else None
    asked = plan.givens[ref.name].unit if ref is not None and ref.kind == "given" else None
    return asked or UNIT


def _written(text: str) -> Number | None:
    """A figure as the template writes it; None where it is no one torque."""
    try:
        return units.read(text, UNIT).value
    except units.UnitError:
        return None


def share(line: Torque, stage: int) -> Number:
    """What share of the figure a stage is, in percent; the whole where the template names no stages."""
    return line.stages[stage - 1] if line.stages else 100


def stage_torque(line: Torque, stage: int, whole: Number) -> Fraction:
    """The torque of a stage in N·m, not rounded."""
    return exact(whole) * exact(share(line, stage)) / 100


def setting(line: Torque, stage: int, whole: Number, unit: str = UNIT) -> Figure:
    """The torque of a stage as a wrench can be set to it; the last one as it was given."""
    value = units.convert(stage_torque(line, stage, whole), UNIT, unit)
    if share(line, stage) == 100 and as_given(value):
        return as_typed(value, unit)
    return figure(value, unit, step=min(Fraction(1), _power(exact(value) * _TELLS)) if value else None)


def _power(value: Fraction) -> Fraction:
    """The power of ten at or below it."""
    power = tens(value)
    return Fraction(10**power) if power >= 0 else Fraction(1, 10**-power)
