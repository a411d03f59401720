"""A drawing as SVG, read back by a parser of XML: every text once, none over another, all of it on the paper."""

from __future__ import annotations

import itertools
import math
import re
from collections import Counter
from typing import NamedTuple
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ImageFont

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
from jobtrack.figures.paper.letters import ROW, SIZE, broken, text_width
from jobtrack.figures.svg import in_svg
from jobtrack.pictures import PICTURES, picture_of
from jobtrack.shopmath.catalogue import find
from jobtrack.workings import answers as workings
from tests.support import hostile

SVG = "{http://www.w3.org/2000/svg}"
TAGS = {f"{SVG}{tag}" for tag in ("svg", "title", "rect", "g", "path", "circle", "text", "tspan")}
DEJAVU = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")

NUMBERS = st.floats(-1e6, 1e6) | st.integers(-200, 200).map(float)
POINTS = st.tuples(NUMBERS, NUMBERS)
TEXTS = st.text(
    st.characters(exclude_categories=("C", "Z")) | st.sampled_from("ab <&>\"' 12"), min_size=1, max_size=40
).filter(str.isprintable)
SIDES: st.SearchStrategy[Side] = st.sampled_from(("middle", "above", "below", "left", "right"))
SHAPES: st.SearchStrategy[Shape] = st.one_of(
    st.builds(Line, POINTS, POINTS, st.booleans()),
    st.builds(Arrow, POINTS, POINTS),
    st.builds(Circle, POINTS, st.floats(0, 1e5), st.booleans()),
    st.builds(Arc, POINTS, st.floats(0, 1e5), st.floats(-720, 720), st.floats(-720, 720), st.booleans()),
    st.builds(Label, POINTS, TEXTS, SIDES),
    st.builds(Dimension, POINTS, POINTS, TEXTS),
)
DRAWINGS = st.builds(Drawing, st.lists(SHAPES, max_size=14).map(tuple), TEXTS)


class Row(NamedTuple):
    """A row of a text as it was drawn, with the paper that it may take."""

    text: str
    left: float
    right: float
    top: float
    bottom: float


def parsed(drawing: Drawing) -> ElementTree.Element:
    return ElementTree.fromstring(in_svg(drawing))


def texts(root: ElementTree.Element) -> list[str]:
    """The texts of a drawing; the numbers that lead to the key aren't among them."""
    found = ["".join(one.itertext()) for one in root.iter(f"{SVG}text")]
    marks = Counter(one for one in found if re.fullmatch(r"\(\d+\)", one))
    twice = {one for one, times in marks.items() if times >= 2}
    return [one for one in found if one not in twice]


def rows(root: ElementTree.Element) -> list[Row]:
    """Each row of text: how wide it is drawn is reckoned from how it is anchored."""
    found = []
    for text in root.iter(f"{SVG}text"):
        for span in text.iter(f"{SVG}tspan"):
            x, y = float(span.attrib["x"]), float(span.attrib["y"])
            words = span.text or ""
            wide = float(span.get("textLength", text_width(words)))
            left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.attrib["text-anchor"]]
            found.append(Row(words, left, left + wide, y - 0.7 * SIZE, y + 0.2 * SIZE))
    return found


def view(root: ElementTree.Element) -> tuple[float, float, float, float]:
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    return left, top, left + wide, top + high


def points(root: ElementTree.Element) -> list[Point]:
    """Every coordinate that is drawn at: ends of lines and arcs, the box of each circle, each text."""
    found: list[Point] = []
    for path in root.iter(f"{SVG}path"):
        for part in re.findall(r"[MLA][^MLAZ]*", path.attrib["d"]):
            numbers = [float(one) for one in NUMBER.findall(part)]
            found.append((numbers[-2], numbers[-1]))
    for circle in root.iter(f"{SVG}circle"):
        x, y, r = (float(circle.attrib[key]) for key in ("cx", "cy", "r"))
        found += [(x - r, y - r), (x + r, y + r)]
    return found


@settings(max_examples=40)
@given(DRAWINGS)
def test_any_drawing_is_drawn_whole(drawing: Drawing) -> None:
    """Well formed; every text once, in no other's way; everything on the paper, in whole numbers and hundredths."""
    root = parsed(drawing)
    wanted = [one.text for one in drawing.shapes if isinstance(one, Label | Dimension)]
    found = Counter(texts(root))
    assert all(found[text] >= times for text, times in Counter(wanted).items())
    assert sum(found.values()) == len(wanted)
    assert [one.text for one in root.iter(f"{SVG}title")] == [drawing.caption]
    left, top, right, bottom = view(root)
    for x, y in points(root):
        assert left - 0.01 <= x <= right + 0.01
        assert top - 0.01 <= y <= bottom + 0.01
    for row in rows(root):
        assert left - 0.02 <= row.left
        assert row.right <= right + 0.02
        assert top <= row.top
        assert row.bottom <= bottom
    for one, other in itertools.combinations(rows(root), 2):
        apart = one.right <= other.left + 0.02 or other.right <= one.left + 0.02
        assert apart or one.bottom <= other.top or other.bottom <= one.top, (one, other)


@given(DRAWINGS)
@settings(max_examples=25)
def test_nothing_in_it_does_anything(drawing: Drawing) -> None:
    """Only shapes and texts, and no attribute that names another place or a script."""
    assert {one.tag for one in parsed(drawing).iter()} <= TAGS
    for one in parsed(drawing).iter():
        assert not [key for key in one.attrib if key.startswith("on") or "href" in key]
        assert "url(" not in "".join(one.attrib.values())


MARKUP = [
    "<script>alert(1)</script>",
    "</text></svg><b>",
    "&lt;b&gt; &amp;amp;",
    "{{ 7*7 }}",
    "]]>",
    "\"'><!--",
]


