"""Measurement: what repeated readings say, and a value against its limits. Any one unit for all of them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    Number,
    WorkingOutError,
    at_least,
    at_most,
    gives,
    may_take,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.checks import not_below_zero, plain

COVERAGE = 2
"""k: expanded uncertainty is that many standard uncertainties, about 95 %."""

FEW_DEGREES = 20
"""Effective degrees of freedom below which k = 2 falls short of 95 % by more than 1 % (Student's t)."""


def largest_swing(number_at: Callable[[Fraction], Number | None], by: Fraction) -> float | None:
    """How far a number moves at most when one input is moved by `by`, both ways, wholly and half of the way.

    `number_at` gives the number for a move of the input; None: it can't be worked out there, so that the other
    side alone counts. None where no side is left.
    """
    here = number_at(Fraction(0))
    ends = [number_at(each) for each in (by, -by, by / 2, -by / 2)]
    return (
        max((abs(float(end - here)) for end in ends if end is not None), default=None)
        if here is not None
        else None
    )


class RepeatReadings(NamedTuple):
    """Mean and scatter (standard deviation of a single reading), and how sure the mean is."""

    mean: Number
    scatter: Number
    standard_uncertainty: Number
    expanded_uncertainty: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "repeat-readings",
    topic="measurement",
    inputs=[
        takes("readings", "list number"),
        takes("resolution", "number"),
        may_take("instrument_limit", "number"),
    ],
    results=gives(
        mean=shown("number", like="expanded_uncertainty"),
        scatter=shown("number", figures=2),
        standard_uncertainty=at_least("number", figures=2),
        expanded_uncertainty=at_least("number", figures=2),
    ),
    formula="standard uncertainty = root of (scatter squared / number, plus (resolution / (2 root 3)) squared, "
    "plus (instrument limit / root 3) squared); expanded = 2 times that",
    source="JCGM 100 (GUM) 4.2, 4.3 and 5, from memory; its worked examples reproduce",
    sentence="Mean {mean}, expanded uncertainty {expanded_uncertainty} (k = 2, JCGM 100).",
    example={"readings": "4.2, 4.3, 4.1, 4.3, 4.2", "resolution": "0.1", "instrument_limit": "0.2"},
    remarks=(
        "resolution is the display's step or the rule's spacing, instrument_limit the plus or minus of its maker.",
        "What is wrong in the same way in every reading (a crooked stand, a worn tape end) is not in it.",
    ),
)
def repeat_readings(
    readings: Sequence[Number], resolution: Number, instrument_limit: Number | None = None
) -> RepeatReadings:
    """u^2 = s^2/n + (d / 2)^2 / 3 + a^2 / 3, U = 2 u; s with n - 1, d resolution, a the instrument's limit.

    Resolution and limit count as rectangular. Source: JCGM 100 4.2, 4.3; its twenty temperatures and its
    rectangular limits are in the tests, simulated readings are the independent route.
    Refuses fewer than two readings, and a resolution or limit below 0. Few readings get a remark.
    """
    if len(readings) < 2:
        raise WorkingOutError("readings: one alone shows no scatter; give two or more, comma-separated")
    not_below_zero(resolution=resolution, instrument_limit=instrument_limit or 0)
    mean = sum(readings, Fraction(0)) / len(readings)
    scatter_2 = sum((each - mean) ** 2 for each in readings) / (len(readings) - 1)
    of_mean = scatter_2 / len(readings)
    total = of_mean + Fraction(resolution) ** 2 / 12 + Fraction(instrument_limit or 0) ** 2 / 3
    remarks = _few(of_mean, total, len(readings) - 1)
    uncertainty = math.sqrt(total)
    return RepeatReadings(mean, math.sqrt(scatter_2), uncertainty, COVERAGE * uncertainty, remarks)


