"""Bad inputs of loads, brakes, lifting, measurement and times: one line with the key and what is accepted."""

from __future__ import annotations

import itertools
import math
from fractions import Fraction
from typing import Any

import pytest

from jobtrack.shopmath.catalogue import Value, WorkingOutError, calculate, find
from jobtrack.shopmath.times import learned_time, sum_of_times

GOOD: dict[str, dict[str, Value]] = {
    "weigh-ticket": {"front": 900, "rear": 800, "wheelbase": 3000},
    "cargo-capacity": {"rated": 3500, "unloaded": 2890, "people": 2},
    "tyre-axle-load": {"index": 104, "dual_index": 101, "dual": True},
    "tyre-index-needed": {"axle": 1720},
    "tyre-part-load": {"index": 98, "pressure": 240, "full_pressure": 350},
    "tyre-size": {"size": "195/70R14"},
    "tyre-age": {"date_code": "0301", "on": "2026-06-30"},
    "line-pressure": {"pedal_force": 445, "pedal_ratio": 6, "bore": 19},
    "rear-brake-ratio": {
        "old_bore": 20,
        "new_bore": 22,
        "old_drum": 250,
        "new_drum": 280,
        "old_factor": 2,
        "new_factor": 3,
        "old_tyre": 600,
        "new_tyre": 640,
    },
    "brake-share": {"rear_share": 30, "ratio": Fraction(7, 5)},
    "braking-weight-share": {
        "mass": 1800,
        "rear_mass": 700,
        "wheelbase": 3000,
        "centre_height": 700,
        "deceleration": Fraction(3, 5),
    },
    "drum-wear": {"new": 254, "measured": 255, "discard": 256},
    "force-on-grade": {"mass": 2350, "grade": 30},
    "recommended-weight-limit": {
        "load": 12,
        "reach": 30,
        "from_height": 55,
        "to_height": 100,
        "to_reach": 40,
    },
    "team-lift": {"each": (20, 25)},
    "stand-load": {"load": 2350, "marked": 2700, "marked_for": "pair"},
    "repeat-readings": {"readings": (4, 5), "resolution": 1, "instrument_limit": 2},
    "verdict": {"value": 2, "low": 1, "high": 3, "uncertainty": Fraction(1, 5)},
    "three-point": {"short": 4, "likely": 6, "long": 12},
    "learned-time": {"expected": 3, "doubt": Fraction(2, 5), "scatter": Fraction(3, 10), "seen": (4,)},
    "sum-of-times": {"medians": (2, 3, 4), "log_spreads": (0, Fraction(1, 5), Fraction(3, 10))},
}
"""Inputs that are taken; each refusal changes one of them."""

TINY = Fraction(1, 10**6)
THIRD = Fraction(1, 3)

