"""The torque of each stage in both units, beside exact factors and the library pint; whose figure it is."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.job.compose import values
from jobtrack.job.values.stage_torque import known_figure, setting, stage_torque
from jobtrack.template.model import Torque
from tests.job.doing.rig import STEP, rig
from tests.support.other_units import registry

LINE = Torque(bolts=4, stages=(30, 60, 100))
FT_LB = Fraction("0.3048") * Fraction("0.45359237") * Fraction("9.80665")
"""1 lbf ft in N·m: NIST SP 811 (2008), appendix B, from the exact foot, pound and standard gravity."""
WRENCH = Fraction(4, 100)
"""Type II class A above 10 N·m: a maker's summary of ISO 6789 (2003). Found."""


@pytest.mark.parametrize(
    ("whole", "stage", "words", "other"),
    [
        (110, 1, "33 N·m", "24 lbf ft"),
        (110, 2, "66 N·m", "49 lbf ft"),
        (110, 3, "110 N·m", "81 lbf ft"),
        (55, 1, "16.5 N·m", "12.2 lbf ft"),
        (12.5, 3, "12.5 N·m", "9.2 lbf ft"),
        (70 * FT_LB, 3, "95 N·m", "70 lbf ft"),
        (70 * FT_LB, 1, "28 N·m", "21 lbf ft"),
        (0, 1, "0 N·m", "0 lbf ft"),
    ],
)
def test_a_stage_in_both_units(whole: float | Fraction, stage: int, words: str, other: str) -> None:
    """By hand from the exact factor: 33 N·m / 1.3558 = 24.34; the last stage as it was given."""
    assert setting(LINE, stage, whole).words() == words
    assert setting(LINE, stage, whole, "lbf ft").words() == other


@given(st.integers(1, 3), st.fractions(2, 600, max_denominator=100), st.sampled_from(["N*m", "lbf ft"]))
def test_a_stage_is_said_as_near_as_a_wrench_tells(stage: int, whole: Fraction, unit: str) -> None:
    """pint's exact share and conversion; what is said lies within 2.5 % of it, inside what a wrench may be off."""
    exact = registry(non_int_type=Fraction).Quantity(whole * [30, 60, 100][stage - 1] / 100, "newton * meter")
    there = exact.to("foot * force_pound" if unit == "lbf ft" else "newton * meter").magnitude
    said = setting(LINE, stage, whole, unit).rounded
    assert stage_torque(LINE, stage, whole) == exact.magnitude
    assert abs(said - there) <= Fraction(25, 1000) * there < WRENCH * there


def test_a_line_without_stages_has_the_whole_figure() -> None:
    """Its one stage."""
    assert stage_torque(Torque(bolts=2), 1, 110) == 110


def test_whose_figure() -> None:
    """The template's with its source; a given's once somebody said it; else it isn't known, and never worked out."""
    copy = rig()
    here = copy.job.steps[STEP]
    found = known_figure(copy.job.now, here, "studs")
    assert found is not None
    assert (found.value, found.source) == (81 * FT_LB, "the maker of the hub")
    assert known_figure(copy.job.now, here, "ubolts") is None
    assert known_figure(copy.job.now, here, "asked") is None
    copy.call(STEP, lambda draft: values.given(draft, "u-bolt-figure", "70 ft lb"))
    held = known_figure(copy.job.now, here, "ubolts")
    assert held is not None
    assert held.given is not None
    assert (round(float(held.value), 3), held.given.name) == (94.907, "u-bolt-figure")
    copy.call(STEP, lambda draft: values.given(draft, "u-bolt-figure", "?"))
    assert known_figure(copy.job.now, here, "ubolts") is None
