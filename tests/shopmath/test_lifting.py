"""Lifting against a second form of the equation, and stands against a beam."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.lifting.lifting import (
    frequency_factor,
    height_factor,
    reach_factor,
    recommended_weight_limit,
    stand_load,
    team_lift,
    travel_factor,
    turn_factor,
)
from jobtrack.shopmath.lifting.tables import COUPLING, FREQUENCY

US = {"fair low": 0.95, "fair high": 1.0, "3/min": 0.88}
"""Factors as the manual's worksheets print them."""


def pounds(
    reach: float, height: float, travel: float, turn: float, others: float, places: int | None
) -> float:
    """The US form, 51 lb, inches, with its factors rounded to some places: as the manual's worksheets do."""
    factors = [
        10 / max(reach, 10),
        1 - 0.0075 * abs(height - 30),
        0.82 + 1.8 / max(travel, 10),
        1 - 0.0032 * turn,
    ]
    limit = 51 * others
    for factor in factors:
        limit *= factor if places is None else round(factor + 1e-9, places)
    return limit


@pytest.mark.parametrize(
    ("lift", "others", "printed", "within"),
    [
        ((10, 22, 37, 0), US["3/min"] * US["fair low"], 34.9, 0.05),
        ((20, 59, 37, 0), US["3/min"] * US["fair high"], 15.2, 0.05),
        ((18, 15, 21, 45), US["fair low"], 18.9, 0.05),
        ((10, 36, 21, 0), US["fair high"], 44.554, 0.0005),
    ],
)
def test_the_manuals_worksheets_reproduce_in_their_own_form(
    lift: tuple[float, float, float, float], others: float, printed: float, within: float
) -> None:
    """NIOSH 94-110 examples 4 (found), 1 and 3 (from memory): two-decimal factors give the printed pounds."""
    assert pounds(*lift, others, 2) == pytest.approx(printed, abs=within)


def test_the_first_example_takes_its_reach_from_a_table() -> None:
    """Example 1 (from memory) takes 0.44 for 23 in, where the formula gives 0.43: so 16.3 and 14.5 lb."""
    printed = 0.44 / 0.43
    assert pounds(23, 15, 49, 0, US["fair low"] * printed, 2) == pytest.approx(16.3, abs=0.05)
    assert pounds(23, 64, 49, 0, US["fair high"] * printed, 2) == pytest.approx(14.5, abs=0.05)


def test_a_page_took_the_wrong_travel() -> None:
    """From 6 to 20 in is a travel of 14 in: 18.84 lb by two-decimal factors, not the 18.4 of wizedu.com."""
    right = 51 * 0.50 * 0.82 * round(0.82 + 1.8 / 14, 2) * 0.95
    assert right == pytest.approx(18.84, abs=0.05)
    assert abs(right - 18.4) > 0.3


@pytest.mark.independent("recommended-weight-limit")
@given(
    st.floats(25, 63),
    st.floats(0, 100),
    st.floats(0, 100),
    st.floats(0, 90),
    st.sampled_from(["good", "fair", "poor"]),
)
def test_both_forms_agree_within_their_rounded_constants(
    reach: float, start: float, end: float, turn: float, grip: str
) -> None:
    """Pounds and inches give the metric limit within 3.5 %: constants and heights are rounded conversions."""
    coupling = {"good": (1, 1), "fair": (0.95, 1), "poor": (0.9, 0.9)}[grip][start >= 75]
    us = pounds(reach / 2.54, start / 2.54, abs(end - start) / 2.54, turn, coupling, None) * 0.45359237
    metric = recommended_weight_limit(20, reach, start, end, turn=turn, grip=grip)
    assert float(metric.rwl) == pytest.approx(us, rel=0.035)
    assert float(metric.index_ * metric.rwl) == pytest.approx(20)


def test_factors_where_the_manuals_tables_differ() -> None:
    """By the formula 22 in gives 0.4545 (printed 0.46), 23 in 0.4348 (0.44), 130 cm of travel 0.8546 (0.86)."""
    assert float(reach_factor(55)) == pytest.approx(0.4545, abs=5e-5)
    assert float(reach_factor(Fraction("57.5"))) == pytest.approx(0.4348, abs=5e-5)
    assert float(travel_factor(130)) == pytest.approx(0.8546, abs=5e-5)


def test_factors_of_the_worked_solution() -> None:
    """A worked solution's printed factors: 1, 0.94, 0.87, 1, 0.88, 0.95 (homeworksource.com 1089113)."""
    factors = [reach_factor(25), height_factor(55), travel_factor(95), turn_factor(0)]
    factors += [frequency_factor(3, "short", high=False), COUPLING["fair", False]]
    assert [round(float(each), 2) for each in factors] == [1, 0.94, 0.87, 1, 0.88, 0.95]
    assert 23 * np.prod([round(float(each), 2) for each in factors]) == pytest.approx(15.72, abs=0.005)


