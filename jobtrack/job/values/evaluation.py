"""What follows from the values: workings-out, targets, limits and verdicts.

An `Evaluation` asks a `Source` for typed values by name. One source is the record as it is now, another
the values that somebody's *finished* stood on: so "then" and "now" are judged by the same code.
"""

from __future__ import annotations

from fractions import Fraction

from jobtrack import units
from jobtrack.job.acts.base import Plain
from jobtrack.job.state.standing import Exact, Standing
from jobtrack.job.values import doubts
from jobtrack.job.values.limits import (
    NO_VERDICT,
    TOO_CLOSE,
    Limits,
    Number,
    bound_verdict,
    plain_verdict,
    tolerance,
)
from jobtrack.job.values.sources import Moved, Source
from jobtrack.shopmath import catalogue
from jobtrack.template.model import PerMember, Reading, Scalar, WorkOut
from jobtrack.template.one_unit import in_one_unit
from jobtrack.template.plan import Plan, PlannedStep, Ref


class Evaluation:
    """Workings-out, limits and verdicts over one source of values."""

    def __init__(self, plan: Plan, source: Source) -> None:
        self.plan = plan
        self.source = source
        self._outcomes: dict[tuple[str, str], catalogue.Outcome | None] = {}
        self._going_on: set[tuple[str, str]] = set()
        self._doubts: dict[str, float | None] = {}
        self._told: dict[str, float] = {}
        self._guards: dict[str, Fraction | None] = {}
        self._moved: dict[tuple[str, Fraction], Evaluation] = {}

    def outcome(self, step: str, work: str) -> catalogue.Outcome | None:
        """The results of a step's working-out; None while an input is missing or is refused."""
        key = (step, work)
        if key not in self._outcomes:
            if key in self._going_on:
                return None
            self._going_on.add(key)
            self._outcomes[key] = self._work_out(
                self.plan.steps[step], self.plan.steps[step].step.work_out[work]
            )
            self._going_on.discard(key)
        return self._outcomes[key]

    def _work_out(self, planned: PlannedStep, work: WorkOut) -> catalogue.Outcome | None:
        try:
            wanted = {one.key: one.unit for one in in_one_unit(self.plan, planned, work).inputs}
            inputs = {key: self._input(planned, value, wanted.get(key)) for key, value in work.inputs.items()}
            if any(value is None for value in inputs.values()):
                return None
            return catalogue.calculate(work.use, inputs)
        except (catalogue.WorkingOutError, units.UnitError):
            return None

    def _input(self, planned: PlannedStep, value: Plain, unit: str | None) -> catalogue.Value:
        if not isinstance(value, str):
            return value if isinstance(value, bool) else units.exact(value)
        ref = self.plan.resolve(value, planned)
        if ref is None:
            return value if unit is not None and not _numeric(unit) else None
        if unit is not None and unit.startswith("list ") and ref.kind == "reading":
            return self._values(ref, unit.removeprefix("list ")) or None
        return self.value(ref, unit if unit is not None and _numeric(unit) else None)

    def _values(self, ref: Ref, unit: str) -> tuple[Fraction, ...]:
        """The repeats of a reading, in the unit that a list of them is wanted in."""
        has = self.plan.steps[ref.step or ""].step.reading[ref.item].unit
        values = self.source.standing(ref).values
        return (
            values if has is None or has == unit else tuple(units.convert(one, has, unit) for one in values)
        )

    def value(self, ref: Ref, unit: str | None = None) -> Exact | Number | None:
        """What a name is worth, in `unit` where that is asked and of the same kind."""
        found, has = self._raw(ref)
        if isinstance(found, bool | str | None) or unit is None or has is None or has == unit:
            return found
        return _converted(found, has, unit)

    def _raw(self, ref: Ref) -> tuple[Exact | Number | None, str | None]:
        if ref.kind == "result":
            return self._result(ref)
        if ref.kind == "given":
            return self.source.standing(ref).value, self.plan.givens[ref.name].unit
        if ref.kind == "tick":
            return self.source.standing(ref).value, None
        reading = self.plan.steps[ref.step or ""].step.reading[ref.item]
        return self.reading_value(ref.step or "", ref.item), reading.unit

    def _result(self, ref: Ref) -> tuple[Exact | Number | None, str | None]:
        outcome = self.outcome(ref.step or "", ref.item)
        if outcome is None:
            return None, None
        work = self.plan.steps[ref.step or ""].step.work_out[ref.item]
        found = in_one_unit(self.plan, self.plan.steps[ref.step or ""], work)
        unit = next((one.unit for one in found.results if one.key == ref.result), None)
        value = outcome.values.get(ref.result)
        return (value, unit) if isinstance(value, Fraction | float | int | str | bool) else (None, unit)

    def reading_value(self, step: str, name: str) -> Number | None:
        """The value of a reading: typed, or worked out where it is `from` a result."""
        planned = self.plan.steps[step]
        reading = planned.step.reading[name]
        if reading.from_ is None:
            found: object = self.source.standing(Ref("reading", f"{step}.{name}", step, name)).value
        else:
            ref = self.plan.resolve(reading.from_, planned)
            found = self.value(ref, reading.unit) if ref else None
        return found if isinstance(found, Fraction | float | int) and not isinstance(found, bool) else None

    def limits(self, step: str, name: str) -> Limits:
        """The limits of a reading as these values give them."""
        planned = self.plan.steps[step]
        reading = planned.step.reading[name]
        target: Number | None = self.source.target(f"{step}.{name}.target")
        if target is None:
            target = self._limit(planned, reading, reading.target)
        at_least = self._limit(planned, reading, reading.at_least)
        at_most = self._limit(planned, reading, reading.at_most)
        under, over = tolerance(reading, target)
        lows = [units.exact(target) - under] if target is not None and under is not None else []
        highs = [units.exact(target) + over] if target is not None and over is not None else []
        lows += [units.exact(at_least)] if at_least is not None else []
        highs += [units.exact(at_most)] if at_most is not None else []
        wanted = any(
            planned.limit(one) is not None for one in (reading.target, reading.at_least, reading.at_most)
        )
        return Limits(
            target,
            max(lows, default=None),
            min(highs, default=None),
            over if over is not None and over == under else None,
            at_least,
            at_most,
            wanted,
        )

    def _limit(
        self, planned: PlannedStep, reading: Reading, limit: Scalar | PerMember | None
    ) -> Number | None:
        mine = planned.limit(limit)
        if not isinstance(mine, str):
            return units.exact(mine) if mine is not None else None
        ref = self.plan.resolve(mine, planned)
        found = self.value(ref, reading.unit) if ref else None
        return found if isinstance(found, Fraction | float | int) and not isinstance(found, bool) else None

    def verdict(self, step: str, name: str) -> str:
        """Where a reading lies: within, outside, too close to call, or none."""
        planned = self.plan.steps[step]
        reading = planned.step.reading[name]
        limits = self.limits(step, name)
        value = self.reading_value(step, name)
        ref = Ref("reading", f"{step}.{name}", step, name)
        standing = Standing() if reading.from_ else self.source.standing(ref)
        if not limits.known:
            return NO_VERDICT
        if value is None:
            return bound_verdict(standing, limits, reading.strict)
        guard = self.guard(step, name) if reading.strict else Fraction(0)
        if guard is None or (reading.strict and standing.bound == "about"):
            return TOO_CLOSE
        return plain_verdict(units.exact(value), limits, guard)

    def doubt(self, ref: Ref) -> float | None:
        """The expanded uncertainty (k = 2) of what a name stands for, in its own unit; None: not known."""
        if ref.name not in self._doubts:
            self._doubts[ref.name] = doubts.doubt_of(self, ref)
        return self._doubts[ref.name]

    def told(self, ref: Ref) -> float:
        """How far a result swings at most with half a place of what was typed for it, in its own unit."""
        if ref.name not in self._told:
            self._told[ref.name] = doubts.told_of(self, ref)
        return self._told[ref.name]

    def guard(self, step: str, name: str) -> Fraction | None:
        """The expanded uncertainty of a reading and its limits together, in its unit; None: not known."""
        key = f"{step}.{name}"
        if key not in self._guards:
            self._guards[key] = doubts.guard_of(self, step, name)
        return self._guards[key]

    def moved(self, base: Ref, by: Fraction) -> Evaluation:
        """What follows when one typed reading lies a little beside where it lies."""
        if (base.name, by) not in self._moved:
            self._moved[base.name, by] = Evaluation(self.plan, Moved(self.source, base, by))
        return self._moved[base.name, by]


def _converted(value: Number, has: str, unit: str) -> Fraction | None:
    """A value in another unit; None where a template asks for what can't be: a mass as a length."""
    try:
        return units.convert(Fraction(value), has, unit)
    except (units.UnitError, OverflowError, ValueError):
        return None


def _numeric(unit: str) -> bool:
    return unit not in ("text", "yes/no", "date") and "|" not in unit and not unit.startswith("list ")
