"""Loads and tyres against a second way: moments integrated, a search, a rolled polygon, the calendar."""

from __future__ import annotations

import calendar
import math
from datetime import date, timedelta
from fractions import Fraction

import numpy as np
import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import calculate
from jobtrack.shopmath.loads.axles import axle_loads
from jobtrack.shopmath.loads.tyre_marks import tyre_age, tyre_size
from jobtrack.shopmath.loads.tyre_tables import LOAD_INDEX
from jobtrack.shopmath.loads.tyres import tyre_axle_load, tyre_index_needed, tyre_part_load
from jobtrack.shopmath.loads.weighing import cargo_capacity, weigh_ticket

mass = st.integers(1, 5_000_000).map(lambda grams: Fraction(grams, 1000))
index = st.sampled_from(list(LOAD_INDEX))


@pytest.mark.independent("weigh-ticket")
@given(st.floats(100, 3000), st.floats(100, 3000), st.floats(1500, 5000))
def test_a_vehicle_balances_on_its_centre(front: float, rear: float, wheelbase: float) -> None:
    """About the centre of gravity the moments of both axles vanish: a root finder lands on the same point."""
    found = scipy.optimize.brentq(lambda x: rear * (wheelbase - x) - front * x, 0, wheelbase)
    done = weigh_ticket(front, rear, wheelbase)
    assert float(done.centre_behind_front) == pytest.approx(found)
    assert 100 * float(front) / (front + rear) == pytest.approx(float(done.front_share))


@given(mass, mass, mass)
def test_a_ticket_and_its_load_undo_each_other(front: Fraction, rear: Fraction, wheelbase: Fraction) -> None:
    """The whole mass put at the centre of gravity gives the two axle loads back, exactly."""
    done = weigh_ticket(front, rear, wheelbase)
    loads = axle_loads(wheelbase, [(front + rear, done.centre_behind_front)])
    assert (loads.front, loads.rear) == (front, rear)


@given(mass, mass, mass, st.integers(0, 9))
def test_one_more_person_takes_that_much(
    unloaded: Fraction, over: Fraction, person: Fraction, n: int
) -> None:
    """Loading people one by one leaves what all of them together leave; gas and water count like goods."""
    left = over
    for _ in range(n):
        left -= person
    rated = unloaded + over
    assert cargo_capacity(rated, unloaded, people=n, person=person).capacity == left
    assert cargo_capacity(rated, unloaded, gas=person, water=over).capacity == -person


def test_a_handbooks_five_people_weigh_what_they_weigh() -> None:
    """5 people of 150 lb take 340.2 kg, where a handbook printed 136 kg for them."""
    pound = Fraction("0.45359237")
    without, with_people = (
        cargo_capacity(3000, 2000, people=people, person=150 * pound).capacity for people in (0, 5)
    )
    assert float(without - with_people) == pytest.approx(340.2, abs=0.05)


@given(index)
def test_the_load_index_follows_preferred_numbers(one: int) -> None:
    """Each row lies within 1.8 % of 45 kg times ten to the power index / 80, series R80; loads rise."""
    assert LOAD_INDEX[one] == pytest.approx(45 * 10 ** (one / 80), rel=0.0175)
    assert LOAD_INDEX.get(one + 1, 10**4) > LOAD_INDEX[one]


@given(index, st.booleans(), st.booleans())
def test_the_index_needed_carries_its_own_axle(one: int, dual: bool, car_tyre: bool) -> None:
    """The axle load of an index needs just that index; a gram more needs the next."""
    axle = tyre_axle_load(one, one if dual else None, dual, car_tyre).axle
    assert tyre_index_needed(axle, dual, car_tyre).index_ == one
    if one < max(LOAD_INDEX):
        assert tyre_index_needed(axle + Fraction(1, 1000), dual, car_tyre).index_ == one + 1


@pytest.mark.independent("tyre-part-load")
@given(index, st.floats(0.5, 1))
def test_the_power_rule_undoes_the_reported_inverse(one: int, share: float) -> None:
    """The load at a pressure asks for that pressure by the reported rule, P = P_max (L / L_max)^1.25."""
    load = float(tyre_part_load(one, 250 * share, 250).load)
    solved = scipy.optimize.brentq(
        lambda p: math.log(p / 250) - 1.25 * math.log(load / LOAD_INDEX[one]), 1, 400
    )
    assert solved == pytest.approx(250 * share)


