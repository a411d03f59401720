"""How a scale is ruled: at round numbers, few enough that each has its figure."""

from __future__ import annotations

import math

ROUND = (1, 2, 5, 10)
"""A scale is ruled at these numbers, or at ten, a hundred times or a tenth of them."""


def step(longest: float, parts: float) -> float:
    """From one tick to the next on a scale from 0 to `longest` that has at most so many parts."""
    least = longest / max(parts, 1e-9)
    power = 10.0 ** math.floor(math.log10(least)) if least > 0 else 1.0
    return next(power * one for one in ROUND if power * one >= least * (1 - 1e-9))
