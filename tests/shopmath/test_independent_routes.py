"""Workings-out against a second way to the same answer: points, vectors, fits and equations solved."""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.fit.perches import (
    centre_spacing,
    level,
    perch_shift,
    perch_shift_from_faces,
    pinion_to_pad,
    relative_level,
)
from jobtrack.shopmath.flange.circles import Measured, bolt_circle
from jobtrack.shopmath.loads.axles import axle_limit, axle_loads

slope = st.floats(-40, 40)


def tilted(degrees: float) -> np.ndarray:
    """The unit vector of a face seen from the side, at this slope."""
    return np.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])


def between(first: np.ndarray, second: np.ndarray) -> float:
    """The turn from the first vector to the second, degrees."""
    cross = first[0] * second[1] - first[1] * second[0]
    return math.degrees(math.atan2(cross, float(first @ second)))


@pytest.mark.independent("perch-shift-from-faces")
@given(st.floats(1000, 2000), st.floats(50, 300), st.floats(50, 300), st.floats(300, 900))
def test_moved_perches_stand_as_wanted(faces: float, left: float, right: float, wanted: float) -> None:
    """Perches put on a line and moved by the answer are as far apart as wanted, centred between the faces."""
    move = perch_shift_from_faces(faces, left, right, wanted)
    left_perch, right_perch = left + float(move.left_inboard), faces - right - float(move.right_inboard)
    assert right_perch - left_perch == pytest.approx(wanted)
    assert left_perch == pytest.approx(faces - right_perch)


@pytest.mark.independent("perch-shift")
@given(st.floats(300, 1500), st.floats(300, 1500))
def test_both_perches_moved_inboard_meet_the_other_axle(now: float, wanted: float) -> None:
    """Perches at plus and minus half the spacing, each moved inboard, stand at half the spacing wanted."""
    move = perch_shift(now, wanted)
    assert -now / 2 + float(move.left_inboard) == pytest.approx(-wanted / 2)
    assert now / 2 - float(move.right_inboard) == pytest.approx(wanted / 2)


@given(st.floats(10, 1500), st.floats(5, 40), st.floats(5, 40))
def test_pins_on_a_line_leave_the_gap(gap: float, left: float, right: float) -> None:
    """Two round pins drawn at the spacing leave the measured gap between their inner edges."""
    spacing = float(centre_spacing(gap, left, right).spacing)
    assert (spacing - right / 2) - left / 2 == pytest.approx(gap)


@pytest.mark.independent("relative-level")
@given(slope, slope, slope)
def test_a_crooked_stand_cancels(stand: float, pad: float, pinion: float) -> None:
    """Two faces read on a stand of any tilt differ by the angle between the two faces as vectors."""
    answer = relative_level(stand + pad, stand + pinion) if abs(stand) < 40 else relative_level(pad, pinion)
    assert float(answer.difference) == pytest.approx(between(tilted(pad), tilted(pinion)), abs=1e-9)


@pytest.mark.independent("pinion-to-pad")
@given(slope, slope, st.floats(0, 5))
def test_pinion_vectors_are_parallel(gearbox: float, pad: float, nose_down: float) -> None:
    """A pinion turned from the pad by the answer lies the allowance below the gearbox's line."""
    answer = pinion_to_pad(gearbox, pad, nose_down)
    pinion = tilted(pad + float(answer.pinion_to_pad))
    assert between(pinion, tilted(gearbox)) == pytest.approx(nose_down, abs=1e-9)


@pytest.mark.independent("level")
@given(st.floats(100, 2000), st.floats(-60, 60))
def test_level_rises_by_its_gap(length: float, degrees: float) -> None:
    """A level laid on a face of known slope lifts its end by the gap that gives the slope back."""
    gap = float((tilted(degrees) * length)[1])
    assert level(gap, length).angle == pytest.approx(degrees, abs=1e-9)


def circle_through(points: np.ndarray) -> float:
    """The diameter of the circle fitted to points by least squares."""

    def off(guess: np.ndarray) -> np.ndarray:
        return np.asarray(np.hypot(points[:, 0] - guess[0], points[:, 1] - guess[1]) - guess[2])

    return 2 * abs(float(scipy.optimize.least_squares(off, [1.0, 1.0, 40.0]).x[2]))


@pytest.mark.independent("bolt-circle")
@pytest.mark.parametrize(
    ("holes", "apart"), [(3, 1), (4, 1), (4, 2), (5, 1), (5, 2), (6, 2), (8, 3), (10, 5)]
)
@pytest.mark.parametrize("measured", ["centres", "same edges", "inner edges", "outer edges"])
def test_bolt_circle_fits_drawn_holes(holes: int, apart: int, measured: Measured) -> None:
    """Holes drawn on a circle, measured between two of them, give the diameter that a circle fit finds."""
    turn = 2 * np.pi * np.arange(holes) / holes
    points = np.column_stack([50 * np.cos(turn), 50 * np.sin(turn)])
    centres = float(np.hypot(*(points[apart] - points[0])))
    over = {"inner edges": -11.0, "outer edges": 11.0}.get(measured, 0.0)
    answer = bolt_circle(holes, centres + over, measured, 11.0, apart)
    assert float(answer.diameter) == pytest.approx(circle_through(points), rel=1e-6)


item = st.tuples(st.floats(0.1, 500), st.floats(-500, 4000))


@pytest.mark.independent("axle-loads")
@given(st.floats(2000, 4000), st.lists(item, min_size=1, max_size=6))
def test_axle_loads_balance(wheelbase: float, items: list[tuple[float, float]]) -> None:
    """Front and rear solve the two equations of balance: all forces, and moments about the rear axle."""
    answer = axle_loads(wheelbase, [*items, (5000.0, wheelbase / 2)])
    masses = [*items, (5000.0, wheelbase / 2)]
    about_rear = sum(mass * (wheelbase - distance) for mass, distance in masses)
    solved = np.linalg.solve(
        np.array([[1.0, 1.0], [wheelbase, 0.0]]), np.array([sum(mass for mass, _ in masses), about_rear])
    )
    assert [float(answer.front), float(answer.rear)] == pytest.approx(list(solved))


@pytest.mark.independent("axle-limit")
@given(st.lists(st.integers(1, 5000), min_size=8, max_size=8))
def test_axle_limit_is_first_when_sorted(ratings: list[int]) -> None:
    """The lowest rating is the first of all ratings for the axle when they are sorted."""
    plate, housing, spring, wheel, tyre, brakes, shaft, bearings = ratings
    answer = axle_limit(plate, housing, spring, wheel, tyre, 4, brakes, shaft, bearings)
    for_axle = sorted([plate, housing, 2 * spring, 2 * wheel, 4 * tyre, brakes, shaft, bearings])
    assert answer.lowest_rating == for_axle[0]
    assert answer.below_plate == plate - for_axle[0]
