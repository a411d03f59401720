"""A drawing as SVG to stand in a page of HTML: black lines on white, its texts beside what they name.

One unit of its view is a millimetre on paper. Texts keep their size whatever the drawing's own unit is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from jobtrack.figures.checked import refuse
from jobtrack.figures.drawing import Dimension, Drawing, Label, Point, Side, corners
from jobtrack.figures.fitting import fitted
from jobtrack.figures.paper.letters import ABOVE, ROW, SIZE, broken, is_known, text_width
from jobtrack.figures.paper.places import APART, DOT, Box, Page, Text
from jobtrack.figures.paper.strokes import leader, mm, strokes
from jobtrack.figures.raster import Frame, dots

WIDTH, HEIGHT = 120.0, 75.0
"""Millimetres across, and at most from the highest line to the lowest."""
EDGE = 1.6
"""Millimetres free round everything, for the stops and heads of lines that end there."""
MARGINS = (0.0, 4.0, 8.0, 12.0, 16.0, 24.0, 32.0, 40.0)
"""Millimetres left free at either side for texts; the best picture of these is taken."""
IN_THE_KEY, MOVED = 0.6, 0.93
"""A text in the key counts as much as a picture smaller by this factor, one on another side as this."""


@dataclass(frozen=True, slots=True)
class _Placed:
    """A text on paper, in rows that lie under each other, and where its first row stands."""

    text: str
    box: Box
    anchor: str = "start"
    rows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where everything of a drawing stands; with the texts that found no place, and where their numbers stand."""

    frame: Frame
    texts: dict[int, _Placed]
    homeless: list[tuple[str, Box]]
    leaders: list[tuple[Point, Point]]
    top: float
    bottom: float
    worth: float


def in_svg(drawing: Drawing, *, width: float = WIDTH, height: float = HEIGHT) -> str:
    """The drawing as one element `svg`, its caption as the title; it refers to nothing outside.

    A text without room beside what it names stands under the picture, with a number for its place. `width` and
    `height` in millimetres: of the whole, and at most of what is drawn. Raises FigureError on numbers that
    aren't finite, radii below 0, and texts that aren't one row.
    """
    refuse(drawing, cells=False)
    layout = _best(drawing, width, height)
    key, bottom = _key(layout, width)
    elements = [
        element
        for number, shape in enumerate(drawing.shapes)
        for element in strokes(shape, layout.frame, _gap(layout, number))
    ]
    elements += [leader(*one) for one in layout.leaders]
    marks = [_Placed(f"({number})", box) for number, (_, box) in enumerate(layout.homeless, 1)]
    texts = [*map(_text, layout.texts.values()), *map(_mark, marks), *map(_text, key)]
    return _whole(drawing.caption, Box(0, layout.top, width, bottom), (*elements, *texts))


def _whole(caption: str, view: Box, elements: Sequence[str]) -> str:
    across, down = mm(view.right - view.left), mm(view.bottom - view.top)
    place = f'x="{mm(view.left)}" y="{mm(view.top)}" width="{across}" height="{down}"'
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{across}mm" height="{down}mm" '
            f'viewBox="{mm(view.left)} {mm(view.top)} {across} {down}" style="max-width:100%;height:auto">',
            f"<title>{escape(caption)}</title>",
            f'<rect {place} fill="#fff"/>',
            '<g fill="none" stroke="#000" stroke-linecap="round">',
            *(one for one in elements if not one.startswith("<text")),
            "</g>",
            f'<g fill="#000" font-family="sans-serif" font-size="{SIZE}" direction="ltr">',
            *(one for one in elements if one.startswith("<text")),
            "</g>",
            "</svg>",
        )
    )


# Where everything stands


def _best(drawing: Drawing, width: float, height: float) -> _Layout:
    found: _Layout | None = None
    for margin in MARGINS:
        if width - 2 * (margin + EDGE) < width / 4:
            break
        frame = _frame(drawing, width, height, margin)
        if found is None or frame.scale > found.worth:
            layout = _laid_out(drawing, frame, width)
            found = layout if found is None or layout.worth > found.worth else found
    assert found is not None
    return found


def _frame(drawing: Drawing, width: float, height: float, margin: float) -> Frame:
    if not drawing.shapes:
        return Frame(1, 0, 0)
    return fitted(drawing, width, height, (margin + EDGE, EDGE))


