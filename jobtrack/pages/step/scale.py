"""Where a reading lies: the tolerance a thick stretch, the uncertainty in brackets, the reading a mark."""

from __future__ import annotations

import math

from jobtrack.sheets.drawings.ends import ends_of

THIN, THICK, MARK, LEFT_OF_IT, RIGHT_OF_IT = "─", "━", "┃", "<", ">"
"""`<` and `>` at an end: the reading lies beyond the rule."""


def rule(low: float | None, high: float | None, value: float | None, doubt: float | None, width: int) -> str:
    """A rule of `width` cells; empty without any limit. A mark never stands on the wrong side of a limit."""
    ends = ends_of(low, high, value)
    if ends is None:
        return ""
    first, last = _thick(low, high, ends, width)
    cells = [THICK if first <= cell <= last else THIN for cell in range(width)]
    if value is not None:
        mark = _side(low, high, value, first, last, _cell(value, ends, width))
        _put_doubt(cells, mark, doubt, ends)
        _put_mark(cells, mark)
    return "".join(cells)


def _cell(x: float, ends: tuple[float, float], width: int) -> int:
    """The cell of a number: -1 and `width` lie beyond the rule."""
    return min(width, max(-1, math.floor((x - ends[0]) / (ends[1] - ends[0]) * width)))


def _thick(low: float | None, high: float | None, ends: tuple[float, float], width: int) -> tuple[int, int]:
    first = 0 if low is None else min(width - 2, max(1, _cell(low, ends, width)))
    last = width - 1 if high is None else max(1, min(width - 2, _cell(high, ends, width)))
    return first, max(first, last)


def _side(low: float | None, high: float | None, value: float, first: int, last: int, cell: int) -> int:
    """The cell on the right side of both limits, where rounding would put it over one."""
    if low is not None and value < low:
        return min(cell, first - 1)
    if high is not None and value > high:
        return max(cell, last + 1)
    return min(last, max(first, cell))


def _put_doubt(cells: list[str], mark: int, doubt: float | None, ends: tuple[float, float]) -> None:
    if not doubt:
        return
    half = round(doubt / (ends[1] - ends[0]) * len(cells))
    for cell, sign in ((mark - half, "("), (mark + half, ")")):
        if half and 0 <= cell < len(cells):
            cells[cell] = sign


def _put_mark(cells: list[str], mark: int) -> None:
    if mark < 0:
        cells[0] = LEFT_OF_IT
    elif mark >= len(cells):
        cells[-1] = RIGHT_OF_IT
    else:
        cells[mark] = MARK
