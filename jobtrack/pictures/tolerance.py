"""Where a reading lies: larger than the rule in the table, its tolerance a box on a scale."""

from __future__ import annotations

from typing import NamedTuple

from jobtrack.figures.drawing import Arrow, Drawing, Label, Line, Shape

BOX, ARROW, DOUBT = "Box: the tolerance.", " Arrow: the reading", ", and the stretch of its doubt"
HALF = 100.0
"""Half of the scale, in the drawing's own unit."""
HIGH = 8.0
"""Half of the box's height."""
CLEAR = 4.0
"""How far a mark stays from a limit that it doesn't lie on, so that it is seen on the side where it lies."""


class Said(NamedTuple):
    """A figure of the drawing: its worth, and how it is said."""

    worth: float
    words: str


class Reading(NamedTuple):
    """A reading against its limits; what isn't known is left out. At least one limit is known; both may be one."""

    low: Said | None
    high: Said | None
    wanted: Said | None
    measured: Said | None
    """With its verdict, where it has one."""
    doubt: float | None = None
    """Half of the stretch in which it lies (k = 2)."""
    ends: tuple[float, float] = (0.0, 1.0)
    """What the ends of the scale stand for."""

    def seen(self, at: float, low: float, high: float) -> float:
        """A place on the side of each limit on which the reading lies, however near it is; `low`, `high`: theirs."""
        worth = self.measured.worth if self.measured is not None else 0.0
        if self.low is not None and worth < self.low.worth:
            return min(at, low - CLEAR)
        if self.high is not None and worth > self.high.worth:
            return max(at, high + CLEAR)
        return at


def place(reading: Reading) -> Drawing:
    """The scale with the tolerance as a box on it, and an arrow from above where the reading lies."""
    low, high = (_on_scale(reading, one, end) for one, end in ((reading.low, -HALF), (reading.high, HALF)))
    shapes: list[Shape] = [
        *(Line((low, y), (high, y)) for y in (-HIGH, HIGH)),
        *_limit(low, -HALF, reading.low),
        *_limit(high, HALF, reading.high if reading.high != reading.low else None),
        *_wanted(reading),
    ]
    if reading.measured is not None:
        shapes += _mark(reading, reading.measured, (low, high))
    return Drawing(tuple(shapes), _caption(reading))


def _caption(reading: Reading) -> str:
    return BOX if reading.measured is None else f"{BOX}{ARROW}{DOUBT if reading.doubt else ''}."


def _on_scale(reading: Reading, said: Said | None, otherwise: float) -> float:
    if said is None:
        return otherwise
    first, last = reading.ends
    return max(-HALF, min(HALF, (2 * (said.worth - first) / (last - first) - 1) * HALF))


def _limit(at: float, end: float, said: Said | None) -> list[Shape]:
    """Where the box ends, and the scale beyond it; open where there is no limit on this side."""
    if said is None:
        return []
    return [Line((at, -HIGH), (at, HIGH)), Line((at, 0), (end, 0)), Label((at, -HIGH), said.words, "below")]


def _wanted(reading: Reading) -> list[Shape]:
    if reading.wanted is None:
        return []
    at = _on_scale(reading, reading.wanted, 0)
    return [Line((at, -HIGH), (at, HIGH), dashed=True), Label((at, -HIGH), reading.wanted.words, "below")]


def _mark(reading: Reading, measured: Said, limits: tuple[float, float]) -> list[Shape]:
    at = reading.seen(_on_scale(reading, measured, 0), *limits)
    beyond = not reading.ends[0] <= measured.worth <= reading.ends[1]
    words = f"{measured.words}, beyond the scale" if beyond else measured.words
    shapes: list[Shape] = [Arrow((at, 4 * HIGH), (at, HIGH)), Label((at, 4 * HIGH), words, "above")]
    if reading.doubt:
        half = reading.doubt / (reading.ends[1] - reading.ends[0]) * 2 * HALF
        shapes += _stretch(max(-HALF, at - half), min(HALF, at + half), 2.4 * HIGH)
    return shapes


def _stretch(start: float, end: float, y: float) -> list[Shape]:
    """A line with a stop at either end."""
    stops = (Line((x, y - HIGH / 3), (x, y + HIGH / 3)) for x in (start, end))
    return [Line((start, y), (end, y)), *stops]
