"""Pictures of workings-out: what is drawn follows from the numbers, worked out here in another way."""

from __future__ import annotations

import cmath
import itertools
import math

import pytest

from jobtrack.figures.cells import TOO_SMALL, in_cells
from jobtrack.figures.drawing import Arrow, Circle, Drawing, Label, Line
from jobtrack.pictures import PICTURES, picture_of
from jobtrack.shopmath.catalogue import find
from jobtrack.workings import answers as workings


def drawn(name: str, **typed: str) -> Drawing:
    """The picture of a working-out as typed."""
    outcome = workings.answer(name, typed).outcome
    drawing = picture_of(name, outcome.inputs, outcome.values)
    assert drawing is not None
    return drawing


def arrows(drawing: Drawing) -> list[Arrow]:
    return [shape for shape in drawing.shapes if isinstance(shape, Arrow)]


@pytest.mark.parametrize("plain", [False, True])
@pytest.mark.parametrize("size", [(80, 20), (60, 15)])
@pytest.mark.parametrize("name", PICTURES)
def test_each_example_is_drawn(name: str, size: tuple[int, int], plain: bool) -> None:
    """Every picture's name is in the catalogue, and its example fits with all its labels."""
    drawing = drawn(name, **find(name).example)
    lines = in_cells(drawing, *size, plain=plain)
    assert lines != [TOO_SMALL]
    assert len(lines) <= size[1]
    assert "scale" in drawing.caption or "true" in drawing.caption
    labels = [shape.text for shape in drawing.shapes if isinstance(shape, Label)]
    assert plain or all(label in "\n".join(lines) for label in labels)


def test_without_a_picture_there_is_none() -> None:
    """A working-out that isn't drawn."""
    assert picture_of("tap-drill", {}, {}) is None


@pytest.mark.parametrize(("now", "wanted"), [(1012, 965), (965, 1012)])
def test_perches_move_as_worked_out(now: int, wanted: int) -> None:
    """Both arrows are as long as the shift; towards the middle when it is positive. Swapped, they turn."""
    left, right = arrows(drawn("perch-shift", spacing_now=str(now), spacing_wanted=str(wanted)))
    shift = (now - wanted) / 2
    assert left.end[0] - left.start[0] == pytest.approx(shift)
    assert right.start[0] - right.end[0] == pytest.approx(shift)
    assert left.start[0] < 0 < right.start[0]
    back = arrows(drawn("perch-shift", spacing_now=str(wanted), spacing_wanted=str(now)))
    assert [(one.start, one.end) for one in back] == [(one.end, one.start) for one in (left, right)]


def test_perches_from_faces_move_to_one_distance() -> None:
    """Faces 1524 apart, perches 262 and 250 from them, 1016 wanted: both end 254 from their face."""
    typed = find("perch-shift-from-faces").example
    left, right = arrows(drawn("perch-shift-from-faces", **typed))
    assert (left.start[0], right.start[0]) == (-762 + 262, 762 - 250)
    assert (left.end[0], right.end[0]) == (-762 + 254, 762 - 254)


@pytest.mark.parametrize("count", [3, 5, 8])
def test_holes_are_the_roots_of_one(count: int) -> None:
    """The centres, turned a quarter, are the complex roots of radius to the power of their number."""
    drawing = drawn("bolt-circle", holes=str(count), spacing="40", measured="centres", hole="10")
    holes = [shape for shape in drawing.shapes if isinstance(shape, Circle) and not shape.dashed]
    radius = 20 / math.sin(math.pi / count)
    assert len(holes) == count
    for hole in holes:
        assert (complex(*hole.centre) / 1j) ** count == pytest.approx(radius**count)


def test_the_metal_drawn_is_the_ligament() -> None:
    """The least gap between an old and a new circle, and the line drawn in it, are the result."""
    typed = find("second-pattern").example
    result = workings.answer("second-pattern", typed).outcome.values["ligament"]
    drawing = drawn("second-pattern", **typed)
    circles = [shape for shape in drawing.shapes if isinstance(shape, Circle) and not shape.dashed]
    old, new = ([one for one in circles if one.radius == radius] for radius in (6, 5.5))
    assert (len(old), len(new)) == (4, 4)
    gaps = [abs(complex(*a.centre) - complex(*b.centre)) - 11.5 for a in old for b in new]
    assert min(gaps) == pytest.approx(result)
    lengths = [math.dist(one.start, one.end) for one in drawing.shapes if isinstance(one, Line)]
    assert any(length == pytest.approx(result) for length in lengths)


def test_slopes_are_drawn_true() -> None:
    """The angles between gearbox, shaft and pinion as drawn are the two joints."""
    drawing = drawn("joint-pair", ahead_slope="3", shaft_slope="7", behind_slope="2")
    ways = [complex(*one.end) - complex(*one.start) for one in drawing.shapes if isinstance(one, Line)]
    bends = [math.degrees(abs(cmath.phase(b / a))) for a, b in itertools.pairwise(ways)]
    assert bends == pytest.approx([4, 5])
    assert all(way.real > 0 > way.imag for way in ways)
