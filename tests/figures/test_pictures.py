"""Pictures of workings-out: what is drawn follows from the numbers, worked out here in another way."""

from __future__ import annotations

import cmath
import itertools
import math
import re

import pytest

from jobtrack.figures.cells import TOO_SMALL, in_cells
from jobtrack.figures.drawing import Arc, Arrow, Circle, Dimension, Drawing, Label, Line, corners
from jobtrack.pictures import PICTURES, picture_of
from jobtrack.pictures.axles import with_levels
from jobtrack.pictures.tolerance import Reading, Said
from jobtrack.shopmath.catalogue import find
from jobtrack.units.chosen import METRIC, US, Chosen
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
    lines = [one for one in drawing.shapes if isinstance(one, Line)]
    ways, on = (
        [complex(*one.end) - complex(*one.start) for one in lines if one.dashed == dashed]
        for dashed in (False, True)
    )
    bends = [math.degrees(abs(cmath.phase(b / a))) for a, b in itertools.pairwise(ways)]
    assert bends == pytest.approx([4, 5])
    arcs = [one for one in drawing.shapes if isinstance(one, Arc)]
    assert [abs(one.turn) for one in arcs] == pytest.approx([4, 5])
    for straight_on, other, one in zip(on, (-ways[0], ways[2]), arcs, strict=True):
        begin, end = (cmath.rect(1, math.radians(angle)) for angle in (one.begin, one.begin + one.turn))
        assert cmath.phase(straight_on / begin) == pytest.approx(0, abs=1e-9)
        assert cmath.phase(other / end) == pytest.approx(0, abs=1e-9)
    assert all(way.real > 0 > way.imag for way in ways)


def test_levels_stand_above_their_seats() -> None:
    """A bubble off the middle by as much of the half way to the line as the reading is of its tolerance."""
    outcome = workings.answer("perch-shift", {"spacing_now": "1012", "spacing_wanted": "965"}).outcome
    bare = picture_of("perch-shift", outcome.inputs, outcome.values)
    assert bare is not None
    left = Reading(Said(3.2, "3.2"), Said(3.8, "3.8"), None, Said(3.65, "level 3.65 deg, within"))
    drawing = with_levels(bare, outcome.inputs, left, None)
    added = drawing.shapes[len(bare.shapes) :]
    glass = sorted({one.centre[0] for one in added if isinstance(one, Arc)})
    assert (glass[0] + glass[-1]) / 2 == pytest.approx(-965 / 2)
    lines = [one.start[0] for one in added if isinstance(one, Line) and one.start[0] == one.end[0]]
    off = (glass[1] + glass[2]) / 2 + 965 / 2
    assert off / (lines[1] + 965 / 2) == pytest.approx(0.5)
    assert min(one.start[1] for one in added if isinstance(one, Line)) > max(
        y for one in bare.shapes for _, y in corners(one)
    )
    assert with_levels(bare, outcome.inputs, None, None) == bare


FIGURE = r"([-\d.]+) (mm|in|kg|lb|deg)\b(?! edges)"


def _noughts(figure: str) -> float:
    """How many noughts a whole number ends with, which may be rounded off."""
    return -math.inf if "." in figure else len(figure) - len(figure.rstrip("0"))


def texts(drawing: Drawing) -> list[str]:
    return [*(one.text for one in drawing.shapes if isinstance(one, Label | Dimension)), drawing.caption]


@pytest.mark.parametrize("name", PICTURES)
def test_figures_are_said_in_the_system_that_is_shown(name: str) -> None:
    """In US units every length and mass is within half its last place of that, 25.4 mm and 0.45359237 kg exactly
    (NIST SP 811, 2008, B.8); angles stay, and so does what is drawn.
    """
    outcome = workings.answer(name, find(name).example).outcome
    metric, us = (picture_of(name, outcome.inputs, outcome.values, Chosen(one)) for one in (METRIC, US))
    assert metric is not None
    assert us is not None
    assert [list(corners(one)) for one in us.shapes] == [list(corners(one)) for one in metric.shapes]
    for one, other in zip(texts(metric), texts(us), strict=True):
        figures = re.findall(FIGURE, one), re.findall(FIGURE, other)
        for (value, unit), (there, its) in zip(*figures, strict=True):
            assert its == {"mm": "in", "kg": "lb", "deg": "deg"}[unit]
            exact = float(value) / {"mm": 25.4, "kg": 0.45359237, "deg": 1}[unit]
            assert (
                abs(float(there) - exact)
                <= max(10.0 ** -len(there.partition(".")[2]), 10.0 ** _noughts(there)) / 2
            )
