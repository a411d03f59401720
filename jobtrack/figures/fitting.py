"""How large a drawing is drawn: the largest scale that leaves its margins free, the same both ways."""

from __future__ import annotations

import math

from jobtrack.figures.drawing import Drawing, corners
from jobtrack.figures.raster import Frame


def fitted(drawing: Drawing, across: float, down: float, margin: tuple[float, float]) -> Frame:
    """The frame in which it fills a sheet, its texts left out; `margin` is left free at either side, above and below.

    The picture stands in the middle. All lengths are in dots of the frame.
    """
    points = [point for shape in drawing.shapes for point in corners(shape)]
    spans = [(min(point[axis] for point in points), max(point[axis] for point in points)) for axis in (0, 1)]
    (left, right), (bottom, top) = spans
    room = across - 2 * margin[0], down - 2 * margin[1]
    scale = min(_scale(*each) for each in ((room[0], right - left), (room[1], top - bottom)))
    scale = scale if math.isfinite(scale) else 1.0
    middle = ((left / 2 + right / 2) * scale, (bottom / 2 + top / 2) * scale)
    return Frame(scale, across / 2 - middle[0], down / 2 + middle[1])


def _scale(room: float, span: float) -> float:
    return room / span if span > 0 else math.inf
