"""A ruled scale of hours: a tick at round hours, a mark for this job and one for the template."""

from __future__ import annotations

from jobtrack.figures.ruled import step

RULE, TICK, MARK, TEMPLATE, BOTH = "─", "┬", "┃", "T", "╋"
SECOND = 1 / 3600
"""The least that is recorded, in hours: below it there is nothing to rule."""
APART = 6
"""Cells between two ticks of a scale at least."""


def every(longest: float, width: int) -> float:
    """How many hours lie between two ticks, so far apart that a figure fits."""
    return step(longest, width / APART)


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
    apart = every(longest, width)
    ruled_at = [number * apart for number in range(int(longest / apart + 1e-9) + 1)]
    return [(place(hours, longest, width), f"{hours:g}") for hours in ruled_at]