OUT_OF_RANGE: list[tuple[str, str, Value, Value, str]] = [
    ("weigh-ticket", "front", 0, TINY, "above 0"),
    ("weigh-ticket", "rear", -TINY, 0, "0 or more"),
    ("weigh-ticket", "wheelbase", 0, TINY, "above 0"),
    ("cargo-capacity", "rated", 2889, 2890, "give the maker's rated mass"),
    ("cargo-capacity", "rated", 0, 2890, "above 0"),
    ("cargo-capacity", "unloaded", 0, TINY, "above 0"),
    ("cargo-capacity", "unloaded", 3501, 3500, "below the unloaded mass of 3501 kg"),
    ("cargo-capacity", "people", -1, 0, "0 or more"),
    ("cargo-capacity", "people", Fraction(3, 2), 2, "give a whole number"),
    ("cargo-capacity", "person", 0, 75, "above 0"),
    ("cargo-capacity", "gas", -1, 0, "0 or more"),
    ("cargo-capacity", "water", -1, 0, "0 or more"),
    ("tyre-axle-load", "index", 69, 70, "70 to 125"),
    ("tyre-axle-load", "index", 126, 125, "70 to 125"),
    ("tyre-axle-load", "dual_index", 69, 70, "70 to 125"),
    ("tyre-axle-load", "dual_index", None, 101, "twin tyres need the second index"),
    ("tyre-axle-load", "dual", 1, False, "give yes or no"),
    ("tyre-index-needed", "axle", 0, TINY, "above 0"),
    ("tyre-index-needed", "axle", 3301, 3300, "the 3300 kg of index 125"),
    ("tyre-part-load", "index", 200, 98, "70 to 125"),
    ("tyre-part-load", "pressure", 351, 350, "give 175 to 350 kPa"),
    ("tyre-part-load", "pressure", 174, 175, "give 175 to 350 kPa"),
    ("tyre-part-load", "pressure", 0, 175, "above 0"),
    ("tyre-part-load", "full_pressure", 0, 240, "above 0"),
    ("tyre-part-load", "set", "strait", "straight", "did you mean straight?; accepted: power-0.8, straight"),
    ("tyre-size", "size", "large", "195R14", "write it as 195/70R14"),
    ("tyre-size", "size", "195/24R14", "195/25R14", "the aspect ratio: 24 lies outside 25 to 100"),
    ("tyre-size", "size", "195/101R14", "195/100R14", "25 to 100"),
    ("tyre-size", "size", "195/70R7", "195/70R8", "the rim in inches: 7 lies outside 8 to 26"),
    ("tyre-size", "size", "195/70R27", "195/70R26", "8 to 26"),
    ("tyre-size", "size", "99/70R14", "100/70R14", "the width in mm: 99 lies outside 100 to 400"),
    ("tyre-size", "size", "401/70R14", "400/70R14", "100 to 400"),
    ("tyre-size", "size", "15x10.50R15", "16x10.50R15", "is not above the rim of 15 in"),
    ("tyre-size", "size", "31x10.50R27", "31x10.50R26", "8 to 26"),
    ("tyre-size", "size", "\x1b[31m", "31x10.50R15", r"\x1b"),
    ("tyre-age", "date_code", "0001", "0101", "the week: 0 lies outside 1 to 53"),
    ("tyre-age", "date_code", "5401", "5301", "1 to 53"),
    ("tyre-age", "date_code", "03", "0301", "not four digits"),
    ("tyre-age", "date_code", "03O1", "0301", "give the last four of the mark"),
    ("tyre-age", "date_code", "03012", "0301", "not four digits"),
    ("tyre-age", "date_code", "542", "0301", "1 to 53"),
    ("tyre-age", "date_code", "038", "0301", "week 3 of 1998 or of a decade before"),
    ("tyre-age", "date_code", "0327", "0326", "give a week that has begun"),
    ("tyre-age", "on", "2001-01-20", "2001-01-21", "begins on 2001-01-21"),
    ("line-pressure", "pedal_force", -1, 0, "0 or more"),
    ("line-pressure", "pedal_ratio", 0, TINY, "above 0"),
    ("line-pressure", "bore", 0, 19, "above 0"),
    *[("rear-brake-ratio", key, 0, TINY, "above 0") for key in GOOD["rear-brake-ratio"]],
    ("rear-brake-ratio", "new_factor", None, 3, "old_factor and new_factor go together"),
    ("rear-brake-ratio", "old_tyre", None, 600, "old_tyre and new_tyre go together"),
    ("brake-share", "rear_share", -1, 0, "0 to 100"),
    ("brake-share", "rear_share", 101, 100, "0 to 100"),
    ("brake-share", "ratio", 0, TINY, "above 0"),
    ("braking-weight-share", "mass", 0, 700, "above 0"),
    ("braking-weight-share", "rear_mass", -1, 700, "0 to 1800"),
    ("braking-weight-share", "rear_mass", 1801, 1800, "0 to 1800"),
    ("braking-weight-share", "wheelbase", 0, 3000, "above 0"),
    ("braking-weight-share", "centre_height", -1, 0, "0 or more"),
    ("braking-weight-share", "deceleration", -1, 0, "0 or more"),
    ("braking-weight-share", "deceleration", 6, Fraction(5, 3), "give at most 1.666666667, in g"),
    ("drum-wear", "new", 0, 254, "above 0"),
    ("drum-wear", "measured", 0, 255, "above 0"),
    ("drum-wear", "measured", Fraction("253.4"), Fraction("253.5"), "give 253.5 mm or more"),
    ("drum-wear", "discard", 254, 254 + TINY, "is not above the new diameter of 254 mm"),
    ("force-on-grade", "mass", 0, TINY, "above 0"),
    ("force-on-grade", "grade", -1, 0, "0 or more"),
    ("recommended-weight-limit", "load", 0, TINY, "above 0"),
    ("recommended-weight-limit", "reach", -1, 0, "0 or more"),
    ("recommended-weight-limit", "reach", 64, 63, "it cannot be lifted by this equation; give at most 63 cm"),
    ("recommended-weight-limit", "to_reach", 64, 63, "give at most 63 cm"),
    ("recommended-weight-limit", "from_height", -1, 0, "0 or more"),
    ("recommended-weight-limit", "from_height", 176, 175, "give at most 175 cm"),
    ("recommended-weight-limit", "to_height", 176, 175, "give at most 175 cm"),
    ("recommended-weight-limit", "to_height", None, 75, "to_reach says where a lift ends"),
    ("recommended-weight-limit", "turn", 136, 135, "give at most 135 deg"),
    ("recommended-weight-limit", "turn", -1, 0, "0 or more"),
    ("recommended-weight-limit", "lifts_per_minute", -1, 0, "0 to 15"),
    ("recommended-weight-limit", "lifts_per_minute", 16, 12, "0 to 15"),
    ("recommended-weight-limit", "lifts_per_minute", 13, Fraction("12.9"), "the table ends at 12"),
    ("recommended-weight-limit", "duration", "all day", "long", "accepted: short, moderate, long"),
    ("recommended-weight-limit", "grip", "none", "poor", "accepted: good, fair, poor"),
    ("recommended-weight-limit", "where", "under a vehicle", "open", "hoist or trolley and two people"),
    ("team-lift", "each", (20,), (20, 20), "two or three people are accepted"),
    ("team-lift", "each", (20, 20, 20, 20), (20, 20, 20), "no factor is published"),
    ("team-lift", "each", (20, 0), (20, TINY), "above 0"),
    ("stand-load", "load", 0, TINY, "above 0"),
    ("stand-load", "marked", 0, TINY, "above 0"),
    ("stand-load", "marked_for", "both", "pair", "accepted: pair, each"),
    ("repeat-readings", "readings", (4,), (4, 4), "give two or more"),
    ("repeat-readings", "readings", (4, math.nan), (4, 4), "a plain number, or all in one unit"),
    ("repeat-readings", "resolution", -1, 0, "0 or more"),
    ("repeat-readings", "instrument_limit", -1, 0, "0 or more"),
    ("verdict", "uncertainty", -1, 0, "0 or more"),
    ("verdict", "low", 3, 3 - TINY, "is not below high of 3"),
    ("verdict", "value", math.inf, 3, "give a plain number"),
    ("three-point", "short", 0, TINY, "above 0"),
    ("three-point", "likely", 3, 4, "below the short time of 4 h"),
    ("three-point", "long", 5, 6, "below the likely time of 6 h"),
    ("learned-time", "expected", 0, TINY, "above 0"),
    ("learned-time", "doubt", 0, TINY, "above 0"),
    ("learned-time", "doubt", 6, 5, "0 to 5"),
    ("learned-time", "scatter", 0, TINY, "above 0"),
    ("learned-time", "scatter", 6, 5, "0 to 5"),
    ("learned-time", "seen", (4, 0), (4, TINY), "above 0"),
    ("learned-time", "seen", (), (4,), "give a list of h"),
    ("sum-of-times", "medians", (2, 0, 4), (2, TINY, 4), "above 0"),
    ("sum-of-times", "log_spreads", (0, 0, -TINY), (0, 0, 0), "0 or more"),
    ("sum-of-times", "log_spreads", (0, 0, 6), (0, 0, 5), "0 to 5"),
    ("sum-of-times", "log_spreads", (0, 0), (0, 0, 0), "give one for each median"),
    ("sum-of-times", "correlation", Fraction(11, 10), 1, "to 1"),
    ("sum-of-times", "correlation", -THIRD * 2, -THIRD, "give -0.5 to 1"),
    ("sum-of-times", "correlation", Fraction("-0.51"), Fraction("-0.5"), "give -0.5 to 1"),
]