@given(index, st.fractions(Fraction(1, 2), 1))
def test_the_rules_meet_at_full_pressure(one: int, share: Fraction) -> None:
    """At full pressure both give the index's load; below it the straight one gives less, exactly in proportion."""
    straight = tyre_part_load(one, 250 * share, 250, "Straight ")
    assert straight.load == LOAD_INDEX[one] * share
    assert straight.rule == "straight"
    assert float(straight.load) <= float(tyre_part_load(one, 250 * share, 250).load) + 1e-9
    assert tyre_part_load(one, 250, 250).load == LOAD_INDEX[one]


@pytest.mark.independent("tyre-size")
@pytest.mark.parametrize(
    "size", ["195/70R14", "235/75R15", "31x10.50R15LT", "145R10", "LT285/75R16 126/123Q"]
)
def test_a_rolled_polygon_turns_as_often(size: str) -> None:
    """A wheel drawn with 100,000 corners, rolled over a km, turns as often as told."""
    done = tyre_size(size)
    turn = 2 * np.pi * np.arange(100_001) / 100_000
    rim = float(done.diameter) / 2 * np.column_stack([np.cos(turn), np.sin(turn)])
    around = np.hypot(*np.diff(rim, axis=0).T).sum()
    assert float(done.turns_per_km) == pytest.approx(1e6 / around, rel=1e-8)


@pytest.mark.parametrize(
    ("size", "same"),
    [
        ("195/70R14", " 195/70 r 14 91H"),
        ("195/70R14", "P195/70R14 (91H)"),
        ("195/70R14", "195/70-14"),
        ("195/70R14", "195/70HR14"),
        ("195R14", "195 R 14 C"),
        ("195R14", "195R14C 106/104Q"),
        ("31x10.50R15", "LT31×10.50R15LT"),
        ("195R14", "195/80R14"),
    ],
)
def test_one_size_has_several_spellings(size: str, same: str) -> None:
    """A size is the same with its letters, its load index or blanks; without an aspect it is 80."""
    assert tyre_size(size).diameter == tyre_size(same).diameter


@given(st.integers(100, 400), st.integers(25, 100), st.integers(8, 26))
def test_a_tyre_is_its_rim_and_two_walls(width: int, aspect: int, rim: int) -> None:
    """Rim and two walls, drawn one on the other, reach from edge to edge."""
    done = tyre_size(f"{width}/{aspect}R{rim}")
    wall = Fraction(width) * Fraction(aspect) / 100
    assert done.diameter == wall + rim * Fraction("25.4") + wall


def weeks_of(year: int) -> list[date]:
    """The Sundays that begin the full weeks of a year's tyres, found in the calendar's own pages."""
    pages = calendar.Calendar(calendar.SUNDAY).yeardatescalendar(year, width=12)[0]
    days = sorted({day for page in pages for week in page for day in week if day.year == year})
    return [day for day in days if day.weekday() == calendar.SUNDAY]


@pytest.mark.independent("tyre-age")
@pytest.mark.parametrize("year", range(2000, 2030))
def test_weeks_begin_as_the_calendar_has_them(year: int) -> None:
    """Each week of thirty years begins on the Sunday counted in the calendar, and only six have a 53rd."""
    sundays = weeks_of(year)
    for week, sunday in enumerate(sundays, 1):
        done = tyre_age(f"{week:02d}{year % 100:02d}", "2031-01-01")
        assert done.week_begins == sunday.isoformat()
        assert not done.remarks
    assert (len(sundays) == 53) == (year in (2000, 2006, 2012, 2017, 2023, 2028))
    if len(sundays) == 52:
        assert tyre_age(f"53{year % 100:02d}", "2031-01-01").remarks


@given(st.integers(1, 52), st.integers(0, 25), st.integers(0, 4000))
def test_a_tyre_ages_a_day_a_day(week: int, year: int, days: int) -> None:
    """The age counts the days since that Sunday, 1461 of them to four years."""
    begins = date.fromisoformat(tyre_age(f"{week:02d}{year:02d}", "2037-12-31").week_begins)
    done = tyre_age(f"{week:02d}{year:02d}", (begins + timedelta(days=days)).isoformat())
    assert done.age * 1461 / 4 == days


@pytest.mark.parametrize(
    ("code", "on", "least"),
    [
        ("031", "2026-06-30", 35),
        ("031", "2026-01-20", 35),
        ("031", "2026-01-19", 34),
        ("528", "2000-01-02", 1),
    ],
)
def test_three_digits_say_how_old_at_least(code: str, on: str, least: int) -> None:
    """A code of three digits is refused with its week, the last decade it can be of, and the least age."""
    says = rf"^date_code: three digits are week {int(code[:2])} of 199{code[2]} .*at least {least} years old on {on}"
    with pytest.raises(ValueError, match=says):
        calculate("tyre-age", {"date_code": code, "on": on})
