"""A ruled scale of hours: a tick at round hours, a mark for this job and one for the template."""

from __future__ import annotations

import math

RULE, TICK, MARK, TEMPLATE, BOTH = "─", "┬", "┃", "T", "╋"
ROUND = (1, 2, 5)
"""A scale is ruled at these hours, or ten, a hundred times as many."""
SECOND = 1 / 3600
"""The least that is recorded, in hours: below it there is nothing to rule."""
APART = 6
"""Cells between two ticks of a scale at least."""


def every(longest: float, width: int) -> float:
    """How many hours lie between two ticks: 1, 2 or 5 times a power of ten, so far apart that a figure fits."""
    least = longest * APART / max(width, 1)
    power = 10.0 ** math.floor(math.log10(least)) if least > 0 else 1.0
    return next(power * one for one in (*ROUND, 10) if power * one >= least * (1 - 1e-9))


def place(hours: float, longest: float, width: int) -> int:
    """The cell of a scale at which so many hours lie; nothing lies beyond its ends."""
    return max(0, min(width - 1, round(hours / longest * (width - 1)))) if longest > 0 else 0


def scale(hours: float, estimate: float | None, longest: float, width: int) -> str:
    """A ruled scale from 0 to `longest`: a tick at round hours, a mark for this job, one for the template.

    Where no time is recorded there is no mark for this job.
    """
    cells = [RULE] * width
    for tick, _ in _ticks(longest, width):
        cells[tick] = TICK
    mine = place(hours, longest, width) if hours else None
    if mine is not None:
        cells[mine] = MARK
    if estimate is not None:
        theirs = place(estimate, longest, width)
        cells[theirs] = BOTH if theirs == mine else TEMPLATE
    return "".join(cells)


def scale_head(longest: float, width: int) -> str:
    """The figures over a scale, each where its tick is; one that has no room is left out."""
    text = ""
    for tick, figure in _ticks(longest, width):
        if tick + len(figure) <= width and (not text or tick > len(text)):
            text = text.ljust(tick) + figure
    return text


def _ticks(longest: float, width: int) -> list[tuple[int, str]]:
    """The cell and the figure of each round number of hours."""
    if longest < SECOND:
        return [(0, "0")]
    step = every(longest, width)
    ruled_at = [number * step for number in range(int(longest / step + 1e-9) + 1)]
    return [(place(hours, longest, width), f"{hours:g}") for hours in ruled_at]
