"""How far a result moves with one of its inputs."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from jobtrack.shopmath.quantity import Number


def largest_swing(number_at: Callable[[Fraction], Number | None], by: Fraction) -> float | None:
    """How far a number moves at most when one input is moved by `by`, both ways, wholly and half of the way.

    `number_at` gives the number for a move of the input; None: it can't be worked out there, so that the other
    side alone counts. None where no side is left.
    """
    here = number_at(Fraction(0))
    ends = [number_at(each) for each in (by, -by, by / 2, -by / 2)]
    return (
        max((abs(float(end - here)) for end in ends if end is not None), default=None)
        if here is not None
        else None
    )
