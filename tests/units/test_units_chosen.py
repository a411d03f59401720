"""Figures in the unit system that is shown: the right unit, the right number, and on the right side of each limit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.units.beside import around_target, between_limits
from jobtrack.units.chosen import METRIC, METRIC_FIRST, US, Chosen, in_unit, spoken
from jobtrack.units.rounding import Figure, as_typed, figure
from tests.support.other_units import registry

US_FIRST = Chosen(US)
OF_PINT = {
    "mm": "millimeter", "in": "inch", "m": "meter", "ft": "foot", "kg": "kilogram", "lb": "pound", "N": "newton",
    "lbf": "pound_force", "N·m": "newton*meter", "lbf ft": "foot*pound_force", "lbf in": "inch*pound_force",
    "kPa": "kilopascal", "bar": "bar", "psi": "psi", "km/h": "kilometer/hour", "mph": "mile/hour",
    "L": "liter", "US gal": "gallon", "MPa": "megapascal", "ksi": "kilopound_force_per_square_inch",
}  # fmt: skip
"""Our units by the names of pint, an independent library."""


def rounded(one: Figure | None) -> Fraction:
    """A figure as it is said."""
    assert one is not None
    return one.rounded


HUNDREDTHS = st.integers(-500_000, 500_000).map(lambda whole: Fraction(whole, 100))


@pytest.mark.parametrize("unit", ["mm", "m", "kg", "N", "N*m", "kPa", "bar", "km/h", "L", "MPa"])
@given(value=st.integers(1, 10**6).map(lambda whole: whole / 100))
def test_a_number_is_the_same_amount_there(unit: str, value: float) -> None:
    """A typed number in US units is within half of its last place of what pint gives, and the other way back."""
    one = as_typed(value, unit)
    there = US_FIRST.figure(one)
    assert there.unit is not None
    theirs = (
        registry().Quantity(value, OF_PINT[{"N*m": "N·m"}.get(unit, unit)]).to(OF_PINT[there.unit]).magnitude
    )
    assert abs(float(there.rounded) - theirs) <= float(there.step) / 2 * (1 + 1e-9) + 1e-9 * theirs
    assert Chosen(METRIC).unit(there.unit) in (unit, "N·m", "m", "mm", "kPa")


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (965, "mm", "37.99 in (37 63/64, 965 mm)"),
        (33, "N*m", "24.3 lbf ft (33 N·m)"),
        (2, "N*m", "17.7 lbf in (2 N·m)"),
        (35, "kg", "77.2 lb (35 kg)"),
        (20, "°C", "68 °F (20 °C)"),
        (2.5, "deg", "2.5 deg"),
        (12, None, "12"),
        (38, "in", "38 in (965.2 mm)"),
    ],
)
def test_us_first_with_the_other_in_brackets(value: float, unit: str | None, words: str) -> None:
    """By hand: 965/25.4 = 37.992, 33/1.35582 = 24.34, 2/0.112985 = 17.70, 35/0.453592 = 77.16, 20·9/5 + 32 = 68."""
    assert US_FIRST.words(as_typed(value, unit)) == words


@pytest.mark.parametrize(
    ("room", "words"),
    [
        (27, "37.99 in (37 63/64, 965 mm)"),
        (26, "37.99 in (37 63/64)"),
        (17, "37.99 in (965 mm)"),
        (16, "37.99 in"),
    ],
)
def test_brackets_only_where_there_is_room(room: int, words: str) -> None:
    """The 64th goes before the other system; the figure itself always stands."""
    assert US_FIRST.words(as_typed(965, "mm"), room) == words


def test_a_64th_only_within_the_doubt() -> None:
    """23.5 mm is 0.92520 in and 59/64 is 0.92188 in: 0.0843 mm off, so not said of a caliper of ± 0.05 mm."""
    assert US_FIRST.words(as_typed(23.5, "mm"), None, 0.1) == "0.925 in (59/64, 23.5 mm)"
    assert US_FIRST.words(as_typed(23.5, "mm"), None, 0.05) == "0.925 in (23.5 mm)"


def test_what_is_of_the_system_already_stays() -> None:
    """Metric first leaves millimetres alone, US first leaves inches as they were typed."""
    assert METRIC_FIRST.figure(as_typed(965, "mm")).words() == "965 mm"
    assert US_FIRST.figure(as_typed(Fraction(607, 16), "in")).words() == "37.9375 in"
    assert METRIC_FIRST.turned.turned == METRIC_FIRST


def test_an_echo_has_both_systems_the_chosen_one_first() -> None:
    """What was typed stands there in both whichever is chosen."""
    assert METRIC_FIRST.both(965, "mm") == "965 mm = 37.99 in (37 63/64)"
    assert US_FIRST.both(965, "mm") == "37.99 in (37 63/64) = 965 mm"
    assert US_FIRST.in_both(figure(963.6125, "mm")) == "37.94 in (37 15/16) = 963.6 mm"


@pytest.mark.parametrize(
    ("low", "high", "own", "unit", "words"),
    [
        (54, 56, "N*m", "ft lb", "39.9 to 41.3 lbf ft"),
        (None, 0.5, "mm", "in", "at most 0.019 in"),
        (12, None, "mm", "in", "at least 0.48 in"),
        (22.5, 24.5, "mm", "in", "0.886 to 0.964 in"),
        (50, 50, "mm", "in", "1.97 in"),
    ],
)
def test_limits_are_rounded_to_the_cautious_side(
    low: float | None, high: float | None, own: str, unit: str, words: str
) -> None:
    """By hand: 54/1.35582 = 39.83 up, 56/1.35582 = 41.30 down; 0.5/25.4 = 0.0197 down; 12/25.4 = 0.4724 up."""
    assert between_limits(None, low, high, own, unit).wanted() == words


def test_a_tolerance_is_drawn_in() -> None:
    """23.5 ± 1 mm is 0.92520 ± 0.03937 in: 0.925 ± 0.039 lies inside of it."""
    assert around_target(None, 23.5, 1, "mm", "in").wanted() == "0.925 ± 0.039 in"


@given(HUNDREDTHS, HUNDREDTHS, st.integers(1, 5000))
def test_a_value_lies_as_said_where_it_lies(value: Fraction, low: Fraction, apart: int) -> None:
    """Beside its limits in inches no value is said on another side than it is, and no limit is said wider."""
    high = low + Fraction(apart, 100)
    said = between_limits(as_typed(value, "mm"), low, high, "mm", "in")
    there, first, last = (rounded(one) for one in (said.value, said.low, said.high))
    assert (there >= first) == (value >= low)
    assert (there <= last) == (value <= high)
    assert first * Fraction("25.4") >= low
    assert last * Fraction("25.4") <= high


@given(HUNDREDTHS, HUNDREDTHS, st.integers(1, 5000))
def test_a_value_lies_as_said_around_a_target(value: Fraction, target: Fraction, hundredths: int) -> None:
    """The same where a target and its tolerance are said, as typed in inches too."""
    off = Fraction(hundredths, 100)
    for one in (as_typed(value, "mm"), as_typed(value / 25, "in")):
        here = in_unit(one, "mm").value if one.unit == "mm" else one.value * Fraction("25.4")
        said = around_target(one, target, off, "mm", "in")
        there, middle, room = (rounded(one) for one in (said.value, said.target, said.off_by))
        low, high = middle - room, middle + room
        assert (there >= low) == (here >= target - off)
        assert (there <= high) == (here <= target + off)
        assert low * Fraction("25.4") >= target - off
        assert high * Fraction("25.4") <= target + off


@pytest.mark.parametrize(
    ("units", "system"),
    [
        (["mm", "deg", "mm"], METRIC),
        (["in", "lbf ft", "deg", None, "%"], US),
        (["in", "mm"], METRIC),
        (["in", "psi", "mm", "no unit"], US),
        ([], METRIC),
    ],
)
def test_the_system_that_most_units_speak(units: list[str | None], system: str) -> None:
    """More than half of those that the other system has its own unit for; angles, shares and counts have none."""
    assert spoken(units) == system
