"""Shafts and ratios by a second way: a beam in pieces, steps walked, wheels rolled, gears solved."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.driveline.ratios import (
    DrivenFrom,
    axle_ratio_from_turns,
    shaft_speed,
    speedometer,
)
from jobtrack.shopmath.driveline.shaft import shaft_critical_speed, shaft_length, shaft_torque

ratio = st.floats(0.5, 8)
tyre = st.floats(400, 1000)
exact = st.integers(1, 100_000).map(lambda thousandths: Fraction(thousandths, 1000))


def beam_speed(outside: float, wall: float, length: float, pieces: int = 1000) -> float:
    """The first critical speed of a supported steel beam, rpm, from finite differences.

    With moments zero at both ends the fourth difference is the second one twice, so the frequency follows
    from the smallest eigenvalue of the second difference.
    """
    inner, outer = (outside - 2 * wall) / 1000, outside / 1000
    inertia, area = math.pi / 64 * (outer**4 - inner**4), math.pi / 4 * (outer**2 - inner**2)
    h = length / 1000 / pieces
    least = scipy.linalg.eigh_tridiagonal(
        np.full(pieces - 1, 2 / h**2), np.full(pieces - 2, -1 / h**2), select="i", select_range=(0, 0)
    )[0][0]
    return float(least * math.sqrt(207e9 * inertia / (7850 * area)) * 30 / math.pi)


@pytest.mark.independent("shaft-critical-speed")
@pytest.mark.parametrize(
    ("outside", "wall", "length"),
    [(76.2, 2.1, 1500), (88.9, 2.1082, 1524), (76.2, 1.651, 1219.2), (50, 10, 700), (100, 49, 2000)],
)
def test_a_beam_in_pieces_has_the_same_critical_speed(outside: float, wall: float, length: float) -> None:
    """A beam cut in a thousand pieces whirls first at the worked-out speed."""
    answer = shaft_critical_speed(outside, wall, length)
    assert answer.critical == pytest.approx(beam_speed(outside, wall, length), rel=1e-5)
    assert float(answer.at_share) == pytest.approx(0.75 * float(answer.critical))


@given(st.floats(30, 120), st.floats(0.5, 14), st.floats(400, 2000), st.floats(1.1, 3))
def test_a_longer_shaft_is_slower_by_the_square(
    outside: float, wall: float, length: float, by: float
) -> None:
    """The critical speed falls with the square of the length, and the share only takes its part."""
    one, other = (shaft_critical_speed(outside, wall, each, 0.5) for each in (length, by * length))
    assert float(one.critical) == pytest.approx(float(other.critical) * by**2)
    assert float(one.at_share) * 2 == pytest.approx(float(one.critical))


@pytest.mark.independent("shaft-length")
@given(st.floats(200, 2500), st.floats(-300, 300), st.floats(-400, 400))
def test_a_shaft_walked_from_joint_to_joint_is_as_long(along: float, across: float, vertical: float) -> None:
    """Steps from the rear joint to the front one add up to the length, and rise by the slope."""
    steps = np.linspace([0, 0, 0], [along, across, vertical], 1001)
    answer = shaft_length(along, vertical, across)
    walked = float(np.sum(np.linalg.norm(np.diff(steps, axis=0), axis=1)))
    assert answer.length == pytest.approx(walked)
    side = np.exp(1j * math.radians(answer.slope))
    assert vertical / along == pytest.approx(side.imag / side.real, abs=1e-9)


@given(st.floats(1, 200), ratio, ratio, tyre)
def test_rolled_wheels_turn_the_shaft(speed: float, axle: float, gear: float, diameter: float) -> None:
    """Turns of a wheel rolled for a minute's distance, through axle and gearbox, are the two speeds."""
    metres_a_minute = speed * 1000 / 60
    wheel_turns = metres_a_minute / (np.pi * diameter / 1000)
    answer = shaft_speed(speed, axle, diameter, gear)
    assert float(answer.shaft) == pytest.approx(wheel_turns * axle)
    assert float(answer.engine) == pytest.approx(wheel_turns * axle * gear)