def _laid_out(drawing: Drawing, frame: Frame, width: float) -> _Layout:
    page = Page(width)
    in_dots = Frame(frame.scale / DOT, frame.left / DOT, frame.top / DOT)
    for number, shape in enumerate(drawing.shapes):
        page.draw(number, dots(shape, in_dots))
    texts: dict[int, _Placed] = {}
    wandering, moved = [], 0
    for text in sorted(_texts(drawing, frame), key=lambda one: one.line is None):
        place = page.place(text)
        if place is None:
            wandering.append(text)
        else:
            moved += place[0] != text.side
            texts[text.shape] = _Placed(text.text, place[1], _anchor(place[0]))
    homeless = []
    for text in wandering:
        led = page.lead(text)
        if led is None:
            homeless.append(text)
        else:
            moved += 1
            texts[text.shape] = _Placed(text.text, led[0], _towards(led[0], text.at))
    marks = [(one.text, page.mark(f"({number})", one.at)) for number, one in enumerate(homeless, 1)]
    inked = [frame.on_grid(point)[1] for shape in drawing.shapes for point in corners(shape)] or [0.0]
    return _Layout(
        frame,
        texts,
        marks,
        page.leaders,
        min([*inked, *(box.top for box in page.boxes)]) - EDGE,
        max([*inked, *(box.bottom for box in page.boxes)]) + EDGE,
        frame.scale * IN_THE_KEY ** len(homeless) * MOVED**moved,
    )


def _texts(drawing: Drawing, frame: Frame) -> Iterator[Text]:
    for number, shape in enumerate(drawing.shapes):
        if isinstance(shape, Label) and shape.text:
            yield Text(shape.text, frame.on_grid(shape.at), shape.side, number)
        elif isinstance(shape, Dimension) and shape.text:
            start, end = frame.on_grid(shape.start), frame.on_grid(shape.end)
            middle: Point = (start[0] / 2 + end[0] / 2, start[1] / 2 + end[1] / 2)
            yield Text(shape.text, middle, "middle", number, (start, end))


def _anchor(side: Side) -> str:
    return {"left": "end", "right": "start"}.get(side, "middle")


def _towards(box: Box, at: Point) -> str:
    """The end of a text that a line leads to."""
    return "start" if at[0] <= box.left else "end" if at[0] >= box.right else "middle"


def _gap(layout: _Layout, shape: int) -> Box | None:
    return layout.texts[shape].box if shape in layout.texts else None


# The key under the picture, and texts as elements


def _key(layout: _Layout, width: float) -> tuple[list[_Placed], float]:
    """The texts that found no place, each behind its number, and where the last row ends."""
    found: list[_Placed] = []
    left, top, lowest = EDGE, layout.bottom, layout.bottom
    for number, (text, _) in enumerate(layout.homeless, 1):
        name = f"({number})"
        indent = text_width(name) + 2 * APART
        rows = broken(text, width - 2 * EDGE - indent)
        wide = indent + max(map(text_width, rows))
        if left > EDGE and left + wide > width - EDGE:
            left, top = EDGE, lowest + APART
        found.append(_Placed(name, Box(left, top, left + indent - 2 * APART, top + ROW)))
        text_box = Box(left + indent, top, left + wide, top + len(rows) * ROW)
        found.append(_Placed(text, text_box, "start", tuple(rows)))
        left, lowest = left + wide + 5 * APART, max(lowest, text_box.bottom)
    return found, lowest + EDGE if found else lowest


def _text(placed: _Placed, more: str = "") -> str:
    box = placed.box
    x = {"end": box.right, "middle": (box.left + box.right) / 2}.get(placed.anchor, box.left)
    rows = placed.rows or (placed.text,)
    spans = "".join(
        f'<tspan x="{mm(x)}" y="{mm(box.top + row * ROW + ABOVE)}"{_held(text)}>{escape(text)}</tspan>'
        for row, text in enumerate(rows)
    )
    return f'<text text-anchor="{placed.anchor}"{more}>{spans}</text>'


def _mark(placed: _Placed) -> str:
    """A number at its place, with a white rim, since it may stand over a line."""
    return _text(placed, ' stroke="#fff" stroke-width="0.8" paint-order="stroke"')


def _held(text: str) -> str:
    """The width of a text with letters that aren't known, so that it takes no more than was kept for it."""
    return "" if is_known(text) else f' textLength="{mm(text_width(text))}" lengthAdjust="spacingAndGlyphs"'
