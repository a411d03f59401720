"""Workings-out over values and doubts that a test sets, without any entries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from pathlib import Path

import tomli

from jobtrack.job.state.standing import Standing
from jobtrack.job.values.evaluation import Evaluation
from jobtrack.template.load import build
from jobtrack.template.plan import Plan, PlannedStep, Ref, plan

Typed = str | tuple[str, ...]


@cache
def survey() -> Plan:
    """The steps of `doubts.toml`."""
    return plan(build(tomli.loads((Path(__file__).parent / "doubts.toml").read_text(encoding="utf-8"))))


@dataclass(frozen=True)
class Set:
    """A source with the values of a test; the doubts are the template's where it sets none."""

    values: Mapping[str, Typed]
    doubts: Mapping[str, float] = field(default_factory=dict)

    def standing(self, ref: Ref) -> Standing:
        typed = self.values.get(ref.name)
        if typed is None:
            return Standing()
        each = tuple(Fraction(one) for one in ((typed,) if isinstance(typed, str) else typed))
        return Standing(value=sum(each, Fraction(0)) / len(each), values=each)

    def target(self, name: str) -> float | None:
        return None

    def doubt(self, ref: Ref, planned: PlannedStep) -> float | None:
        return self.doubts.get(ref.name, planned.step.reading[ref.item].doubt)


def worked(values: Mapping[str, Typed], doubts: Mapping[str, float] | None = None) -> Evaluation:
    """What follows from these values of the survey."""
    return Evaluation(survey(), Set(values, doubts or {}))


def result(name: str) -> Ref:
    """A result of the survey by its whole name."""
    found = survey().resolve(name)
    assert found is not None
    return found


def doubt(now: Evaluation, name: str) -> float:
    """The doubt of a result, which has to be known."""
    found = now.doubt(result(name))
    assert found is not None
    return found
