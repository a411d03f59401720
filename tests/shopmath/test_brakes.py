"""Brakes against a second way: shoes and bores integrated, equations of balance solved, odds, vectors."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.brakes.holding import drum_wear, force_on_grade
from jobtrack.shopmath.brakes.pressure import (
    brake_share,
    braking_weight_share,
    line_pressure,
    rear_brake_ratio,
)

bore = st.floats(12, 40)


def area(diameter: float) -> float:
    """The area of a round bore by adding its chords, mm^2."""
    radius = diameter / 2
    return 4 * float(scipy.integrate.quad(lambda x: math.sqrt(radius * radius - x * x), 0, radius)[0])


@pytest.mark.independent("line-pressure")
@given(st.floats(10, 1000), st.floats(1, 8), bore)
def test_pressure_pushes_back_on_the_bore(force: float, ratio: float, diameter: float) -> None:
    """The pressure on the bore, its area added up chord by chord, balances the pushrod's force."""
    pressure = float(line_pressure(force, ratio, diameter).pressure)
    assert pressure / 1000 * area(diameter) == pytest.approx(force * ratio, rel=1e-6)


def shoes(push: float, radius: float, friction: float, face: float = 40) -> tuple[float, float]:
    """Torque of a leading and a trailing shoe, N*m, and the leading shoe's highest pressure, kPa.

    Pivoted shoes over 120 degrees from the hinge, pressure as the sine: the friction and the pressure of each
    strip of lining are added up about the hinge and about the middle of the drum. Lengths in mm.
    """
    hinge = radius * 125 / 150
    arm = 2 * hinge * math.cos(math.radians(30))
    strip, end = face * radius, math.radians(120)
    normal = strip * hinge * scipy.integrate.quad(lambda t: math.sin(t) ** 2, 0, end)[0]
    rubbing = (
        friction
        * strip
        * scipy.integrate.quad(lambda t: math.sin(t) * (radius - hinge * math.cos(t)), 0, end)[0]
    )
    turning = friction * strip * radius * scipy.integrate.quad(math.sin, 0, end)[0]
    leading, trailing = push * arm / (normal - rubbing), push * arm / (normal + rubbing)
    return (leading + trailing) * turning / 1000, leading * 1000


def test_the_shoe_of_the_tests_is_a_textbooks() -> None:
    """The integrated shoe reproduces a textbook's: 734 kPa (found) and 422 N*m (from memory), Shigley 16-1."""
    torque, pressure = shoes(push=2200, radius=150, friction=0.28)
    assert pressure == pytest.approx(734, abs=0.6)
    assert torque == pytest.approx(422, abs=0.5)


@pytest.mark.independent("rear-brake-ratio")
@given(bore, bore, st.floats(80, 200), st.floats(80, 200), st.floats(0.2, 0.4), st.floats(0.2, 0.4))
def test_the_torque_ratio_is_that_of_two_drawn_brakes(
    old: float, new: float, old_radius: float, new_radius: float, old_friction: float, new_friction: float
) -> None:
    """Two brakes at one pressure, their friction integrated, differ by the ratio; factors from unit brakes."""
    old_torque, _ = shoes(3 * area(old), old_radius, old_friction)
    new_torque, _ = shoes(3 * area(new), new_radius, new_friction)
    unit_old, unit_new = (shoes(1, 100, friction)[0] for friction in (old_friction, new_friction))
    done = rear_brake_ratio(old, new, 2 * old_radius, 2 * new_radius, unit_old, unit_new, 600, 640)
    assert float(done.torque_ratio) == pytest.approx(new_torque / old_torque, rel=1e-6)
    old_force, new_force = old_torque / 300, new_torque / 320
    assert float(done.road_force_ratio) == pytest.approx(new_force / old_force, rel=1e-6)
    assert float(done.fluid_ratio) == pytest.approx(area(new) / area(old), rel=1e-6)


@given(st.fractions(12, 40), st.fractions(12, 40), st.fractions(150, 400), st.fractions(150, 400))
def test_there_and_back_is_one(old: Fraction, new: Fraction, drum: Fraction, other: Fraction) -> None:
    """Changing to the other brakes and back changes nothing, exactly; what was left out is said."""
    there, back = rear_brake_ratio(old, new, drum, other), rear_brake_ratio(new, old, other, drum)
    assert there.torque_ratio * back.torque_ratio == 1
    assert there.road_force_ratio == there.torque_ratio
    assert len(there.remarks) == 2
    assert len(rear_brake_ratio(20, 22, 250, 250, 2, 3).remarks) == 1
    assert rear_brake_ratio(20, 22, 250, 250, 2, 3, 600, 600).remarks == ()


