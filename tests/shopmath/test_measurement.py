"""Measurement against numpy, scipy's distributions and simulated readings."""

from __future__ import annotations

import itertools
from fractions import Fraction

import numpy as np
import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.measurement.measurement import repeat_readings, verdict

readings = st.lists(st.floats(-1000, 1000), min_size=2, max_size=12)
WORDS = {"within", "outside", "too close to call"}


@given(readings, st.floats(0, 5), st.floats(0, 5))
def test_scatter_and_uncertainty_are_numpys(values: list[float], step: float, limit: float) -> None:
    """Mean and scatter are numpy's; resolution and limit add the variances of scipy's uniform distributions."""
    done = repeat_readings(values, step, limit)
    parts = [np.var(values, ddof=1) / len(values)]
    parts += [scipy.stats.uniform(-half, 2 * half).var() for half in (step / 2, limit) if half > 1e-6]
    assert float(done.mean) == pytest.approx(np.mean(values), abs=1e-9)
    assert float(done.scatter) == pytest.approx(np.std(values, ddof=1), abs=1e-6)
    assert float(done.standard_uncertainty) == pytest.approx(np.sqrt(sum(parts)), abs=1e-5)
    assert done.expanded_uncertainty == 2 * done.standard_uncertainty


@pytest.mark.independent("repeat-readings")
def test_simulated_means_scatter_as_told() -> None:
    """100,000 shops each take 5 readings with one instrument of their own: their means scatter by u."""
    chance = np.random.default_rng(20)
    shops = 100_000
    own = chance.uniform(-0.2, 0.2, (shops, 1)) + chance.uniform(-0.05, 0.05, (shops, 1))
    means = (chance.normal(4, 0.1, (shops, 5)) + own).mean(axis=1)
    values = [4 + d * Fraction("0.1") for d in (-1, -1, 0, 1, 1)]
    done = repeat_readings(values, Fraction("0.1"), Fraction("0.2"))
    assert float(done.scatter) == pytest.approx(0.1)
    assert float(done.standard_uncertainty) == pytest.approx(float(means.std()), rel=0.01)


@given(readings)
def test_readings_in_another_unit(values: list[float]) -> None:
    """In inches everything is a 25.4th of what it is in millimetres."""
    inch = Fraction("25.4")
    exact = [Fraction(value) for value in values]
    one, other = (
        repeat_readings(exact, 1, 2),
        repeat_readings([each / inch for each in exact], 1 / inch, 2 / inch),
    )
    assert one.mean == other.mean * inch
    assert float(one.standard_uncertainty) == pytest.approx(float(other.standard_uncertainty) * 25.4)


@pytest.mark.parametrize(
    ("values", "few"), [([1, 2], True), ([1, 2, 3], True), ([1, 1, 1], False), (list(range(21)), False)]
)
def test_few_readings_are_said(values: list[int], few: bool) -> None:
    """Where Student's t asks for more than k = 2 gives, a remark says so; without scatter nothing is asked."""
    assert bool(repeat_readings(values, Fraction("0.1")).remarks) == few


def test_effective_degrees_of_freedom() -> None:
    """Two readings far apart have one degree of freedom; as much again from the instrument makes it four."""
    assert "1.0 effective degrees" in repeat_readings([1, 2], 0).remarks[0]
    assert "4.0 effective degrees" in repeat_readings([0, 2], 0, Fraction(3) ** Fraction(1, 2)).remarks[0]
    assert repeat_readings([1, 2], 0, 4).remarks == ()
    assert "19.0 effective degrees" in repeat_readings(range(20), 0).remarks[0]
    assert repeat_readings(range(21), 0).remarks == ()


@given(st.floats(-5, 5), st.floats(-3, 0), st.floats(0.1, 3), st.floats(0.01, 3))
def test_the_chance_is_scipys(value: float, low: float, width: float, doubt: float) -> None:
    """The chance of being within is the area of scipy's normal distribution between the limits."""
    normal = scipy.stats.norm(value, doubt / 2)
    done = verdict(value, doubt, low, low + width)
    assert float(done.chance_within) == pytest.approx(normal.cdf(low + width) - normal.cdf(low), abs=1e-12)
    assert float(verdict(value, doubt, low).chance_within) == pytest.approx(normal.sf(low))
    assert float(verdict(value, doubt, None, low).chance_within) == pytest.approx(normal.cdf(low))
    assert done.verdict in WORDS


@pytest.mark.independent("verdict")
@pytest.mark.parametrize("value", [-0.3, 0.05, 0.5, 1.1])
def test_simulated_true_values_are_within_as_often(value: float) -> None:
    """Of 200,000 true values around the reading as many lie within as the chance says."""
    drawn = np.random.default_rng(7).normal(value, 0.2, 200_000)
    share = float(((drawn >= 0) & (drawn <= 1)).mean())
    assert float(verdict(value, 0.4, 0, 1).chance_within) == pytest.approx(share, abs=0.004)


def by_intervals(value: Fraction, low: Fraction | None, high: Fraction | None, doubt: Fraction) -> str:
    """The verdict from where the interval of value and doubt lies, without any guard band."""
    first, last = value - doubt, value + doubt
    if (low is not None and last < low) or (high is not None and first > high):
        return "outside"
    inside = (low is None or first >= low) and (high is None or last <= high)
    room = low is None or high is None or high - low > 2 * doubt
    return "within" if inside and room else "too close to call"


GRID = [Fraction(n, 4) for n in range(-8, 13)]


@pytest.mark.parametrize("doubt", [Fraction(0), Fraction(1, 4), Fraction(1, 2), Fraction(1)])
def test_verdicts_by_intervals(doubt: Fraction) -> None:
    """On a grid of quarters, every limit met exactly, the verdict follows from the interval of the value."""
    for value, (low, high) in itertools.product(GRID, [(0, 1), (0, None), (None, 1), (0, Fraction(1, 2))]):
        limits = [None if each is None else Fraction(each) for each in (low, high)]
        assert verdict(value, doubt, *limits).verdict == by_intervals(value, limits[0], limits[1], doubt)


def test_no_room_between_the_guards_is_said() -> None:
    """Where the guards meet nothing can be shown within, even in the middle, and a remark says so."""
    assert verdict(1, 1, 0, 2).verdict == "too close to call"
    assert verdict(4, 1, 0, 2).verdict == "outside"
    for value in (-2, 1, 4):
        assert "No room is left between the guards" in verdict(value, 1, 0, 2).remarks[0]
    roomy = verdict(1, Fraction("0.999"), 0, 2)
    assert (roomy.verdict, roomy.remarks) == ("within", ())
    assert float(roomy.chance_within) == pytest.approx(0.9547, abs=1e-3)


def test_without_doubt_the_limits_decide() -> None:
    """With an uncertainty of 0 the limits are inclusive and the chance is 0 or 1."""
    assert verdict(1, 0, 0, 1)[:2] == ("within", 1)
    assert verdict(0, 0, 0)[:2] == ("within", 1)
    assert verdict(Fraction(-1, 10**9), 0, 0)[:2] == ("outside", 0)
    assert verdict(2, 0, None, 1)[:2] == ("outside", 0)


def test_a_tiny_chance_keeps_its_digits() -> None:
    """Far outside, the chance is small and not 0, on either side: 10 standard uncertainties give 7.62e-24."""
    for value, low, high in ((20, 0, 10), (-10, 0, 10)):
        assert float(verdict(value, 2, low, high).chance_within) == pytest.approx(
            scipy.stats.norm.sf(10), rel=1e-9
        )
