"""Times: estimates of labour hours, what was seen of them, and their sum. Hours; log means natural logarithm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from statistics import NormalDist
from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, may_take, takes, working_out
from jobtrack.shopmath.checks import above_zero, between, not_below_zero, plain

Z80, Z90 = NormalDist().inv_cdf(0.8), NormalDist().inv_cdf(0.9)
"""Standard normal: four and nine in ten lie below."""

WIDEST = 5
"""Log standard deviation: one in six would take 150 times the median or more; beyond it is a slip."""


class ThreePoint(NamedTuple):
    """Mean and standard deviation, h."""

    mean: Number
    spread: Number


@working_out(
    "three-point",
    topic="times",
    inputs=[takes("short", "h"), takes("likely", "h"), takes("long", "h")],
    results=gives(mean="h", spread="h"),
    formula="mean = (short + 4 likely + long) / 6; spread = (long - short) / 6",
    source="three-point estimate as in a management-science textbook (flylib.com) and a calculator page",
    sentence="{short}, {likely}, {long}: mean {mean}, spread {spread}; no limit applies.",
    example={"short": "4", "likely": "6", "long": "12"},
    remarks=("A mean, not a promise: about half of such jobs take longer.",),
)
def three_point(short: Number, likely: Number, long: Number) -> ThreePoint:
    """(a + 4 m + b) / 6 and (b - a) / 6, h.

    Source: textbook; its seven activities are in the tests, and the beta distribution's mean by integration is
    the independent route. Refuses times not above 0, and an order other than short, likely, long.
    """
    above_zero(short=short, likely=likely, long=long)
    if likely < short:
        raise WorkingOutError(
            f"likely: {plain(likely)} h is below the short time of {plain(short)} h; give that or more"
        )
    if long < likely:
        raise WorkingOutError(
            f"long: {plain(long)} h is below the likely time of {plain(likely)} h; give that or more"
        )
    return ThreePoint((short + 4 * likely + long) / 6, (long - short) / 6)


class LearnedTime(NamedTuple):
    """The median as it is now known, h, its log mean and log spread, and the next job's tenths, h."""

    median: Number
    log_mean: Number
    log_spread: Number
    next_10: Number
    next_90: Number


@working_out(
    "learned-time",
    topic="times",
    inputs=[
        takes("expected", "h"),
        takes("doubt", "ratio"),
        takes("scatter", "ratio"),
        takes("seen", "list h"),
    ],
    results=gives(median="h", log_mean="ratio", log_spread="ratio", next_10="h", next_90="h"),
    formula="on logarithms: precision = 1 / doubt squared + number seen / scatter squared; mean = expected and "
    "seen, weighted by their precisions; next job = mean plus or minus 1.2816 root of (scatter squared + "
    "1 / precision)",
    source="normal prior with known spread, Bayes Rules! chapter 5 (study notes); repair times as log-normal, "
    "MIL-HDBK-338B 5.6.2.1 (a copy)",
    sentence="Expected {expected}, seen {seen}: median {median}; of the next jobs one in ten below {next_10}, "
    "nine in ten below {next_90}.",
    example={"expected": "3", "doubt": "0.4", "scatter": "0.3", "seen": "3.5, 5, 4.2"},
    remarks=(
        "doubt and scatter are spreads of the logarithm: 0.3 is about a third more or a quarter less.",
        "Jobs on one rusty vehicle go together; the next may be of another kind.",
    ),
)
def learned_time(expected: Number, doubt: Number, scatter: Number, seen: Sequence[Number]) -> LearnedTime:
    """Posterior of the log median: 1/v = 1/t^2 + n/s^2, mean = v (ln expected / t^2 + sum ln seen / s^2).

    t doubt of the expected median, s scatter of single jobs, both log standard deviations; the next job has
    variance s^2 + v. Source: Bayes Rules! 5 and MIL-HDBK-338B; the former's example is in the tests, prior times
    likelihood on a grid is the independent route. Order of what was seen doesn't matter.
    Refuses times not above 0, a doubt or scatter not above 0 or above 5, and nothing seen.
    """
    above_zero(expected=expected)
    for key, spread in (("doubt", doubt), ("scatter", scatter)):
        above_zero(**{key: spread})
        between(key, spread, 0, WIDEST)
    for time in seen:
        above_zero(seen=time)
    if not seen:
        raise WorkingOutError("seen: empty; give at least one time in h")
    prior, each = 1 / float(doubt) ** 2, 1 / float(scatter) ** 2
    precision = prior + len(seen) * each
    mean = (prior * math.log(expected) + each * math.fsum(math.log(time) for time in seen)) / precision
    ahead = Z90 * math.sqrt(float(scatter) ** 2 + 1 / precision)
    return LearnedTime(
        math.exp(mean), mean, 1 / math.sqrt(precision), math.exp(mean - ahead), math.exp(mean + ahead)
    )


