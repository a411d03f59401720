"""Refusals of what can't be drawn (numbers, radii, texts), and a drawing whose texts are spelt in ASCII."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable

from jobtrack.figures.drawing import Arc, Circle, Dimension, Drawing, FigureError, Label, Shape

LARGEST = 1e150
"""Numbers beyond it overflow when they are squared."""

WHOLE = 720
"""Degrees; two whole turns."""

SPELT_OUT = str.maketrans(
    {"°": " deg", "→": "->", "←": "<-", "↑": "^", "↓": "v", "·": "*", "±": "+/-", "×": "x", "²": "^2"}
)


def refuse(drawing: Drawing, *, cells: bool = True) -> None:
    """Raise FigureError unless numbers are finite, radii not below 0, and texts one row that can be shown.

    In `cells` the characters of a text must be narrow too.
    """
    for shape in drawing.shapes:
        _refuse_numbers(shape)
    for text in (*texts(drawing), drawing.caption):
        _refuse_text(text)
        if cells:
            _refuse_width(text)


def texts(drawing: Drawing) -> list[str]:
    """The texts of its shapes."""
    return [shape.text for shape in drawing.shapes if isinstance(shape, Label | Dimension)]


def _refuse_numbers(shape: Shape) -> None:
    name = type(shape).__name__
    if isinstance(shape, Circle | Arc) and not 0 <= shape.radius <= LARGEST:
        raise FigureError(f"{name}: a radius of {shape.radius}; give 0 or more, and less than {LARGEST:g}")
    if isinstance(shape, Arc) and not (abs(shape.begin) <= WHOLE and abs(shape.turn) <= WHOLE):
        raise FigureError(f"{name}: from {shape.begin} on by {shape.turn}; give degrees within {WHOLE}")
    for number in _places(shape):
        if not abs(number) <= LARGEST:
            raise FigureError(f"{name}: {number} can't be drawn; give finite numbers up to {LARGEST:g}")


def _places(shape: Shape) -> tuple[float, ...]:
    match shape:
        case Circle(centre) | Arc(centre):
            return centre
        case Label(at):
            return at
        case _:
            return (*shape.start, *shape.end)


def _refuse_text(text: str) -> None:
    for character in text:
        if not (character.isprintable() or unicodedata.category(character) == "Zs"):
            raise FigureError(
                f"{text!r}: a text is one row of characters to be seen; {character!r} isn't one"
            )


def _refuse_width(text: str) -> None:
    for character in text:
        if unicodedata.east_asian_width(character) in "WF" or unicodedata.combining(character):
            raise FigureError(f"{text!r}: a text is one row of narrow characters; {character!r} isn't one")


def spelt_out(drawing: Drawing) -> Drawing:
    """The drawing with its texts in ASCII."""
    return respelt(drawing, _ascii)


def respelt(drawing: Drawing, spelt: Callable[[str], str]) -> Drawing:
    """The drawing with each of its texts spelt otherwise."""
    return Drawing(tuple(_respelt(shape, spelt) for shape in drawing.shapes), spelt(drawing.caption))


def _respelt(shape: Shape, spelt: Callable[[str], str]) -> Shape:
    match shape:
        case Label(at, text, side):
            return Label(at, spelt(text), side)
        case Dimension(start, end, text):
            return Dimension(start, end, spelt(text))
        case _:
            return shape


def _ascii(text: str) -> str:
    return text.translate(SPELT_OUT).encode("ascii", "replace").decode("ascii")
