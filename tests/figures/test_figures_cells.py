"""Drawings in cells: their size, the places of their dots, and every text somewhere."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.figures.cells import TOO_SMALL, in_cells
from jobtrack.figures.drawing import (
    Arc,
    Arrow,
    Circle,
    Dimension,
    Drawing,
    FigureError,
    Label,
    Line,
    Point,
    Shape,
    Side,
)
from jobtrack.figures.raster import arc, line

NUMBERS = st.floats(-1e4, 1e4).filter(lambda value: value == 0 or abs(value) > 1e-6)
POINTS = st.tuples(NUMBERS, NUMBERS)
WORDS = st.text("abcdefgh XYZ0123456789.°→", min_size=1, max_size=14).map(str.strip).filter(bool)
SIDES: st.SearchStrategy[Side] = st.sampled_from(["middle", "above", "below", "left", "right"])
SHAPES: st.SearchStrategy[Shape] = st.one_of(
    st.builds(Line, POINTS, POINTS, st.booleans()),
    st.builds(Arrow, POINTS, POINTS),
    st.builds(Circle, POINTS, st.floats(0, 1e4), st.booleans()),
    st.builds(Arc, POINTS, st.floats(0, 1e4), st.floats(-360, 360), st.floats(-360, 360), st.booleans()),
    st.builds(Label, POINTS, WORDS, SIDES),
    st.builds(Dimension, POINTS, POINTS, WORDS),
)
DRAWINGS = st.builds(Drawing, st.lists(SHAPES, max_size=8).map(tuple), st.just("") | WORDS)
GRID = st.tuples(st.floats(-60, 60), st.floats(-60, 60))


def braille_dots(lines: Sequence[str]) -> np.ndarray:
    """The dots of braille lines as x and y down, read by the numbering of the Unicode chart."""
    places = {1: (0, 0), 2: (0, 1), 3: (0, 2), 4: (1, 0), 5: (1, 1), 6: (1, 2), 7: (0, 3), 8: (1, 3)}
    found = [
        (2 * column + dx, 4 * row + dy)
        for row, text in enumerate(lines)
        for column, character in enumerate(text)
        if 0x2800 <= ord(character) <= 0x28FF
        for dot, (dx, dy) in places.items()
        if ord(character) - 0x2800 >> dot - 1 & 1
    ]
    return np.array(found, dtype=float).reshape(-1, 2)


def texts(drawing: Drawing) -> list[str]:
    """The texts that belong into a picture."""
    return [shape.text for shape in drawing.shapes if isinstance(shape, Label | Dimension)]


@settings(deadline=None, max_examples=150)
@given(DRAWINGS, st.integers(0, 90), st.integers(0, 24), st.booleans())
def test_a_picture_stays_in_its_size(drawing: Drawing, columns: int, rows: int, plain: bool) -> None:
    """Never more rows or columns than given, no control characters, the same twice; plain is ASCII."""
    lines = in_cells(drawing, columns, rows, plain=plain)
    assert len(lines) <= rows
    assert all(len(one) <= columns and one.isprintable() for one in lines)
    assert lines == in_cells(drawing, columns, rows, plain=plain)
    assert not plain or all(one.isascii() for one in lines)


@settings(deadline=None, max_examples=150)
@given(DRAWINGS, st.integers(20, 90), st.integers(6, 24))
def test_every_text_stands_somewhere(drawing: Drawing, columns: int, rows: int) -> None:
    """Each label is whole in the picture or its key; or it is said that there is no room."""
    lines = in_cells(drawing, columns, rows)
    if lines != TOO_SMALL.split("\n") and " ".join(lines) != TOO_SMALL:
        whole = "\n".join(lines)
        for text in set(texts(drawing)):
            assert whole.count(text) >= texts(drawing).count(text)


@given(GRID, GRID)
def test_the_dots_of_a_line_lie_on_it(start: Point, end: Point) -> None:
    """Within half a dot of the straight line, and reaching from one end to the other without a gap."""
    found = np.array(list(line(start, end)), dtype=float)
    way = np.subtract(end, start)
    length = float(np.hypot(*way))
    if length > 1e-6:
        beside = np.abs(way[0] * (found[:, 1] - start[1]) - way[1] * (found[:, 0] - start[0])) / length
        assert beside.max() <= 0.5 + 1e-6
    assert np.abs(np.diff(found, axis=0)).max(initial=0) <= 1
    assert np.abs(found[0] - start).max() <= 1 + 1e-9
    assert np.abs(found[-1] - end).max() <= 1 + 1e-9


@given(GRID, st.floats(0.5, 60))
def test_a_circle_is_round(centre: Point, radius: float) -> None:
    """Every dot lies within half a dot's diagonal of the circle, and no direction is left out."""
    found = np.array(list(arc(centre, radius, 0, 360)), dtype=float) - centre
    assert np.abs(np.hypot(found[:, 0], found[:, 1]) - radius).max() <= 0.5 + 1e-6
    turns = np.sort(np.degrees(np.arctan2(found[:, 1], found[:, 0])))
    gaps = np.diff(np.append(turns, turns[0] + 360))
    assert gaps.max() <= math.degrees(2 / radius) + 1e-6 or radius < 1.5


