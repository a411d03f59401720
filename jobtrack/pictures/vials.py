"""A reading of an angle as the bubble of a level."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.figures.drawing import Arc, Arrow, Drawing, Label, Line, Point, Shape
from jobtrack.pictures.tolerance import Reading, Said

LIMITS, MORE = "Lines: the limits.", " Bubble to the right: more."
HALF, HIGH = 100.0, 9.0
"""Half of the glass, and of its height, in the drawing's own unit."""
LINES = 40.0
"""Where the lines of both limits stand, from the middle."""
LONG, THICK = 14.0, 6.0
"""Half of the bubble's length and height."""
END = HALF - LONG - 3
"""As far from the middle as a bubble goes."""


def vial(reading: Reading) -> Drawing:
    """A level with lines at both limits, which are known; the bubble goes to the right with more."""
    shapes = [*_rounded((0, 0), HALF, HIGH), *_lines(reading)]
    if reading.measured is not None:
        at = bubble_at(reading, reading.measured)
        far = ", beyond the glass" if abs(at) > END else ""
        shapes += _bubble(max(-END, min(END, at)), f"{reading.measured.words}{far}")
    return Drawing(tuple(shapes), LIMITS if reading.measured is None else LIMITS + MORE)


def small_vial(reading: Reading, at: Point, half: float) -> Iterator[Shape]:
    """The same at a place in another drawing, of this half length, with what was measured alone in words."""
    scale = half / HALF
    high, lines = scale * HIGH, scale * LINES
    yield from _rounded(at, half, high)
    for x in (at[0] - lines, at[0] + lines):
        yield Line((x, at[1] - high), (x, at[1] + high))
    if reading.measured is not None:
        place = scale * max(-END, min(END, bubble_at(reading, reading.measured)))
        yield from _rounded((at[0] + place, at[1]), scale * LONG, scale * THICK)
        yield Label((at[0], at[1] + high), reading.measured.words, "above")


def bubble_at(reading: Reading, measured: Said) -> float:
    """Where the middle of the bubble belongs, from the middle of the glass: between the lines where it is within."""
    if reading.low is None or reading.high is None:
        return 0.0
    half = (reading.high.worth - reading.low.worth) / 2 or 1.0
    at = (measured.worth - reading.low.worth - half) / half * LINES
    return reading.seen(at, -LINES, LINES)


def _rounded(at: Point, half: float, high: float) -> list[Shape]:
    """A stretch with round ends: glass, or bubble."""
    (x, y), to = at, half - high
    return [
        Line((x - to, y + high), (x + to, y + high)),
        Line((x - to, y - high), (x + to, y - high)),
        Arc((x - to, y), high, 90, 180),
        Arc((x + to, y), high, -90, 180),
    ]


def _lines(reading: Reading) -> list[Shape]:
    """Both limits across the glass, and what is wanted in the middle below it."""
    wanted = reading.wanted
    shapes: list[Shape] = [] if wanted is None else [Label((0, -1.5 * HIGH), wanted.words, "below")]
    for at, said in ((-LINES, reading.low), (LINES, reading.high)):
        shapes.append(Line((at, -1.5 * HIGH), (at, 1.5 * HIGH)))
        shapes += [] if said is None else [Label((at, -1.5 * HIGH), said.words, "below")]
    return shapes


def _bubble(at: float, words: str) -> list[Shape]:
    return [
        *_rounded((at, 0), LONG, THICK),
        Arrow((at, 3 * HIGH), (at, HIGH)),
        Label((at, 3 * HIGH), words, "above"),
    ]
