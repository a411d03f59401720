"""What is asked of the values that a doubt is carried through, by shape: an evaluation needs this, not this it."""

from __future__ import annotations

from fractions import Fraction
from typing import Protocol

from jobtrack.job.state.standing import Exact
from jobtrack.job.values.limits import Limits, Number
from jobtrack.job.values.sources import Source
from jobtrack.template.plan import Plan, Ref


class Worth(Protocol):
    """What is asked of the values that a doubt is carried through: an evaluation, or one with a reading moved."""

    plan: Plan
    source: Source

    def value(self, ref: Ref) -> Exact | Number | None: ...
    def reading_value(self, step: str, name: str) -> Number | None: ...
    def limits(self, step: str, name: str) -> Limits: ...
    def doubt(self, ref: Ref) -> float | None: ...
    def moved(self, base: Ref, by: Fraction) -> Worth: ...