@given(st.floats(3, 60), st.floats(-360, 360), st.floats(-360, 360))
def test_an_arc_is_a_part_of_its_circle(radius: float, begin: float, turn: float) -> None:
    """Its dots are among those of the circle, and lie in its angles as numpy counts them."""
    found = set(arc((0, 0), radius, begin, turn))
    assert found <= set(arc((0, 0), radius, 0, 360))
    low, high = sorted((begin, begin + turn))
    for x, y in found:
        past = (math.degrees(math.atan2(-y, x)) - low) % 360
        slack = math.degrees(0.75 / radius)
        assert past <= high - low + slack or past >= 360 - slack


def test_a_circle_is_round_on_the_screen() -> None:
    """Read back from the braille, with its own centre and radius fitted by least squares."""
    found = braille_dots(in_cells(Drawing((Circle((7, -3), 40),)), 80, 20))
    system = np.column_stack((2 * found, np.ones(len(found))))
    (x, y, rest), *_ = np.linalg.lstsq(system, (found**2).sum(axis=1), rcond=None)
    radius = math.sqrt(rest + x**2 + y**2)
    assert np.abs(np.hypot(found[:, 0] - x, found[:, 1] - y) - radius).max() <= 0.75
    assert radius == pytest.approx(79 / 2, abs=0.5)


@pytest.mark.parametrize("plain", [False, True])
def test_a_square_is_square(plain: bool) -> None:
    """As many columns as twice its rows: a cell is twice as high as wide."""
    corners = [(0, 0), (9, 0), (9, 9), (0, 9)]
    sides = tuple(Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))
    lines = in_cells(Drawing(sides), 80, 20, plain=plain)
    assert len(lines) == 20
    assert max(len(one.strip()) for one in lines) == pytest.approx(40, abs=1)


def test_a_dashed_line_has_gaps() -> None:
    """Half of the dots of a whole one, all of them on it."""
    whole, dashed = (set(line((0, 0), (99, 20), each)) for each in (False, True))
    assert dashed < whole
    assert len(dashed) == 50


def test_a_text_never_hides_a_line() -> None:
    """A label at the middle of a line stands beside it; the dots are the same with and without it."""
    bare = in_cells(Drawing((Line((0, 0), (40, 0)), Line((0, -9), (0, 9)))), 60, 15)
    shown = in_cells(
        Drawing((Line((0, 0), (40, 0)), Line((0, -9), (0, 9)), Label((20, 0), "beside"))), 60, 15
    )
    assert "beside" in "\n".join(shown)
    assert np.array_equal(braille_dots(bare), braille_dots(shown))