class SumOfTimes(NamedTuple):
    """The time that half, four in five and nine in ten stay below, h."""

    p50: Number
    p80: Number
    p90: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "sum-of-times",
    topic="times",
    inputs=[
        takes("medians", "list h"),
        takes("log_spreads", "list ratio"),
        may_take("correlation", "ratio", 0, nominal=True),
    ],
    results=gives(p50="h", p80="h", p90="h"),
    formula="a log-normal with the mean and the variance of the sum: M = sum of median e^(s^2/2), V = sum over "
    "pairs of E E (e^(correlation s s) - 1); then median e^(z s) with z 0, 0.8416, 1.2816",
    source="Fenton 1960 as coded in a public library (stochprofML), with correlation from memory",
    sentence="Medians {medians}: half of such sums stay below {p50}, four in five below {p80}, nine in ten below "
    "{p90}.",
    example={"medians": "2, 3.5, 1.25, 4", "log_spreads": "0.4, 0.3, 0.5, 0.25", "correlation": "0.3"},
    remarks=(
        "The median of a sum lies above the sum of the medians.",
        "Tasks on one rusty vehicle go together: with correlation 0 the high figures come out too low.",
    ),
)
def sum_of_times(
    medians: Sequence[Number], log_spreads: Sequence[Number], correlation: Number = 0
) -> SumOfTimes:
    """Sum of log-normal times by matched moments: s^2 = ln(1 + V / M^2), m = ln M - s^2 / 2; e^(m + z s), h.

    Source: Fenton 1960, in copies; simulated sums are the independent route. Holds for log spreads up to about
    0.5 in the upper tail. Refuses times not above 0, spreads below 0 or above 5, lists of different length, and a
    correlation outside -1 / (n - 1) to 1 (no such times exist). A spread above 0.5 gets a remark.
    """
    _refuse_odd(medians, log_spreads, correlation)
    spreads = [float(spread) for spread in log_spreads]
    means = [float(median) * math.exp(spread**2 / 2) for median, spread in zip(medians, spreads, strict=True)]
    total = math.fsum(means)
    variance = math.fsum(
        means[i] * means[j] * math.expm1((1 if i == j else float(correlation)) * spreads[i] * spreads[j])
        for i in range(len(means))
        for j in range(len(means))
    )
    spread_2 = math.log1p(variance / total**2)
    median, spread = total * math.exp(-spread_2 / 2), math.sqrt(spread_2)
    remark = "A log spread above 0.5: matched moments were found good up to about that."
    remarks = (remark,) if max(spreads) > 0.5 else ()
    return SumOfTimes(median, median * math.exp(Z80 * spread), median * math.exp(Z90 * spread), remarks)


def _refuse_odd(medians: Sequence[Number], log_spreads: Sequence[Number], correlation: Number) -> None:
    for median in medians:
        above_zero(medians=median)
    for spread in log_spreads:
        not_below_zero(log_spreads=spread)
        between("log_spreads", spread, 0, WIDEST)
    if not medians or len(medians) != len(log_spreads):
        raise WorkingOutError(
            f"log_spreads: {len(log_spreads)} given for {len(medians)} medians; give one for each median"
        )
    lowest = Fraction(-1, max(len(medians) - 1, 1))
    if not lowest <= correlation <= 1:
        raise WorkingOutError(
            f"correlation: {plain(correlation)} is none that {len(medians)} times can have with each other; "
            f"give {plain(lowest)} to 1"
        )