@pytest.mark.independent("axle-ratio-from-turns")
@pytest.mark.parametrize("held", [False, True])
@given(axle=ratio, turns=st.floats(1, 50))
def test_a_differential_solved_gives_the_ratio_back(held: bool, axle: float, turns: float) -> None:
    """Shaft turns from the equations of an open differential, one wheel held or not, give its ratio."""
    # Unknowns: shaft, cage, left, right; the cage turns by the mean of the wheels.
    left = [0.0, 0.0, 1.0, 0.0 if held else -1.0]
    rows = [[1.0, -axle, 0.0, 0.0], [0.0, -2.0, 1.0, 1.0], [0.0, 0.0, 0.0, 1.0], left]
    shaft = float(np.linalg.solve(np.array(rows), np.array([0.0, 0.0, turns, 0.0]))[0])
    answer = axle_ratio_from_turns(shaft, turns, "one wheel" if held else "both wheels")
    assert float(answer.ratio) == pytest.approx(axle)


@given(exact, exact)
def test_counted_turns_stay_exact(shaft: Fraction, wheel: Fraction) -> None:
    """Fractions of a turn give an exact ratio, one wheel twice that of both."""
    both = axle_ratio_from_turns(shaft, wheel, "both wheels").ratio
    assert both == shaft / wheel
    assert axle_ratio_from_turns(shaft, wheel, "one wheel").ratio == 2 * both


@pytest.mark.independent("shaft-torque")
@given(st.floats(50, 600), ratio, st.floats(300, 2000), st.floats(0.1, 1.2), tyre, st.floats(2, 6))
def test_power_at_the_wheels_balances(
    torque: float, gear: float, load: float, grip: float, radius: float, axle: float
) -> None:
    """Power into the shaft at any speed is thrust times road speed at the tyres; the smaller is carried."""
    answer = shaft_torque(torque, gear, load, grip, radius, axle)
    wheel_speed = 7.0
    thrust = grip * load * 9.80665
    assert float(answer.by_grip) * wheel_speed * axle == pytest.approx(thrust * wheel_speed * radius / 1000)
    engine_speed = wheel_speed * axle * gear
    assert float(answer.by_engine) * wheel_speed * axle == pytest.approx(torque * engine_speed)
    assert answer.carried == sorted([answer.by_engine, answer.by_grip])[0]


@pytest.mark.independent("speedometer")
@pytest.mark.parametrize("driven_from", ["gearbox", "wheels"])
@given(old=ratio, new=ratio, old_tyre=tyre, new_tyre=tyre, true=st.floats(1, 150))
def test_a_gauge_counts_turns(
    driven_from: DrivenFrom, old: float, new: float, old_tyre: float, new_tyre: float, true: float
) -> None:
    """A gauge set to the old parts, fed with the turns of the new ones at a true speed, shows as much."""
    a_kilometre = 1_000_000 / np.pi
    pulses = a_kilometre / new_tyre * (new if driven_from == "gearbox" else 1)
    set_for = a_kilometre / old_tyre * (old if driven_from == "gearbox" else 1)
    shown = true * pulses / set_for
    answer = speedometer(shown, old, new, old_tyre, new_tyre, driven_from)
    assert float(answer.true_speed) == pytest.approx(true)
    assert float(answer.factor) == pytest.approx(true / shown)


@given(exact, exact, exact, exact, exact)
def test_a_swap_and_its_reverse_cancel(
    shown: Fraction, old: Fraction, new: Fraction, old_tyre: Fraction, new_tyre: Fraction
) -> None:
    """The factor there times the factor back is 1, exactly."""
    there = speedometer(shown, old, new, old_tyre, new_tyre, "gearbox")
    back = speedometer(shown, new, old, new_tyre, old_tyre, "gearbox")
    assert there.factor * back.factor == 1