@pytest.mark.parametrize(("name", "key", "bad", "good", "says"), OUT_OF_RANGE)
def test_a_bad_value_is_refused_beside_its_neighbour(
    name: str, key: str, bad: Value, good: Value, says: str
) -> None:
    """The bad value is refused in one printable line with its key and what is accepted; its neighbour is taken."""
    with pytest.raises(WorkingOutError) as refusal:
        calculate(name, GOOD[name] | {key: bad})
    line = str(refusal.value)
    assert says in line
    assert key in line or (key, bad) in NAMED_BY_THE_OTHER
    assert "\n" not in line
    assert line.isprintable()
    assert calculate(name, GOOD[name] | {key: good}).values


NAMED_BY_THE_OTHER = {("unloaded", 3501), ("on", "2001-01-20")}
"""Where two inputs contradict each other the line names the other one, and this one's value."""


@pytest.mark.parametrize("name", list(GOOD))
def test_each_input_refuses_what_is_no_value_of_its_kind(name: str) -> None:
    """NaN, infinity and a wrong kind of value are refused for each input by its key."""
    nothing: list[Any] = [math.nan, math.inf, b"x"]
    for quantity, bad in itertools.product(find(name).inputs, nothing):
        with pytest.raises(WorkingOutError, match=rf"^{quantity.key}: "):
            calculate(name, GOOD[name] | {quantity.key: bad})


