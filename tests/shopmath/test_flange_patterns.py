"""Patterns of holes by a second way: points drawn, every turn tried, force vectors summed."""

from __future__ import annotations

import math
import time
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import calculate
from jobtrack.shopmath.flange.circles import edge_distance, flange_slip_torque
from jobtrack.shopmath.flange.patterns import rectangular_pattern, second_pattern

exact = st.integers(1000, 3_000_000).map(lambda thousandths: Fraction(thousandths, 1000))


@pytest.mark.independent("rectangular-pattern")
@given(st.floats(10, 500), st.floats(10, 500))
def test_a_rectangle_drawn_has_its_circle(length: float, width: float) -> None:
    """All four corners lie on the circle, and the first at the half angle from the length axis."""
    answer = rectangular_pattern(length, width)
    corners = np.array([complex(x, y) for x in (length / 2, -length / 2) for y in (width / 2, -width / 2)])
    assert 2 * np.abs(corners) == pytest.approx(float(answer.diameter))
    assert np.degrees(np.angle(corners[0])) == pytest.approx(float(answer.half_angle))


def drawn(holes: int, circle: float, turned: float = 0) -> np.ndarray:
    """The centres of evenly spaced holes, the first on the axis, all turned."""
    return np.asarray(circle / 2 * np.exp(1j * (2 * np.pi * np.arange(holes) / holes + math.radians(turned))))


def tried(old: np.ndarray, holes: int, circle: float, half_sizes: float) -> np.ndarray:
    """The smallest metal between old and new holes for every turn from 0 to a pitch, in 7200 steps."""
    turns = np.linspace(0, 360 / holes, 7201)
    new = drawn(holes, circle)[None, :] * np.exp(1j * np.radians(turns))[:, None]
    apart = np.abs(old[None, :, None] - new[:, None, :])
    return np.asarray(apart.min(axis=(1, 2)) - half_sizes)


PATTERNS = [(4, 4), (4, 6), (3, 4), (5, 4), (6, 6), (8, 3), (5, 7), (6, 4), (10, 12)]


@pytest.mark.independent("second-pattern")
@pytest.mark.parametrize(("first", "second"), PATTERNS)
@pytest.mark.parametrize("circle", [70.0, 90.0, 118.0])
def test_every_turn_tried_finds_none_better(first: int, second: int, circle: float) -> None:
    """No turn of small steps leaves more metal, and the answer's own turn leaves what it says."""
    answer = second_pattern(first, 4, second, circle, 3, 100)
    metal = tried(drawn(first, 100), second, circle, 3.5)
    assert float(answer.ligament) == pytest.approx(metal.max(), abs=1e-3)
    assert answer.ligament >= metal.max() - 1e-9
    there = np.abs(drawn(first, 100)[:, None] - drawn(second, circle, float(answer.rotation))[None, :])
    assert there.min() - 3.5 == pytest.approx(float(answer.ligament))
    assert answer.rotation == Fraction(180, math.lcm(first, second))


@pytest.mark.parametrize(("length", "width"), [(60, 80), (80, 60), (50, 86), (70, 71), (30, 95)])
@pytest.mark.parametrize("second", [3, 4, 5, 6, 8])
def test_a_rectangle_is_searched_too(length: float, width: float, second: int) -> None:
    """Against a rectangle, too, no tried turn is better, and none of the equal ones is smaller."""
    corners = np.array([complex(x, y) / 2 for x in (length, -length) for y in (width, -width)])
    answer = second_pattern(4, 3, second, 90, 3, None, length, width)
    metal = tried(corners, second, 90, 3)
    assert float(answer.ligament) == pytest.approx(metal.max(), abs=5e-3)
    turns = np.linspace(0, 360 / second, 7201)
    best = turns[metal > metal.max() - 1e-3]
    assert float(answer.rotation) == pytest.approx(best.min(), abs=0.06)
    assert 0 <= answer.rotation < 360 / second


def test_a_square_typed_as_rectangle_is_the_regular_pattern() -> None:
    """Four holes by length and width give the metal of the same circle, turned by its half angle."""
    square = second_pattern(4, 10, 4, 80, 10, None, 60, 60)
    regular = second_pattern(4, 10, 4, 80, 10, math.hypot(60, 60))
    assert float(square.ligament) == pytest.approx(float(regular.ligament))
    assert float(square.rotation) == pytest.approx(0)
    assert regular.rotation == 45