@pytest.mark.parametrize(
    ("rate", "printed"),
    [
        (0.1, "1.00 1.00 .95 .95 .85 .85"), (0.2, "1.00 1.00 .95 .95 .85 .85"), (0.5, ".97 .97 .92 .92 .81 .81"),
        (1, ".94 .94 .88 .88 .75 .75"), (2, ".91 .91 .84 .84 .65 .65"), (3, ".88 .88 .79 .79 .55 .55"),
        (4, ".84 .84 .72 .72 .45 .45"), (5, ".80 .80 .60 .60 .35 .35"), (6, ".75 .75 .50 .50 .27 .27"),
        (7, ".70 .70 .42 .42 .22 .22"), (8, ".60 .60 .35 .35 .18 .18"), (9, ".52 .52 .30 .30 .00 .15"),
        (10, ".45 .45 .26 .26 .00 .13"), (11, ".41 .41 .00 .23 .00 .00"), (12, ".37 .37 .00 .21 .00 .00"),
        (13, ".00 .34 .00 .00 .00 .00"), (14, ".00 .31 .00 .00 .00 .00"), (15, ".00 .28 .00 .00 .00 .00"),
    ],
)  # fmt: skip
def test_the_frequency_table_is_the_manuals(rate: float, printed: str) -> None:
    """NIOSH 94-110 table 5, row by row as printed (found in a transcription): three durations, low and high."""
    columns = [(duration, high) for duration in ("short", "moderate", "long") for high in (False, True)]
    row = [float(frequency_factor(Fraction(str(rate)), *column)) for column in columns]
    assert row == [float(each) for each in printed.split()]


@given(st.sampled_from(list(FREQUENCY)), st.floats(0, 15))
def test_between_rows_the_factor_lies_on_a_line(column: tuple[str, bool], rate: float) -> None:
    """Between two printed rates the factor is numpy's straight interpolation."""
    rates = [0.2, 0.5, *range(1, 16)]
    wanted = np.interp(rate, rates, [float(each) for each in FREQUENCY[column]])
    assert float(frequency_factor(rate, *column)) == pytest.approx(float(wanted), abs=1e-12)


@given(st.floats(1, 63), st.floats(0, 175), st.floats(0, 175), st.floats(0, 135), st.floats(0, 8))
def test_a_worse_lift_never_has_a_higher_limit(
    reach: float, start: float, end: float, turn: float, rate: float
) -> None:
    """Farther out, turned, more often, longer or with a worse grip never gives more; 23 kg is the most."""
    one = recommended_weight_limit(10, reach, start, end, None, turn, rate)
    worse = recommended_weight_limit(
        10, min(reach * 1.1, 63), start, end, None, min(turn + 5, 135), rate, "long", "poor"
    )
    assert worse.rwl <= one.rwl <= 23
    assert worse.rwl_at_end is not None
    assert one.rwl_at_end is not None
    assert worse.rwl_at_end <= one.rwl_at_end


def test_the_end_has_its_own_reach_height_and_grip() -> None:
    """At the end reach and height are those there, the turn doesn't count, the frequency is the start's column."""
    done = recommended_weight_limit(10, 25, 55, 150, 50, 60, 9, "short", "fair")
    common = 23 * (0.82 + 4.5 / 95) * 0.52
    assert float(done.rwl) == pytest.approx(common * (1 - 0.003 * 20) * (1 - 0.0032 * 60) * 0.95)
    assert done.rwl_at_end is not None
    assert float(done.rwl_at_end) == pytest.approx(common * 0.5 * (1 - 0.003 * 75) * 1.0)
    assert done.index_at_end == 10 / done.rwl_at_end


def test_the_columns_change_at_75_cm() -> None:
    """A lift that begins at 75 cm takes the high column: 9 a minute for long, where the low one ends."""
    high = recommended_weight_limit(10, 25, 75, lifts_per_minute=9, duration="long", grip="fair")
    assert float(high.rwl) == pytest.approx(23 * 0.15)
    low_end = recommended_weight_limit(10, 25, 75, 74, grip="fair")
    assert low_end.rwl_at_end is not None
    assert float(low_end.rwl_at_end) == pytest.approx(23 * 0.997 * 0.95)


@given(st.lists(st.fractions(1, 60), min_size=2, max_size=3))
def test_a_team_lifts_more_than_one_and_less_than_the_sum(each: list[Fraction]) -> None:
    """Whoever joins, it doesn't matter in which order they are named, and equals lift 4/3 or 3/2 of one."""
    together = team_lift(each).together
    assert together == team_lift(each[::-1]).together < sum(each)
    assert team_lift([30] * len(each)).together == {2: 40, 3: 45}[len(each)]


@pytest.mark.independent("stand-load")
@given(st.floats(100, 5000), st.floats(100, 9000), st.sampled_from(["pair", "each"]))
def test_a_beam_on_two_stands(load: float, marked: float, marked_for: str) -> None:
    """A beam with the load in its middle solves to the same load on each; a pair's mark is two stands' marks."""
    front, rear = np.linalg.solve(np.array([[1.0, 1.0], [0.0, 1.0]]), np.array([load, load * 0.5]))
    done = stand_load(load, marked, marked_for)
    assert float(done.on_each) == pytest.approx(front) == pytest.approx(rear)
    assert float(done.rated_each) * (2 if marked_for == "pair" else 1) == pytest.approx(marked)
    assert done.over_rating == (load > marked * (1 if marked_for == "pair" else 2))