def test_a_verdict_wants_a_limit() -> None:
    """Without any limit there is nothing to compare with."""
    with pytest.raises(WorkingOutError, match=r"^low: missing, and high too; give at least one"):
        calculate("verdict", {"value": 2, "uncertainty": 1})


def test_nothing_seen_and_no_times_are_refused_by_the_functions_too() -> None:
    """The functions themselves refuse empty lists."""
    with pytest.raises(WorkingOutError, match=r"^seen: empty; give at least one time in h"):
        learned_time(3, 1, 1, [])
    with pytest.raises(WorkingOutError, match=r"^log_spreads: 0 given for 0 medians"):
        sum_of_times([], [])


@pytest.mark.parametrize(
    ("name", "change", "says"),
    [
        ("weigh-ticket", {"rear": 0}, "the rear wheels carry nothing"),
        ("cargo-capacity", {"people": 9}, "Below 0: people, water and gas alone"),
        ("tyre-axle-load", {"dual_index": 105}, "second index lies above the first"),
        ("tyre-axle-load", {"passenger_on_truck": True}, "Divided by 1.10"),
        ("tyre-index-needed", {"axle": 100}, "70 is the lowest index in the table"),
        ("tyre-part-load", {}, "Rule power-0.8: load follows pressure to the power 0.8"),
        ("tyre-part-load", {"set": "straight"}, "Rule straight: load follows pressure in a straight line"),
        ("tyre-size", {"size": "195R14"}, "80 is taken; some older tyres have 82"),
        ("tyre-age", {"date_code": "5301"}, "2001 has no week 53"),
        ("rear-brake-ratio", {"old_factor": None, "new_factor": None}, "No brake factors were given"),
        ("rear-brake-ratio", {"old_tyre": None, "new_tyre": None}, "No tyres were given"),
        ("drum-wear", {"discard": None}, "No discard figure was given"),
        ("repeat-readings", {"readings": (4, 8)}, "Few readings: "),
        ("verdict", {"uncertainty": 1}, "No room is left between the guards"),
        ("sum-of-times", {"log_spreads": (0, 0, Fraction(51, 100))}, "A log spread above 0.5"),
    ],
)
def test_what_a_figure_hangs_on_is_said(name: str, change: dict[str, Value], says: str) -> None:
    """A doubtful or assumed value is said beside the result, and only where it applies."""
    own = find(name).remarks
    done = calculate(name, GOOD[name] | change)
    assert any(says in remark for remark in done.remarks if remark not in own)
    if change and name != "tyre-part-load":
        assert not any(says in remark for remark in calculate(name, GOOD[name]).remarks)


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("weigh-ticket", {"rear": TINY}),
        ("cargo-capacity", {"rated": 3026}),
        ("tyre-axle-load", {"dual_index": 104}),
        ("cargo-capacity", {"rated": 3026 + Fraction(1, 2)}),
    ],
)
def test_at_the_edge_nothing_more_is_said(name: str, change: dict[str, Value]) -> None:
    """A remark begins where its reason does, and not before; that it isn't usual may be said or asked."""
    usual = ("meant? Usual is ", " what is usual, ")
    remarks = calculate(name, GOOD[name] | change).remarks
    said = [one for one in remarks if not any(words in one for words in usual)]
    assert said == list(find(name).remarks)