def test_a_circle_beside_its_rectangle_has_to_agree() -> None:
    """A typed circle within 1 mm of the diagonal changes nothing."""
    alone = second_pattern(4, 10, 4, 100, 10, None, 60, 80)
    assert second_pattern(4, 10, 4, 100, 10, 101, 60, 80) == alone
    assert second_pattern(4, 10, 4, 100, 10, 99, 60, 80) == alone


def test_the_same_circle_and_the_same_holes_lie_half_way() -> None:
    """On one circle the new holes lie half way between the old ones."""
    answer = second_pattern(4, 10, 4, 100, 10, 100)
    assert answer.rotation == 45
    assert float(answer.ligament) == pytest.approx(100 * math.sin(math.radians(22.5)) - 10)


@pytest.mark.parametrize(
    ("seat", "clearance", "says"),
    [
        (None, None, "Without a seat's diameter"),
        (20, 20.647, None),
        (61, 0.147, None),
        (62, -0.353, "over an old hole by 0.3527"),
    ],
)
def test_a_seat_stands_clear_of_the_old_holes(seat: int | None, clearance: float | None, says: Any) -> None:
    """The seat's edge is so far from the old hole's; over it, a remark; without a seat null and a remark."""
    answer = second_pattern(4, 12, 4, 90, 11, 100, None, None, seat)
    assert answer.seat_clearance == (clearance if clearance is None else pytest.approx(clearance, abs=5e-4))
    assert len(answer.remarks) == (0 if says is None else 1)
    assert says is None or says in answer.remarks[0]


def test_a_seat_that_just_touches_gets_no_remark() -> None:
    """A clearance of 0 is no overlap."""
    answer = second_pattern(3, 10, 3, 100, 10, 100, None, None, 90)
    assert answer.seat_clearance == pytest.approx(0, abs=1e-9)
    assert answer.remarks == ()


def test_half_a_millimetre_of_metal_is_an_answer() -> None:
    """Little metal is a figure, not a refusal."""
    answer = second_pattern(4, 12, 4, 90, 60.3, 100)
    assert float(answer.ligament) == pytest.approx(0.497, abs=5e-4)


def test_a_hundred_holes_are_searched_at_once() -> None:
    """The largest patterns take less than 50 ms."""
    begun = time.perf_counter()
    second_pattern(97, 1, 100, 400, 1, 500)
    assert time.perf_counter() - begun < 0.05


@given(exact, exact, exact)
def test_a_hole_on_a_line_leaves_its_metal(hole: Fraction, circle: Fraction, metal: Fraction) -> None:
    """From the flange's edge inwards come the metal, the hole's near edge and its centre, exactly."""
    flange = circle + hole + 2 * metal
    answer = edge_distance(flange, circle, hole)
    near_edge = circle / 2 + hole / 2
    assert answer.to_hole == flange / 2 - near_edge == metal
    assert answer.to_centre == flange / 2 - circle / 2
    assert answer.in_holes * hole == answer.to_centre


@pytest.mark.independent("flange-slip-torque")
@given(st.integers(3, 20), st.floats(1000, 60_000), st.floats(0.05, 1), st.floats(20, 120))
def test_friction_forces_summed_give_the_slip_torque(
    bolts: int, force: float, friction: float, radius: float
) -> None:
    """Friction at each bolt, square to its radius, summed as moments of vectors, is the slip torque."""
    places = drawn(bolts, 2 * radius / 1000)
    drag = friction * force * 1j * places / np.abs(places)
    moment = float(np.sum(places.real * drag.imag - places.imag * drag.real))
    assert float(flange_slip_torque(bolts, force, friction, radius).torque) == pytest.approx(moment)


def test_the_pattern_is_found_by_name_with_null_for_no_seat() -> None:
    """The catalogue's answer has every key, null where no seat was given."""
    done = calculate(
        "second-pattern",
        {
            "first_holes": 4, "first_circle": 100, "first_hole": 12,
            "second_holes": 4, "second_circle": 90, "second_hole": 11,
        },
    )  # fmt: skip
    assert list(done.values) == ["rotation", "ligament", "seat_clearance"]
    assert done.values["seat_clearance"] is None
