"""Times against distributions integrated on a grid and simulated sums."""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.shopmath.times.times import learned_time, sum_of_times, three_point

hours = st.floats(0.1, 40)


@pytest.mark.independent("three-point")
@given(hours, hours, hours)
def test_three_points_have_the_mean_of_their_beta_distribution(a: float, b: float, c: float) -> None:
    """The beta distribution with its mode at the likely time, integrated by scipy, has the same mean."""
    short, likely, long = sorted((a, b, c))
    width = long - short
    if width < 0.01:
        return
    beta = scipy.stats.beta(1 + 4 * (likely - short) / width, 1 + 4 * (long - likely) / width, short, width)
    done = three_point(short, likely, long)
    assert float(done.mean) == pytest.approx(beta.expect(), rel=1e-4)
    assert short - 1e-9 <= done.mean <= long + 1e-9
    assert float(done.spread) * 6 == pytest.approx(width)


@pytest.mark.independent("learned-time")
@given(hours, st.floats(0.1, 1), st.floats(0.1, 1), st.lists(hours, min_size=1, max_size=5))
@settings(max_examples=40)
def test_what_was_learned_is_prior_times_likelihood(
    expected: float, doubt: float, scatter: float, seen: list[float]
) -> None:
    """On a fine grid of log medians, prior times likelihood has the same mean and spread."""
    done = learned_time(expected, doubt, scatter, seen)
    middle, spread = float(done.log_mean), float(done.log_spread)
    grid = np.linspace(middle - 9 * spread, middle + 9 * spread, 4001)
    weight = scipy.stats.norm.logpdf(grid, math.log(expected), doubt)
    for time in seen:
        weight = weight + scipy.stats.norm.logpdf(math.log(time), grid, scatter)
    share = np.exp(weight - weight.max())
    share = share / share.sum()
    assert float(share @ grid) == pytest.approx(middle, abs=1e-6)
    assert float(share @ (grid - middle) ** 2) == pytest.approx(spread**2, rel=1e-6)
    assert float(done.median) == pytest.approx(math.exp(middle))
    log_normal = scipy.stats.lognorm(math.hypot(scatter, spread), scale=math.exp(middle))
    assert [done.next_10, done.next_90] == pytest.approx(log_normal.ppf([0.1, 0.9]))


@given(hours, st.lists(hours, min_size=2, max_size=6))
def test_the_order_of_what_was_seen_does_not_matter(expected: float, seen: list[float]) -> None:
    """Times in any order teach the same, and one at a time the same as all together."""
    together = learned_time(expected, 0.4, 0.3, seen)
    assert learned_time(expected, 0.4, 0.3, seen[::-1]) == pytest.approx(together)
    median, doubt = expected, 0.4
    for time in seen:
        step = learned_time(median, doubt, 0.3, [time])
        median, doubt = float(step.median), float(step.log_spread)
    assert (median, doubt) == pytest.approx((float(together.median), float(together.log_spread)))


@pytest.mark.independent("sum-of-times")
@pytest.mark.parametrize(
    ("medians", "spreads", "correlation"),
    [
        ([2.0, 3.5, 1.25, 4.0], [0.4, 0.3, 0.5, 0.25], 0.3),
        ([1.0, 1.0, 1.0, 1.0], [0.5, 0.5, 0.5, 0.5], 0.0),
        ([110.0, 100.0], [0.25, 0.15], 0.0),
        ([3.0, 2.0], [0.3, 0.3], -0.5),
    ],
)
def test_simulated_sums_lie_where_told(
    medians: list[float], spreads: list[float], correlation: float
) -> None:
    """A million simulated sums have the mean and spread of the answer, and its tenths within the method's 0.5 %."""
    size = len(medians)
    covariance = np.outer(spreads, spreads) * (correlation + (1 - correlation) * np.eye(size))
    drawn = np.random.default_rng(11).multivariate_normal(np.log(medians), covariance, 1_000_000)
    sums = np.exp(drawn).sum(axis=1)
    done = [float(each) for each in sum_of_times(medians, spreads, correlation)[:3]]
    assert done == pytest.approx(list(np.quantile(sums, [0.5, 0.8, 0.9])), rel=0.005)
    answer = scipy.stats.lognorm(math.log(done[2] / done[0]) / scipy.stats.norm.ppf(0.9), scale=done[0])
    assert answer.mean() == pytest.approx(sums.mean(), rel=0.001)
    assert answer.std() == pytest.approx(sums.std(), rel=0.005)


@given(st.lists(st.tuples(hours, st.floats(0, 0.6)), min_size=1, max_size=5), st.floats(0, 1))
def test_a_sum_lies_above_its_medians(tasks: list[tuple[float, float]], correlation: float) -> None:
    """Half of the sums lie at or above the medians' sum; scaling every time scales the sum; order is free."""
    medians, spreads = [median for median, _ in tasks], [spread for _, spread in tasks]
    done = sum_of_times(medians, spreads, correlation)
    assert done.p50 >= sum(medians) * (1 - 1e-9)
    assert done.p50 <= done.p80 <= done.p90
    doubled = sum_of_times([2 * median for median in medians], spreads, correlation)
    assert doubled[:3] == pytest.approx([2 * float(each) for each in done[:3]])
    assert sum_of_times(medians[::-1], spreads[::-1], correlation)[:3] == pytest.approx(done[:3])


@given(hours, st.floats(0, 1.5))
def test_one_time_alone_keeps_its_own_spread(median: float, spread: float) -> None:
    """The sum of one is that one: its median and scipy's quantiles."""
    done = sum_of_times([median], [spread])
    wanted = [
        median,
        median * math.exp(0.8416212335729143 * spread),
        median * math.exp(1.2815515655446004 * spread),
    ]
    assert list(done[:3]) == pytest.approx(wanted)
    assert bool(done.remarks) == (spread > 0.5)


def test_times_that_go_together_reach_further() -> None:
    """With a correlation nine in ten stay below a higher figure than without."""
    apart, together = (sum_of_times([2, 2, 2], [0.4, 0.4, 0.4], r).p90 for r in (0, 0.5))
    assert together > apart


def test_a_spread_of_a_half_is_within_the_method() -> None:
    """The remark on wide spreads begins above 0.5, not at it."""
    assert sum_of_times([1], [0.5]).remarks == ()


def test_two_times_can_go_fully_against_each_other() -> None:
    """Two times may have any correlation from -1; equal ones then differ only by their curvature."""
    against, apart = (sum_of_times([2, 2], [0.2, 0.2], r) for r in (-1, 0))
    assert against.p90 < apart.p90
    assert sum_of_times([2], [0.2], -1) == sum_of_times([2], [0.2], 1)