def test_texts_without_room_go_to_the_key() -> None:
    """Twenty labels at one point: the rest stand under the picture, each with the number of its place."""
    names = [f"name {number:02d} of many" for number in range(20)]
    lines = in_cells(Drawing((Line((0, 0), (9, 9)), *(Label((5, 5), name) for name in names))), 80, 20)
    whole = "\n".join(lines)
    assert all(whole.count(name) == 1 for name in names)
    assert "(1) name" in whole


def test_a_picture_without_room_for_its_texts_isnt_drawn() -> None:
    """One sentence in its place."""
    crowd = tuple(Label((0, 0), f"a label with the number {number}") for number in range(90))
    assert in_cells(Drawing(crowd, "Caption"), 60, 15) == [TOO_SMALL]


@pytest.mark.parametrize(
    ("shapes", "rows"),
    [
        ((), 0),
        ((Line((3, 3), (3, 3)),), 1),
        ((Circle((0, 0), 0),), 1),
        ((Line((0, 0), (1e9, 1e-9)),), 1),
        ((Line((0, 0), (1e-9, 1e9)),), 20),
        ((Line((1e9, 0), (1e9 + 1e-3, 0)),), 1),
        ((Line((0, 0), (5e-324, 0)),), 1),
        ((Line((-1e150, 0), (1e150, 1e150)), Circle((0, 0), 1e150)), 20),
    ],
    ids=["nothing", "a point", "no radius", "very wide", "very high", "far away", "tiny", "huge"],
)
def test_odd_drawings_are_drawn(shapes: tuple[Shape, ...], rows: int) -> None:
    """Nothing, a point, and proportions that no screen has."""
    lines = in_cells(Drawing(shapes), 80, 20)
    assert len(lines) == rows
    assert all(0 < len(one) <= 80 for one in lines)


@pytest.mark.parametrize(
    ("shape", "said"),
    [
        (Line((0, 0), (math.nan, 0)), "Line: nan can't be drawn"),
        (Dimension((0, math.inf), (0, 0), "x"), "Dimension: inf can't be drawn"),
        (Label((0, -math.inf), "x"), "Label: -inf can't be drawn"),
        (Circle((0, math.nan), 1), "Circle: nan can't be drawn"),
        (Arrow((0, 1e151), (0, 0)), "Arrow: 1e+151 can't be drawn"),
        (Circle((0, 0), -1), "Circle: a radius of -1"),
        (Arc((0, 0), math.nan, 0, 90), "Arc: a radius of nan"),
        (Arc((0, 0), 1, math.inf, 90), "Arc: from inf on by 90"),
        (Arc((0, 0), 1, 0, 721), "Arc: from 0 on by 721"),
        (Label((0, 0), "two\nrows"), "'two\\nrows': a text is one row"),
        (Dimension((0, 0), (1, 0), "\x1b[31m"), "'\\x1b[31m': a text is one row"),
        (Label((0, 0), "全"), "'全': a text is one row"),
        (Label((0, 0), "e\u0301"), "'e\u0301': a text is one row"),
    ],
    ids=lambda value: type(value).__name__ if not isinstance(value, str) else "",
)
def test_what_cant_be_drawn_is_refused(shape: Shape, said: str) -> None:
    """One line that names the shape and says what would be taken."""
    with pytest.raises(FigureError) as refused:
        in_cells(Drawing((shape,)), 80, 20)
    assert str(refused.value).startswith(said)
    assert "\n" not in str(refused.value)


def test_plain_texts_are_spelt_out() -> None:
    """Degrees and arrows in words and ASCII signs."""
    lines = in_cells(Drawing((Label((0, 0), "→ 3°"),), "±2 · 4"), 40, 5, plain=True)
    assert lines[0] == "+/-2 * 4"
    assert lines[-1].strip() == "-> 3 deg"
