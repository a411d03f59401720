"""How fine a figure is said, and that no rounded word says otherwise than the number does."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.units.rounding import (
    DOWN,
    FINENESS,
    NEAREST,
    OTHERS,
    PRACTICE,
    UP,
    apart,
    as_typed,
    beside,
    figure,
    no_finer,
    no_finer_than_typed,
    said_beside,
    said_number,
    said_target,
)

UNITS = ("mm", "deg", "kg", "N", "N*m", "kPa", "rpm", "percent", None)
WAYS = (NEAREST, DOWN, UP)
AMOUNTS = st.floats(-1e6, 1e6, allow_nan=False)


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (963.6125, "mm", "963.6 mm = 37.94 in (37 15/16)"),
        (50.4509, "N*m", "50.5 N·m = 37.2 lbf ft"),
        (25225.473, "N", "25200 N = 5670 lbf"),
        (118.11, "A", "118 A"),
        (2.68928, "deg", "2.7 deg"),
        (858.519, "kg", "859 kg = 1893 lb"),
        (0.0, "mm", "0 mm = 0 in"),
        (-11.33, "mm", "-11.3 mm = -0.45 in (-29/64)"),
        (0.84317, None, "0.843"),
        (4.5, "furlong", "4.5 furlong"),
    ],
)
def test_a_figure_is_as_fine_as_its_unit_is_told(value: float, unit: str | None, words: str) -> None:
    """A length to 0.1 mm and a 64th, an angle to 0.1 deg, a mass to 1 kg; torque and force three figures."""
    assert figure(value, unit).in_both() == words


def test_every_fineness_names_its_source() -> None:
    """Each row says whose it is: none of these has a publication."""
    assert {row.source for row in (*FINENESS.values(), OTHERS)} == {PRACTICE}
    assert all((row.step is None) == bool(row.figures) for row in (*FINENESS.values(), OTHERS))


@given(AMOUNTS, st.sampled_from(UNITS), st.sampled_from(WAYS))
def test_rounding_moves_less_than_a_step_and_to_its_side(value: float, unit: str | None, way: str) -> None:
    """The word lies within a step of the number; an upper limit never above it, a lower one never below."""
    said = figure(value, unit, way)
    for one in filter(None, (said, said.in_other())):
        assert abs(one.rounded - one.value) < one.step
        assert not (way == DOWN and one.rounded > one.value)
        assert not (way == UP and one.rounded < one.value)


def test_binary_noise_doesnt_turn_the_cautious_side() -> None:
    """A float a hair under what it stands for isn't rounded down a whole step, nor one a hair over up."""
    assert figure(0.1 * 3 * 100, "kg", UP).rounded == 30
    assert figure(4.6 * 100, "kg", DOWN).rounded == 460


@given(AMOUNTS, st.floats(-2, 2), st.sampled_from(UNITS), st.sampled_from(WAYS), st.sampled_from(WAYS))
def test_beside_a_limit_the_words_lie_as_the_numbers_do(
    limit: float, off: float, unit: str | None, way: str, limits_way: str
) -> None:
    """Over a limit reads over, under reads under, on reads on, in both unit systems, whichever way each rounds."""
    value = round(limit + off, 3)
    for there in (figure(limit, unit, limits_way), as_typed(round(limit, 3), unit)):
        one, other = apart(figure(value, unit, way), there)
        assert (one.rounded > other.rounded) == (one.value > other.value)
        assert (one.rounded < other.rounded) == (one.value < other.value)
        both = one.in_other(), other.in_other()
        if both[0] and both[1]:
            assert (both[0].rounded > both[1].rounded) == (one.value > other.value)


def test_one_figure_more_where_a_limit_is_near() -> None:
    """0.04 mm beyond a limit isn't said to be on it."""
    one, limit = apart(figure(256.04, "mm"), as_typed(256, "mm"))
    assert (one.words(), limit.words()) == ("256.04 mm", "256 mm")


@pytest.mark.parametrize(
    ("value", "doubt", "words"),
    [(963.6125, 0.25, "963.6 mm"), (963.6125, 1.4, "963.6 mm"), (963.6125, 14, "964 mm"),
     (963.6125, 140, "960 mm"), (963.6125, None, "963.6 mm"), (963.612, 14, "963.612 mm")],
)  # fmt: skip
def test_no_finer_than_its_doubt(value: float, doubt: float | None, words: str) -> None:
    """To the last place of the doubt's two figures; what can have been typed stays as typed."""
    assert said_number(value, "mm", doubt) == words


def test_what_was_typed_stays_as_typed() -> None:
    """A typed number isn't rounded, whatever its unit and its doubt."""
    assert no_finer(as_typed(Fraction("112.45"), "N*m"), 5).in_both() == "112.45 N·m = 82.939 lbf ft"


@pytest.mark.parametrize(
    ("value", "limits", "words"),
    [(963.6125, (None, None), "963.6 mm"), (963.6125, (None, 963.6), "963.61 mm"),
     (963.6125, (963.7, None), "963.6 mm"), (963.5987, (963.6, 970), "963.599 mm"),
     (963.612, (963.6, None), "963.612 mm")],
)  # fmt: skip
def test_a_worked_out_reading_isnt_said_on_a_limit(
    value: float, limits: tuple[float, float], words: str
) -> None:
    """Beside a limit it takes figures more until it reads on the side where it lies."""
    assert said_beside(value, limits, "mm") == words


