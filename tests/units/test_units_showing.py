"""How values are shown. Converted figures: arithmetic only, from 1 in = 25.4 mm and the like."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.units import both, show
from jobtrack.units.conversion import between
from jobtrack.units.names import find


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (1012, "mm", "1012 mm"),
        (1012.0, "mm", "1012 mm"),
        (23.5, "mm", "23.5 mm"),
        (0.1 + 0.2, "mm", "0.3 mm"),
        (Fraction(607, 16), "in", "37.9375 in"),
        (Fraction(1, 3), "mm", "0.3333 mm"),
        (math.pi * 1000, "mm", "3141.5927 mm"),
        (0.000012345678, "mm", "0.00001235 mm"),
        (-0.0, "mm", "0 mm"),
        (-2.5, "°", "-2.5 deg"),
        (55, "N*m", "55 N·m"),
        (0.5, "ratio", "0.5"),
        (12, "percent", "12 %"),
        (6, None, "6"),
        (300, "mm^2", "300 mm²"),
        (5, "smoots", "5 smoots"),
        (math.nan, "mm", "no number mm"),
    ],
)
def test_show(value: Fraction | float, unit: str | None, text: str) -> None:
    """A value is shown without binary noise or trailing noughts, its unit in one spelling."""
    assert show(value, unit) == text


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (3.14159, 1, "3.1 deg"),
        (3.0, 2, "3 deg"),
        (-0.04, 1, "0 deg"),
        (2.96, 1, "3 deg"),
        (12.5, 0, "12 deg"),
    ],
)
def test_show_rounded(value: float, digits: int, text: str) -> None:
    """A value is rounded to the decimals asked for (half to even), and minus nought is nought."""
    assert show(value, "deg", digits) == text


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (965, "mm", "965 mm = 37.99 in (37 63/64)"),
        (Fraction("965.2"), "mm", "965.2 mm = 38 in"),
        (23.5, "mm", "23.5 mm = 0.925 in (59/64)"),
        (-23.5, "mm", "-23.5 mm = -0.925 in (-59/64)"),
        (0.1016, "mm", "0.1016 mm = 0.004 in"),
        (Fraction(607, 16), "in", "37.9375 in = 963.6125 mm (37 15/16)"),
        (55, "N*m", "55 N·m = 40.6 lbf ft"),
        (2, "N*m", "2 N·m = 17.7 lbf in"),
        (40, "ft lb", "40 lbf ft = 54.2 N·m"),
        (8, "in-lb", "8 lbf in = 0.9 N·m"),
        (1000, "kg", "1000 kg = 2205 lb"),
        (780, "kg", "780 kg = 1720 lb"),
        (100, "kg", "100 kg = 220 lb"),
        (80, "psi", "80 psi = 552 kPa"),
        (8, "kg", "8 kg = 17.6 lb"),
        (90, "km/h", "90 km/h = 55.9 mph"),
        (220, "kPa", "220 kPa = 31.9 psi"),
        (20, "°C", "20 °C = 68 °F"),
        (3.5, "L", "3.5 L = 0.92 US gal"),
        (2.5, "deg", "2.5 deg"),
        (6, None, "6"),
        (5, "smoots", "5 smoots"),
        (0, "mm", "0 mm = 0 in"),
    ],
)
def test_both_systems(value: Fraction | float, unit: str | None, text: str) -> None:
    """A value is shown in both unit systems, inches with the nearest 64th too; an angle stands alone."""
    assert both(value, unit) == text


@pytest.mark.parametrize("unit", ["kg", "lb", "N*m", "kPa", "bar", "psi", "km/h", "mm"])
@given(written=st.integers(1, 10**6), places=st.integers(0, 2))
def test_no_more_figures_than_were_written(unit: str, written: int, places: int) -> None:
    """One more at most (NIST SP 1038, 4.4), or three, or a whole number; off by half a place at most."""
    value = Fraction(written, 10**places)
    first, _, there = both(value, unit).partition(" = ")
    said, figures = there.split(" ")[0], len(first.split(" ")[0].replace(".", "").lstrip("0"))
    assert "." not in said or len(said.replace(".", "").lstrip("0")) <= max(3, figures + 1)
    converted = between(value, find(unit), find(there.split(" (")[0].partition(" ")[2]))
    assert abs(Fraction(said) - converted) <= Fraction(1, 2 * 10 ** len(said.partition(".")[2]))
