"""The further workings-out of fit by a second way: points placed, vectors turned, lines walked."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jobtrack.shopmath.fit.angles import level_reversal, rotated_point, wedge, wedge_angle
from jobtrack.shopmath.fit.heights import Springs, ride_height_change, track_change
from jobtrack.shopmath.fit.springs import Bend, shock_fit, u_bolt_blank, u_bolt_leg
from jobtrack.shopmath.fit.square import housing_straightness, square_by_diagonals, thrust_angle

exact = st.integers(1000, 3_000_000).map(lambda thousandths: Fraction(thousandths, 1000))


def turn(degrees: float) -> np.ndarray:
    """The matrix that turns a point (ahead, up) nose up."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return np.array([[c, -s], [s, c]])


@pytest.mark.independent("level-reversal")
@given(st.floats(-40, 40), st.floats(-5, 5))
def test_a_reversed_level_gives_tilt_and_error_back(tilt: float, error: float) -> None:
    """Readings made from a tilt and the instrument's error, once turned round, are solved for both."""
    readings = np.array([[1.0, 1.0], [-1.0, 1.0]]) @ np.array([tilt, error])
    answer = level_reversal(float(readings[0]), float(readings[1]))
    assert [float(answer.tilt), float(answer.zero_error)] == pytest.approx([tilt, error], abs=1e-9)


@given(exact, exact)
def test_a_reversal_stays_exact(normal: Fraction, turned: Fraction) -> None:
    """Tilt and error add up to the normal reading exactly, and swapped readings turn the tilt's sign."""
    assume(normal < 90 and turned < 90)
    answer = level_reversal(normal, turned)
    assert answer.tilt + answer.zero_error == normal
    assert level_reversal(turned, normal).tilt == -answer.tilt


@pytest.mark.independent("wedge")
@given(st.floats(-60, 60), st.floats(10, 300))
def test_a_wedge_rises_as_a_turned_line(degrees: float, length: float) -> None:
    """A line turned by the angle, drawn out until it covers the length, has risen by the wedge."""
    line = turn(degrees) @ np.array([1.0, 0.0])
    assert wedge(degrees, length).rise == pytest.approx(line[1] * length / line[0], abs=1e-9)


@pytest.mark.parametrize("angle", [0, 0.5])
def test_a_flat_or_rising_wedge_gets_no_remark(angle: float) -> None:
    """Only a negative angle says which end is the thick one."""
    assert wedge(angle, 100).remarks == ()


def test_readings_of_45_deg_get_no_remark() -> None:
    """The scale is doubted past 45 deg, not at it."""
    assert level_reversal(45, -45).remarks == ()


@given(st.floats(0, 60), st.floats(10, 300), st.floats(0, 20))
def test_a_wedge_and_its_angle_go_back_and_forth(degrees: float, length: float, thin: float) -> None:
    """The angle of a wedge made for an angle is that angle."""
    thick = thin + float(wedge(degrees, length).rise)
    assert wedge_angle(thick, thin, length).angle == pytest.approx(degrees, abs=1e-6)


@pytest.mark.independent("thrust-angle")
@given(st.floats(-10, 10), st.floats(1000, 2000), st.floats(2000, 4000))
def test_a_turned_axle_has_its_thrust_angle(degrees: float, track: float, wheelbase: float) -> None:
    """Wheel centres of an axle turned on the floor, measured along the vehicle, give the turn back."""
    half = track / math.cos(math.radians(degrees)) / 2
    left, right = turn(degrees) @ np.array([-half, 0.0]), turn(degrees) @ np.array([half, 0.0])
    answer = thrust_angle(wheelbase - left[1], wheelbase - right[1], track)
    assert answer.angle == pytest.approx(degrees, abs=1e-6)


def test_a_longer_left_wheelbase_points_the_axle_left() -> None:
    """The axle's own straight ahead leans to the left when the left wheel stands further back."""
    left, right = np.array([-750.0, -2703.0]), np.array([750.0, -2700.0])
    along = right - left
    ahead = np.array([-along[1], along[0]])
    assert ahead[0] < 0
    assert thrust_angle(2703, 2700, 1500).angle > 0


@pytest.mark.independent("square-by-diagonals")
@given(st.floats(500, 4000), st.floats(300, 2000), st.floats(-8, 8))
def test_a_drawn_parallelogram_has_its_skew(length: float, width: float, skew: float) -> None:
    """Corners of a parallelogram drawn with a skew have the diagonals that give it back."""
    s = math.radians(skew)
    along, across = np.array([length, 0.0]), width * np.array([math.sin(s), math.cos(s)])
    first, second = float(np.linalg.norm(along + across)), float(np.linalg.norm(along - across))
    assume(max(first, second) > max(length, width))
    answer = square_by_diagonals(length, width, first, second)
    assert answer.skew == pytest.approx(skew, abs=1e-6)
    assert answer.remarks == ()


def test_diagonals_of_other_sides_are_told() -> None:
    """Diagonals that together are more than 5 mm off those of the sides get a remark, with how far."""
    assert "on average 9.5 mm longer" in square_by_diagonals(3300, 900, 3430, 3430).remarks[0]
    assert "10.5 mm shorter" in square_by_diagonals(3300, 900, 3410, 3410).remarks[0]
    assert square_by_diagonals(3300, 900, 3426, 3426).remarks
    assert square_by_diagonals(3300, 900, 3425, 3425).remarks == ()