@pytest.mark.parametrize(
    ("value", "unit", "way", "swing", "words"),
    [
        (6622.11, "N", UP, 103, "6700 N = 1490 lbf"),  # hundreds can be told, to the cautious side
        (
            963.6125,
            "mm",
            NEAREST,
            0.25,
            "963.6 mm = 37.94 in (37 15/16)",
        ),  # the unit's step is coarser already
        (963.6125, "mm", NEAREST, 1.4, "964 mm = 37.9 in (37 15/16)"),  # to a tenth of an inch the 16th
        (963.6125, "mm", NEAREST, 14, "960 mm = 38 in"),  # not even a tenth of an inch is told
        (3.2, "mm", DOWN, 40, "3 mm = 0.1 in (1/8)"),  # its first figure stays
        (0, "mm", NEAREST, 40, "0 mm = 0 in"),
    ],
)
def test_no_finer_than_what_was_typed_tells(
    value: float, unit: str, way: str, swing: float, words: str
) -> None:
    """To the power of ten at or below the swing with half a place of what was typed."""
    assert no_finer_than_typed(figure(value, unit, way), swing).in_both() == words


@given(AMOUNTS, st.floats(1e-6, 1e5), st.sampled_from(UNITS), st.sampled_from(WAYS))
def test_rounding_adds_less_than_the_typing_left_open(
    value: float, swing: float, unit: str | None, way: str
) -> None:
    """A step grows to no more than the swing, so words lie within it, or a step of the unit, on their side."""
    own = figure(value, unit, way)
    one = no_finer_than_typed(own, swing)
    assert one.step >= own.step
    assert one.step == own.step or one.step <= swing * 1.000001
    assert abs(one.rounded - one.value) < one.step
    assert not (way == DOWN and one.rounded > one.value)
    assert not (way == UP and one.rounded < one.value)
    assert one.value == own.value


@pytest.mark.parametrize(
    ("value", "limits", "unit", "words"),
    [
        (963.6127, (962.6, 964.6), "mm", "963.6 mm"),  # ± 1 mm: a tenth of a millimetre
        (963.6127, (953.6, 973.6), "mm", "964 mm"),  # ± 10 mm: a millimetre, not the tenth of its unit
        (963.6127, (963.5, 963.7), "mm", "963.61 mm"),  # ± 0.1 mm: a hundredth, though a length has tenths
        (112.4567, (108, 117), "N*m", "112.5 N·m"),  # ± 4.5 N·m: a tenth of it is told by 0.1
        (
            858.5185,
            (855, 862),
            "kg",
            "858.5 kg",
        ),  # ± 3.5 kg: 0.35 is told by 0.1, though a mass has whole kilograms
        (963.6127, (None, 973.6), "mm", "963.6 mm"),  # one limit is no tolerance
        (0.32333333, (None, 0.35), "%", "0.32 %"),  # whole percents tell nothing beside a limit below one
        (963.612, (953.6, 973.6), "mm", "963.612 mm"),  # typed stays typed
        (973.6127, (953.6, 973.6), "mm", "973.61 mm"),  # beyond: reads beyond, in inches too
        (973.5987, (953.6, 973.6), "mm", "973.599 mm"),  # within by a hair: not on the limit, nor over it
    ],
)
def test_between_two_limits_a_tenth_of_the_tolerance_is_told(
    value: float, limits: tuple[float | None, float], unit: str, words: str
) -> None:
    """The power of ten at or below a tenth of the tolerance to one side; figures more where a limit is near."""
    assert said_beside(value, limits, unit) == words


@pytest.mark.parametrize(
    ("target", "off_by", "value", "words"),
    [
        (963.61254, 1, None, "963.6"),
        (963.61254, 10, 960, "964"),
        (963.61254, 0.25, None, "963.61"),
        (23.25, 1, None, "23.25"),  # can have been typed
        (963.61254, 1, 964.61, "963.61"),  # within; beside 963.6 ± 1 it would lie outside
        (963.65999, 1, 964.66, "963.65999"),  # outside by a hair; on the edge beside 963.66 ± 1
    ],
)
def test_a_target_is_said_to_a_tenth_of_its_tolerance(
    target: float, off_by: float, value: float | None, words: str
) -> None:
    """Finer where what was measured would lie otherwise beside the words."""
    assert said_target(target, off_by, "mm", value) == words


@given(st.floats(10, 2000), st.sampled_from((0.1, 0.25, 1, 3, 10)), st.floats(-1.02, 1.02), st.integers(2, 6))
def test_words_beside_words_lie_as_the_numbers_do(
    target: float, off_by: float, share: float, places: int
) -> None:
    """Measured as said, against target ± tolerance as said: the verdict of the exact numbers."""
    value = round(target + share * off_by, places)
    exactly, off = Fraction(f"{target:.12g}"), Fraction(str(off_by))
    low, high = exactly - off, exactly + off
    said = beside(value, (low, high), "mm").rounded
    there = Fraction(said_target(exactly, off, "mm", value))
    if abs(Fraction(str(value)) - low) > Fraction(1, 10**4) < abs(Fraction(str(value)) - high):
        assert (there - off <= said <= there + off) == (low <= Fraction(str(value)) <= high)
