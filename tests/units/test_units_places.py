"""What the writing of a number leaves open: half of its last place."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.units import read
from jobtrack.units.typed.half_place import half_a_place


@pytest.mark.parametrize(
    ("text", "unit", "half"),
    [
        ("1020 mm", "mm", "0.5"),  # read off a tape: half a millimetre
        ("100 kg", "kg", "0.5"),  # noughts at the end count as written: not 50 kg
        ("0.50", None, "0.005"),
        ("2,85 deg", "deg", "0.005"),  # a decimal comma
        (".5", "mm", "0.05"),
        ("-130", "mm", "0.5"),
        ("~12.5 mm", "mm", "0.05"),
        ("3.1 m", "mm", "50"),  # a tenth of a metre is 100 mm
        ("8 kN", "N", "500"),
        ("10.062 in", "mm", "0.0127"),  # half a thou
        ("3 ft 2.5 in", "in", "0.05"),
        ("12° 30'", "deg", "1/120"),  # half a minute of arc
        ("30 %", "percent", "0.5"),
        ("20 °C", "°C", "0.5"),  # a difference, not an amount from absolute zero
        ("30 kg/mm2", "kg", "0"),  # refused by the reader, so nothing
    ],
)
def test_half_of_the_last_place(text: str, unit: str | None, half: str) -> None:
    """Worked out by hand: half of what the last digit is worth, in the unit asked for."""
    assert half_a_place(text, unit) == Fraction(half)


@pytest.mark.parametrize(
    ("text", "unit"),
    [("3 1/8 in", "mm"), ("15/16 in", "mm"), ("3⅛ in", "mm"), ("7 in", "mm"), ("4\"", "mm"), ("1:30", "h"),
     ("3 ft 2 in", "mm"), ("seized", "mm"), ("10..12", "mm"), (">5 mm", "mm")],
)  # fmt: skip
def test_what_is_no_decimal_leaves_nothing_open(text: str, unit: str) -> None:
    """A fraction, whole inches (a fraction with nothing left over), a clock, and what is no one number."""
    assert half_a_place(text, unit) == 0


@given(st.decimals(0, 10**6, places=3), st.integers(0, 3), st.sampled_from(("", " mm", " cm", " m")))
def test_no_number_that_would_be_written_so_lies_further_off(number: object, places: int, unit: str) -> None:
    """Whatever is rounded to these places and then typed lies within half a place of what was read."""
    text = f"{number:.{places}f}"
    read_back = read(f"{text}{unit}", "mm").value
    exactly = (
        read(f"{number:.3f}{unit}".replace(" ", "0 "), "mm").value
        if unit
        else read(f"{number:.3f}0", "mm").value
    )
    assert read_back is not None
    assert exactly is not None
    assert abs(exactly - read_back) <= half_a_place(f"{text}{unit}", "mm")