@pytest.mark.parametrize("text", [*MARKUP, *(one for one in hostile.TEXTS.values() if one.isprintable())])
def test_hostile_text_is_text(text: str) -> None:
    """As a caption, a label and a measure, each comes back as it was typed."""
    root = parsed(Drawing((Label((0, 0), text), Dimension((0, 0), (9, 0), text)), text))
    assert texts(root) == [text, text]
    assert root.findtext(f"{SVG}title") == text
    assert {one.tag for one in root.iter()} <= TAGS


@given(st.tuples(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6)), st.floats(1, 1e5), st.floats(0, 40))
@settings(max_examples=25)
def test_a_circle_stays_a_circle(centre: Point, radius: float, wide: float) -> None:
    """One scale both ways: beside it a line of its radius is as long, across and up."""
    x, y = centre
    lines = (Line(centre, (x + radius, y)), Line(centre, (x, y + radius)))
    root = parsed(Drawing((Circle(centre, radius), *lines, Line(centre, (x + wide * radius, y)))))
    (circle,) = root.iter(f"{SVG}circle")
    for path in list(root.iter(f"{SVG}path"))[:2]:
        numbers = [float(one) for one in NUMBER.findall(path.attrib["d"])]
        assert math.dist(numbers[:2], numbers[2:]) == pytest.approx(float(circle.attrib["r"]), abs=0.02)
        assert numbers[:2] == [float(circle.attrib["cx"]), float(circle.attrib["cy"])]


@pytest.mark.parametrize("name", PICTURES)
def test_each_example_has_its_texts_beside_it(name: str) -> None:
    """Every picture of a working-out, with its example, on paper."""
    outcome = workings.answer(name, find(name).example).outcome
    drawing = picture_of(name, outcome.inputs, outcome.values)
    assert drawing is not None
    wanted = [one.text for one in drawing.shapes if isinstance(one, Label | Dimension)]
    assert sorted(texts(parsed(drawing))) == sorted(wanted)


def test_texts_keep_their_size() -> None:
    """In thousandths of a millimetre or in kilometres, the same letters stand at the same place."""
    small, large = (
        in_svg(Drawing((Line((0, 0), (9 * by, 4 * by)), Label((9 * by, 4 * by), "12.5 mm", "left"))))
        for by in (1e-3, 1e6)
    )
    assert small == large
    assert f'font-size="{SIZE}"' in small


def test_a_measured_line_is_broken_for_its_text() -> None:
    """Two pieces, and a stop at either end."""
    root = parsed(Drawing((Dimension((0, 0), (100, 0), "leg 168.2 mm"),)))
    assert len(list(root.iter(f"{SVG}path"))) == 4
    (row,) = rows(root)
    assert not [x for x, _ in points(root) if row.left < x < row.right]


def test_a_measure_too_long_for_its_line_stands_beside_it() -> None:
    """The line is whole."""
    shapes = (Line((0, 0), (100, 0)), Dimension((0, 10), (4, 10), "a long measure of little"))
    assert len(list(parsed(Drawing(shapes)).iter(f"{SVG}path"))) == 4


def test_a_crowd_goes_to_the_key() -> None:
    """Twenty-four labels at one point: none is lost, each number stands twice, at its place and before its text."""
    names = [f"name {number:02d} of many that stand here" for number in range(24)]
    root = parsed(Drawing(tuple(Label((0, 0), name) for name in names)))
    assert sorted(texts(root)) == names
    numbers = [text for one in root.iter(f"{SVG}text") if (text := "".join(one.itertext()))[0] == "("]
    assert set(Counter(numbers).values()) == {2}


@pytest.mark.parametrize("text", ["W" * 400, "word " * 80, "  ", "全角の文字" * 30, "e\u0301" * 50])
def test_a_long_text_is_broken(text: str) -> None:
    """Its rows together are the text, and none is wider than the paper."""
    root = parsed(Drawing((Line((0, 0), (9, 9)), Label((5, 5), text))))
    assert texts(root) == [text]
    assert all(0 <= row.left <= row.right <= 120 for row in rows(root))


@pytest.mark.parametrize("text", ["two\nrows", "\x1b[31m", "\u202e", "\ud800", "\ufffe"])
def test_what_is_no_row_of_text_is_refused(text: str) -> None:
    """So that no text turns the ones beside it round, and the element stays well formed."""
    for drawing in (Drawing((Label((0, 0), text),)), Drawing((), text)):
        with pytest.raises(FigureError, match="a text is one row"):
            in_svg(drawing)


def test_numbers_that_cant_be_drawn_are_refused() -> None:
    """As in the cells of a terminal."""
    with pytest.raises(FigureError, match="Line: nan can't be drawn"):
        in_svg(Drawing((Line((0, 0), (math.nan, 0)),)))


@pytest.mark.parametrize(
    "text", ["1012.5 mm ± 0.5 mm, within", "3 NEXT", "→ 23.5 mm inboard", "Wagon WHEEL #1"]
)
def test_letters_are_no_wider_than_reckoned(text: str) -> None:
    """Measured with the font file of the widest common sans-serif; skipped where the machine lacks it."""
    try:
        font = ImageFont.truetype(DEJAVU, 1000)
    except OSError:
        pytest.skip("DejaVu Sans is not on this machine")
    assert 0.9 * text_width(text) <= font.getlength(text) * SIZE / 1000 <= text_width(text)


def test_rows_of_a_text_are_the_text() -> None:
    """At blanks where there are any, else in the middle of a word."""
    assert broken("one two three", text_width("one two ")) == ["one two ", "three"]
    assert "".join(broken("abcdefghij" * 9, 20)) == "abcdefghij" * 9
    assert ROW > SIZE