def _few(of_mean: Number, total: Number, degrees: int) -> tuple[str, ...]:
    """What Welch and Satterthwaite's effective degrees of freedom ask to be said."""
    if of_mean == 0:
        return ()
    ratio = total / of_mean
    effective = degrees * ratio * ratio
    if effective >= FEW_DEGREES:
        return ()
    return (
        f"Few readings: {float(effective):.1f} effective degrees of freedom, so that k = 2 covers less than 95 %; "
        "read again.",
    )


class Verdict(NamedTuple):
    """Where a value lies, in the words of ISO 14253-1, and the chance that it is within."""

    verdict: str
    chance_within: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "verdict",
    topic="measurement",
    inputs=[
        takes("value", "number"),
        may_take("low", "number"),
        may_take("high", "number"),
        takes("uncertainty", "number"),
    ],
    results=gives(verdict="text", chance_within=at_most("ratio", step=A_HUNDREDTH, against=("0", "1"))),
    formula="within when the value lies inside the limits by the expanded uncertainty, outside when it lies "
    "outside them by more than that, else too close to call; chance by the normal distribution",
    source="ISO 14253-1 as summarised in copies (guard band as wide as the expanded uncertainty, k = 2; its "
    "2017 edition guards by about 1.65 standard uncertainties, from memory); JCGM 106 clause 7, from memory",
    sentence="{value} with an uncertainty of {uncertainty}, limits as typed {low} to {high}: {verdict}; "
    "chance of being within {chance_within}.",
    example={"value": "2.85 deg", "low": "0.5 deg", "high": "3 deg", "uncertainty": "0.2 deg"},
    remarks=("uncertainty is the expanded one, k = 2, of the value and its limits together.",),
)
def verdict(
    value: Number, uncertainty: Number, low: Number | None = None, high: Number | None = None
) -> Verdict:
    """within, outside or too close to call against low and high, both inclusive; and the chance of within.

    Guard band as wide as the expanded uncertainty U (k = 2); chance = Phi((high - y) / u) - Phi((low - y) / u),
    u = U / 2. Source: ISO 14253-1 and JCGM 106; two of the latter's examples are in the tests, the independent
    routes are scipy's normal distribution and a simulation. Where U leaves no room between the guards only
    outside can be shown, and a remark says so.
    Refuses an uncertainty below 0, no limit at all, and low not below high.
    """
    not_below_zero(uncertainty=uncertainty)
    if low is None and high is None:
        raise WorkingOutError("low: missing, and high too; give at least one of them")
    if low is not None and high is not None and low >= high:
        raise WorkingOutError(f"low: {plain(low)} is not below high of {plain(high)}; give a lower one")
    room = low is None or high is None or 2 * uncertainty < high - low
    chance = _chance(value, low, high, uncertainty / COVERAGE)
    remark = "No room is left between the guards: with this uncertainty only outside can be shown."
    return Verdict(_word(value, low, high, uncertainty, room), chance, () if room else (remark,))


def _word(value: Number, low: Number | None, high: Number | None, guard: Number, room: bool) -> str:
    below = low is not None and value < low - guard
    above = high is not None and value > high + guard
    if below or above:
        return "outside"
    inside_low = low is None or value >= low + guard
    inside_high = high is None or value <= high - guard
    return "within" if room and inside_low and inside_high else "too close to call"


def _chance(value: Number, low: Number | None, high: Number | None, deviation: Number) -> float:
    """By tails, so that a chance near 0 or 1 keeps its digits."""
    if deviation == 0:
        return float((low is None or value >= low) and (high is None or value <= high))
    to_low = math.inf if low is None else float((value - low) / deviation)
    to_high = math.inf if high is None else float((high - value) / deviation)
    near, far = min(to_low, to_high), max(to_low, to_high)
    return _tail(-near) - _tail(far)


def _tail(deviations: float) -> float:
    """The chance of lying more than so many standard deviations above the middle."""
    return math.erfc(deviations / math.sqrt(2)) / 2
