"""Further second ways: edges drawn as points and measured, wheels rolled corner by corner, rows tried."""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.driveline.ratios import shaft_speed
from jobtrack.shopmath.fit.angles import wedge_angle
from jobtrack.shopmath.fit.perches import centre_spacing
from jobtrack.shopmath.flange.circles import edge_distance
from jobtrack.shopmath.loads.tyres import tyre_axle_load, tyre_index_needed


def ring(diameter: float, ahead: float = 0.0) -> np.ndarray:
    """The edge of a round part as 720 points, its centre so far ahead."""
    turn = np.radians(np.arange(720) / 2)
    return np.column_stack([ahead + diameter / 2 * np.cos(turn), diameter / 2 * np.sin(turn)])


@pytest.mark.independent("centre-spacing")
@given(st.floats(10, 1500), st.floats(5, 40), st.floats(5, 40))
def test_drawn_pins_stand_the_gap_apart(gap: float, left: float, right: float) -> None:
    """Of all points on two pins' edges, drawn at the spacing, the nearest two are the measured gap apart."""
    spacing = float(centre_spacing(gap, left, right).spacing)
    assert scipy.spatial.distance.cdist(ring(left), ring(right, spacing)).min() == pytest.approx(gap)


@pytest.mark.independent("edge-distance")
@given(st.floats(100, 300), st.floats(5, 20), st.floats(1, 30))
def test_a_drawn_hole_stands_its_metal_from_the_edge(flange: float, hole: float, metal: float) -> None:
    """Of all points on a flange's and a hole's edges the nearest two are the metal apart."""
    circle = flange - hole - 2 * metal
    answer = edge_distance(flange, circle, hole)
    edge, round_hole = ring(flange), ring(hole, circle / 2)
    assert scipy.spatial.distance.cdist(edge, round_hole).min() == pytest.approx(float(answer.to_hole))
    assert np.hypot(edge[:, 0] - circle / 2, edge[:, 1]).min() == pytest.approx(float(answer.to_centre))
    assert float(answer.in_holes) * hole == pytest.approx(float(answer.to_centre))


@pytest.mark.independent("wedge-angle")
@given(st.floats(0.1, 60), st.floats(10, 300), st.floats(1, 20))
def test_a_drawn_wedge_has_its_slope(degrees: float, length: float, thin: float) -> None:
    """Points along a face drawn at an angle, fitted with a straight line, give thick end and angle."""
    along = np.linspace(0, length, 50)
    face = thin * 1j + along / math.cos(math.radians(degrees)) * np.exp(1j * math.radians(degrees))
    slope, at_thin = np.polyfit(face.real, face.imag, 1)
    answer = wedge_angle(float(at_thin + slope * length), float(at_thin), length)
    assert float(answer.angle) == pytest.approx(degrees, abs=1e-6)


@pytest.mark.independent("shaft-speed")
@pytest.mark.parametrize(
    ("speed", "axle", "diameter", "gear"),
    [(100, 3.9, 650, 1.0), (60, 4.56, 745, 0.85), (8, 5.38, 810, 3.67)],
)
def test_a_wheel_rolled_corner_by_corner_turns_the_shaft(
    speed: float, axle: float, diameter: float, gear: float
) -> None:
    """A wheel of 20,000 corners, rolled over a minute's road chord by chord, counts the shaft's turns."""
    corners = diameter / 2 * np.exp(2j * np.pi * np.arange(20_001) / 20_000)
    round_once = float(np.abs(np.diff(corners)).sum())
    rolled, turns = 0.0, 0
    while rolled + round_once <= speed * 1e6 / 60:
        rolled, turns = rolled + round_once, turns + 1
    left_over = (speed * 1e6 / 60 - rolled) / round_once
    answer = shaft_speed(speed, axle, diameter, gear)
    assert float(answer.shaft) == pytest.approx((turns + left_over) * axle, rel=1e-6)
    assert float(answer.engine) == pytest.approx((turns + left_over) * axle * gear, rel=1e-6)


@pytest.mark.independent("tyre-index-needed")
@given(st.floats(1000, 3000), st.booleans(), st.booleans())
def test_every_index_tried_finds_the_one_needed(axle: float, dual: bool, car_tyre: bool) -> None:
    """Trying the axle loads of all indices from the lowest, the first that carries the axle is needed."""
    tried = range(70, 126)
    loads = [float(tyre_axle_load(one, one if dual else None, dual, car_tyre).axle) for one in tried]
    first = next(one for one, load in zip(tried, loads, strict=True) if load >= axle)
    assert tyre_index_needed(axle, dual, car_tyre).index_ == first