def test_half_a_pair_counts_as_none() -> None:
    """A function called with one of a pair alone takes both as equal, and says so."""
    both = rear_brake_ratio(20, 22, 250, 250)
    assert rear_brake_ratio(20, 22, 250, 250, 2, None, 600, None) == both
    assert rear_brake_ratio(20, 22, 250, 250, None, 2, None, 600) == both


@pytest.mark.independent("brake-share")
@given(st.floats(1, 99), st.floats(0.1, 10))
def test_the_odds_are_multiplied(share: float, ratio: float) -> None:
    """The logarithm of the odds of braking at the rear moves by the logarithm of the ratio."""
    wanted = scipy.special.expit(scipy.special.logit(share / 100) + math.log(ratio))
    assert float(brake_share(share, ratio).rear_share_after) == pytest.approx(100 * wanted)


@pytest.mark.independent("braking-weight-share")
@given(
    st.floats(500, 4000), st.floats(0.3, 0.7), st.floats(2000, 4000), st.floats(200, 900), st.floats(0, 0.6)
)
def test_a_braked_vehicle_is_in_balance(
    mass: float, share: float, base: float, height: float, braking: float
) -> None:
    """Forces and moments about the centre of gravity, with the braking at the road, solve to the same share."""
    behind = base * share
    equations = np.array([[1.0, 1.0], [behind, -(base - behind)]])
    front, rear = np.linalg.solve(equations, np.array([mass, braking * mass * height]))
    done = braking_weight_share(mass, share * mass, base, height, braking)
    assert float(done.rear_share) == pytest.approx(100 * rear / (front + rear))


@given(st.integers(0, 20000), st.integers(0, 20000))
def test_a_drum_wears_towards_its_limit(less: int, more: int) -> None:
    """A wider drum has less left, and is never back within a limit that it had passed."""
    less, more = sorted((less, more))
    one, other = (drum_wear(250, 250 + Fraction(wear, 5000), 254) for wear in (less, more))
    assert one.left_to_discard >= other.left_to_discard
    assert one.above_turning_limit <= other.above_turning_limit
    assert one.beyond_discard <= other.beyond_discard <= other.above_turning_limit


def test_the_figure_on_the_drum_wins() -> None:
    """With a figure off the drum nothing is assumed; without one the rule's is, and that is said."""
    assert drum_wear(250, 251, Fraction("252.5")).remarks == ()
    assert "as typed off the drum" in drum_wear(250, 251, Fraction("252.5")).limit
    assert "figure on the drum wins" in drum_wear(250, 251).remarks[0]
    assert "discard 252.286 mm, turning limit 251.524 mm" in drum_wear(250, 251).limit


@pytest.mark.independent("force-on-grade")
@given(st.floats(100, 5000), st.floats(0, 100))
def test_gravity_along_the_slope(mass: float, grade: float) -> None:
    """Gravity as a vector, projected on the slope, is the force; over its length it does the height's work."""
    slope = np.array([100.0, grade]) / math.hypot(100, grade)
    along = float(np.array([0.0, mass * 9.80665]) @ slope)
    done = force_on_grade(mass, grade)
    assert float(done.force) == pytest.approx(along, rel=1e-9, abs=1e-9)
    assert math.tan(math.radians(float(done.angle))) == pytest.approx(grade / 100)
    assert float(done.force) * math.hypot(100, grade) == pytest.approx(mass * 9.80665 * grade)


ABOVE, CANT_TELL, BEYOND = "above the turning limit", "gauge can't tell", "is beyond the discard diameter"


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        # Discard 254: the turning limit is 254 - 0.762 = 253.238. Both marks belong to the range.
        ("253.238", []),
        ("253.239", [ABOVE]),
        # A drum gauge tells a twentieth of a millimetre (common practice, no source), on both sides of the mark.
        ("253.949", [ABOVE]),
        ("253.95", [ABOVE, CANT_TELL]),
        ("254", [ABOVE, CANT_TELL]),
        ("254.05", [BEYOND, CANT_TELL]),
        ("254.051", [BEYOND]),
    ],
)
def test_what_is_said_at_the_marks_of_a_drum(measured: str, said: list[str]) -> None:
    """At, just above and just below each mark."""
    remarks = drum_wear(250, Fraction(measured), 254).remarks
    assert len(remarks) == len(said)
    assert all(words in remark for words, remark in zip(said, remarks, strict=True))
