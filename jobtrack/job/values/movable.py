"""The shape of what a doubt is carried through: `doubts` and `places` ask for this, and import no evaluation."""

from __future__ import annotations

from fractions import Fraction
from typing import Protocol

from jobtrack.job.state.standing import Exact
from jobtrack.job.values.limits import Limits, Number
from jobtrack.job.values.sources import Source
from jobtrack.template.plan import Plan, Ref


class Movable(Protocol):
    """What is asked of the values that a doubt is carried through: an evaluation, or one with a reading moved."""

    plan: Plan
    source: Source

    def value(self, ref: Ref) -> Exact | Number | None:
        """What a name is worth; None where it can't be worked out."""
        ...

    def reading_value(self, step: str, name: str) -> Number | None:
        """The number of a reading, typed or worked out."""
        ...

    def limits(self, step: str, name: str) -> Limits:
        """The limits of a reading, as these values give them."""
        ...

    def doubt(self, ref: Ref) -> float | None:
        """How sure a value is: expanded, half-width, in its unit; None: not known."""
        ...

    def moved(self, base: Ref, by: Fraction) -> Movable:
        """The same values with one typed reading moved by `by`, in its unit."""
        ...