@pytest.mark.independent("housing-straightness")
@given(st.floats(-1, 1), st.floats(-1, 1), st.floats(300, 800))
def test_bars_on_bent_faces_show_toe_and_camber(left: float, right: float, bar: float) -> None:
    """Tips of bars on two turned faces, 1500 apart, measured across, give the sum of both turns."""
    tips = [turn(angle) @ np.array([bar / 2, 0.0]) for angle in (left, right)]
    narrow, wide = 1500 - tips[0][1] - tips[1][1], 1500 + tips[0][1] + tips[1][1]
    answer = housing_straightness(bar, narrow, wide, narrow, wide)
    assert answer.toe == pytest.approx(left + right, abs=0.001)
    assert answer.camber == pytest.approx(-left - right, abs=0.001)


@pytest.mark.independent("rotated-point")
@given(st.floats(-300, 300), st.floats(-45, 45))
def test_a_point_rises_as_a_matrix_turns_it(ahead: float, degrees: float) -> None:
    """A point level with the centre, turned by a matrix, rises by the answer."""
    assert rotated_point(ahead, degrees).rise == pytest.approx((turn(degrees) @ [ahead, 0.0])[1], abs=1e-9)


@given(st.lists(exact, min_size=1, max_size=6), exact, exact, exact)
def test_a_u_bolt_reaches_over_its_stack(
    stack: list[Fraction], washer: Fraction, nut: Fraction, projection: Fraction
) -> None:
    """Parts laid on a line one after the other end the projection short of the tip, exactly."""
    end = Fraction(0)
    for part in (*stack, washer, nut):
        end += part
    assert u_bolt_leg(stack, washer, nut, projection).leg == end + projection


def walked(width: float, leg: float, rod: float, radius: float) -> float:
    """The length of a U-bolt's centreline, walked in small steps."""
    middle = radius + rod / 2
    arc = np.linspace(math.pi, math.pi / 2, 20_001)
    corner = np.column_stack([radius + middle * np.cos(arc), leg - radius + middle * np.sin(arc)])
    half = np.vstack([[-rod / 2, 0.0], corner, [width / 2, leg + rod / 2]])
    return 2 * float(np.sum(np.hypot(*np.diff(half, axis=0).T)))


@pytest.mark.independent("u-bolt-blank")
@pytest.mark.parametrize(
    ("width", "leg", "rod", "bend", "radius"),
    [
        (79.375, 177.8, 14.2875, "round", None),
        (63.5, 160, 12.7, "round", None),
        (63.5, 160, 12.7, "square", 6),
        (76, 200, 14, "square", 0),
        (76, 38, 14, "square", 38),
        (76, 38, 14, "round", None),
    ],
)
def test_a_blank_is_as_long_as_its_centreline(
    width: float, leg: float, rod: float, bend: Bend, radius: float | None
) -> None:
    """The rod is as long as the bent centreline walked step by step."""
    inside = width / 2 if radius is None else radius
    answer = u_bolt_blank(width, leg, rod, bend, radius)
    assert answer.blank == pytest.approx(walked(width, leg, rod, inside), abs=1e-4)


@pytest.mark.independent("shock-fit")
@given(st.floats(0, 60), st.floats(0, 100), st.floats(0, 100))
def test_a_damper_reaches_between_its_mounts(lean: float, bump: float, droop: float) -> None:
    """Mounts placed at ride height, the lower moved straight up and down, are the answer's lengths apart."""
    lower = np.array([0.0, 0.0])
    upper = 400 * np.array([math.sin(math.radians(lean)), math.cos(math.radians(lean))])
    answer = shock_fit(310, 490, 400, lean, bump, droop)
    at_bump = float(np.linalg.norm(upper - (lower + np.array([0, bump]))))
    at_droop = float(np.linalg.norm(upper - (lower - np.array([0, droop]))))
    lengths = [answer.length_at_bump, answer.length_at_droop, answer.left_at_bump, answer.left_at_droop]
    assert lengths == pytest.approx([at_bump, at_droop, at_bump - 310, 490 - at_droop], abs=1e-9)
    assert len(answer.remarks) == (at_bump < 310) + (at_droop > 490)


@given(exact, exact, exact, exact)
def test_stacked_axles_differ_by_the_body_rise(
    old_pad: Fraction, new_pad: Fraction, old_pack: Fraction, new_pack: Fraction
) -> None:
    """Tube, pad, pack and main leaf put one on the other stand as much higher as the answer says, exactly."""
    tube = Fraction(330)
    over = [tube + pad + pack for pad, pack in ((old_pad, old_pack), (new_pad, new_pack))]
    under = [tube - pad for pad in (old_pad, new_pad)]
    answer = ride_height_change(old_pad, new_pad, "over the axle", old_pack, new_pack)
    assert answer.body_rise == over[1] - over[0]
    answer = ride_height_change(old_pad, new_pad, "under the axle", old_pack, new_pack)
    assert answer.body_rise == under[1] - under[0]
    assert "were not used" in answer.remarks[0]


@pytest.mark.parametrize("springs", ["over the axle", "under the axle"])
def test_swapped_axles_change_the_sign_of_the_rise(springs: Springs) -> None:
    """Going back to the old axle lowers the body by what the new one raised it."""
    there, back = ride_height_change(40, 46, springs), ride_height_change(46, 40, springs)
    assert there.body_rise == -back.body_rise
    assert there.remarks == ()


@pytest.mark.independent("track-change")
@given(exact, exact, st.integers(-200, 200), st.integers(-200, 200))
def test_wheel_centres_stand_wider_by_the_change(
    old: Fraction, new: Fraction, old_offset: int, new_offset: int
) -> None:
    """Wheel centres placed an offset inboard of their faces are further apart by the change, half a side."""
    old, new = old + 500, new + 500
    tracks = [
        (faces / 2 - offset) - (offset - faces / 2)
        for faces, offset in ((old, old_offset), (new, new_offset))
    ]
    answer = track_change(old, new, old_offset, new_offset)
    assert answer.track_change == tracks[1] - tracks[0]
    assert answer.each_side * 2 == answer.track_change
