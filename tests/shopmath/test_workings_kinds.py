"""Typed inputs of every kind: yes or no, dates, percent, lists, and any number in one unit."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from inspect import signature

import pytest
from msgspec import structs

from jobtrack.shopmath.catalogue import Quantity, Value, WorkingOutError, by_topic, find
from jobtrack.shopmath.quantity import accept, wanted
from jobtrack.workings.answers import answer, describe, read_back, read_inputs

LIMITS = {"value": "2.85", "low": "0.5", "high": "3", "uncertainty": "0.2"}


@pytest.mark.parametrize(("typed", "value"), [("yes", True), ("No", False), (" YES ", True)])
def test_yes_and_no_are_read(typed: str, value: bool) -> None:
    """Yes and no are read with any capitals, and stand as true and false in the JSON."""
    done = answer("tyre-axle-load", {"index": "104", "dual_index": "101", "dual": typed})
    assert done.outcome.inputs["dual"] is value
    assert json.loads(json.dumps(done.as_json()))["inputs"]["dual"] == {
        "value": value,
        "unit": None,
        "typed": typed,
    }


def test_a_yes_or_no_result_is_true_or_false_in_the_json_alone() -> None:
    """In words load and mark stand side by side, and being above is said; a plain yes would be an answer."""
    done = answer("stand-load", {"load": "5180 lb", "marked": "4000 lb", "marked_for": "pair"})
    assert "Remark: The load on each is above the stand maker's mark." in done.as_text().splitlines()
    assert "over rating" not in done.as_text()
    assert done.as_json()["results"]["over_rating"] == {"value": True, "unit": None}


def test_a_date_is_written_as_year_month_day() -> None:
    """A date goes in and comes out as YYYY-MM-DD, without a unit; years have theirs."""
    shape = answer("tyre-age", {"date_code": "0301", "on": " 2026-06-30 "}).as_json()
    assert shape["inputs"]["on"]["value"] == "2026-06-30"
    assert shape["results"]["week_begins"] == {"value": "2001-01-21", "unit": None}
    assert shape["results"]["age"]["unit"] == "years"


def test_a_bare_number_is_percent_where_percent_is_asked() -> None:
    """30 and 30 % are the same share, and percent is the unit in the JSON."""
    bare, signed = (answer("brake-share", {"rear_share": typed, "ratio": "1.4"}) for typed in ("30", "30 %"))
    assert bare.outcome == signed.outcome
    assert bare.as_json()["results"]["rear_share_after"] == {"value": 37.5, "unit": "percent"}


def test_any_number_has_the_unit_it_was_typed_in() -> None:
    """Plain numbers have no unit; numbers all in one unit give results in that unit, as the catalogue spells it."""
    plain = answer("verdict", LIMITS)
    assert plain.as_json()["inputs"]["value"] == {"value": 2.85, "unit": None, "typed": "2.85"}
    united = answer("verdict", {key: f"{typed} N·m" for key, typed in LIMITS.items()})
    assert united.outcome.values == plain.outcome.values
    assert united.as_json()["inputs"]["value"]["unit"] == "N*m"
    assert united.as_json()["results"]["chance_within"]["unit"] is None
    assert "2.85 N·m with an uncertainty of 0.2 N·m" in united.as_text()


def test_readings_in_a_list_keep_their_unit() -> None:
    """A list in one unit gives a mean in it; percent is a unit too."""
    shape = answer("repeat-readings", {"readings": "4 mm; 5 mm; 6 mm", "resolution": "0.1 mm"}).as_json()
    assert shape["inputs"]["readings"]["unit"] == "mm"
    assert shape["results"]["mean"] == {"value": 5, "unit": "mm"}
    shares = answer("repeat-readings", {"readings": "4 %, 6 %", "resolution": "1 %"}).as_json()
    assert shares["results"]["mean"] == {"value": 5, "unit": "percent"}


def test_inputs_alone_are_read_in_their_one_unit() -> None:
    """Reading the inputs without working out takes the one unit too."""
    values = read_inputs(find("verdict"), {"value": "1 1/2 in", "uncertainty": '0.1"'})
    assert values == {"value": Fraction(3, 2), "uncertainty": Fraction(1, 10)}


@pytest.mark.parametrize(
    ("name", "typed", "says"),
    [
        ("verdict", LIMITS | {"low": "0.5 deg"}, "^low: deg beside no unit; give all as plain numbers"),
        ("verdict", LIMITS | {"value": "3 mm"}, "^low: no unit beside mm; .* or all in one unit"),
        ("verdict", {"value": "38 in", "low": "965 mm", "uncertainty": "1 mm"}, "^low: mm beside in; "),
        ("repeat-readings", {"readings": "4 mm, 5", "resolution": "1 mm"}, "^readings: no unit beside mm"),
        ("repeat-readings", {"readings": "4,,5", "resolution": "1"}, "^readings: 4,,5 holds an empty item"),
        ("repeat-readings", {"readings": "4, 5,", "resolution": "1"}, "^readings: .* holds an empty item"),
        ("repeat-readings", {"readings": "", "resolution": "1"}, "^readings: empty; give a list of number"),
        ("verdict", LIMITS | {"value": ""}, "^value: empty; give a plain number, or all in one unit"),
        ("verdict", LIMITS | {"value": "3 wibbles"}, "^value: .*wibbles"),
        ("verdict", LIMITS | {"walue": "3"}, "^walue: no such input of verdict; did you mean value"),
        ("tyre-axle-load", {"index": "91", "dual": "maybe"}, "^dual: maybe is neither; give yes or no"),
        ("tyre-age", {"date_code": "0301", "on": "30.6.2026"}, "^on: .*give a date as 2031-04-02"),
        ("tyre-age", {"date_code": "0301", "on": "20260630"}, "^on: .*give a date as 2031-04-02"),
        ("tyre-age", {"date_code": "0301", "on": "2026-02-29"}, "^on: 2026-02-29 is no day of the calendar"),
        ("force-on-grade", {"mass": "1000", "grade": "5 deg"}, "^grade: "),
        ("team-lift", {"each": "20 mm, 30"}, "^each: .*mm is a length"),
    ],
)
def test_bad_typing_of_these_kinds_is_refused(name: str, typed: dict[str, str], says: str) -> None:
    """What is of no such kind, or not all in one unit, is named with its key and what would be read."""
    with pytest.raises(WorkingOutError, match=says) as refusal:
        answer(name, typed)
    assert "\n" not in str(refusal.value)


@pytest.mark.parametrize(
    ("unit", "bad"),
    [("yes/no", 1), ("yes/no", "yes"), ("date", 20260630), ("date", "2026-6-3"), ("date", True)],
)
def test_a_value_of_another_kind_is_refused(unit: str, bad: Value) -> None:
    """Where yes or no or a date is wanted nothing else is accepted."""
    with pytest.raises(WorkingOutError, match=r"^it: .* can't be used; give "):
        accept(Quantity("it", unit), bad)


def test_lists_and_what_is_not_there_are_said_in_words() -> None:
    """A list is told item by item, pairs too, and what can't be given is said so."""
    text = answer("team-lift", {"each": "20 kg, 44.1 lb"}).as_text()
    assert "Alone 20 kg, 20.0034 kg; together 26 kg by HSE L23." in text
    alone = answer("recommended-weight-limit", {"load": "12", "reach": "30", "from_height": "80"}).as_text()
    assert "rwl at end: not given" in alone.splitlines()
    assert "at the end not given, index not given." in alone


def test_pairs_are_said_with_their_distances() -> None:
    """A sentence may name a list of masses at distances."""
    done = answer("axle-loads", {"wheelbase": "3 m", "items": "90 kg @ 1500 mm, 10.5 kg @ 1 m"})
    told = structs.replace(done, work=replace(done.work, sentence="Items {items}.")).as_text()
    assert "Items 90 kg @ 1500 mm, 10.5 kg @ 1000 mm." in told.splitlines()


def test_the_help_names_these_kinds() -> None:
    """The help says of what kind an input is and what counts when it is left out."""
    assert "  readings: list of number, comma-separated" in describe(find("repeat-readings"))
    assert "  dual: yes/no (can be left out: no)" in describe(find("tyre-axle-load"))
    assert wanted(Quantity("it", "list mass @ distance")) == "a list of mass @ distance"


@pytest.mark.parametrize("name", [name for names in by_topic().values() for name in names])
def test_what_counts_when_left_out_is_the_same_by_hand(name: str) -> None:
    """A function called without an optional input takes the value that the catalogue fills in."""
    work = find(name)
    parameters = signature(work.function).parameters
    for quantity in work.inputs:
        parameter = parameters.get(quantity.key) or parameters[f"{quantity.key}_"]
        assert parameter.default == (quantity.default if quantity.optional else parameter.empty)


def test_a_likely_slip_of_the_unit_is_asked_about() -> None:
    """A fraction as inch rules have it, typed bare for millimetres, is taken so and asked about; in inches not."""
    typed = {"spacing_now": "39 7/8", "spacing_wanted": "38 in"}
    asked = "spacing_now: 39 7/8 is read in mm. Was 39 7/8 in = 1012.8 mm meant?"
    assert asked in answer("perch-shift", typed).remarks
    assert f"Remark: {asked}" in answer("perch-shift", typed).as_text()
    assert not any(
        "meant?" in one for one in answer("perch-shift", typed | {"spacing_now": "39 7/8 in"}).remarks
    )


def test_an_input_is_read_back() -> None:
    """One typed input in both unit systems, with how it was taken; a list and a choice as they were read."""
    assert read_back(find("perch-shift"), {"spacing_now": "38 in"}, "spacing_now") == "= 965.2 mm = 38 in"
    assert (
        read_back(find("team-lift"), {"each": "~30, 25"}, "each")
        == "= 30 kg, 25 kg (2 items); taken as its number"
    )
    assert read_back(find("u-bolt-blank"), {"bend": "Round"}, "bend") == "= round"
    with pytest.raises(WorkingOutError, match=r"^spacing_now: "):
        read_back(find("perch-shift"), {"spacing_now": "38 kg"}, "spacing_now")


BOUNDS = [
    (">1020 mm", "wholly outside"),
    (">1016 mm", "wholly outside"),
    (">1015.9 mm", "doesn't say on which side"),
    ("1016..1020 mm", "doesn't say on which side"),
    ("1016.1..1020 mm", "wholly outside"),
    ("<1014 mm", "doesn't say on which side"),
    ("<999 mm", "wholly outside"),
    ("990..999 mm", "doesn't say on which side"),
    ("1001..1014 mm", "wholly within"),
    ("1000.9..1014 mm", "doesn't say on which side"),
    (">1000 mm", "doesn't say on which side"),
]


@pytest.mark.parametrize(("typed", "says"), BOUNDS)
def test_a_bound_says_where_it_lies_for_certain(typed: str, says: str) -> None:
    """Over, under or between has no chance of being within; on which side of 1000 to 1015 ± 1 it lies is said."""
    limits = {"low": "1000 mm", "high": "1015 mm", "uncertainty": "1 mm"}
    with pytest.raises(
        WorkingOutError, match=f"^value: {typed} is not one number; it (lies )?{says}"
    ) as refusal:
        answer("verdict", {"value": typed} | limits)
    assert "\n" not in str(refusal.value)


def test_a_bound_against_one_limit() -> None:
    """A limit that isn't there is past nothing: under 1000 lies within at most 1015 and says nothing of at least."""
    most = {"high": "1015", "uncertainty": "0"}
    for typed, says in (
        ("<1015", "wholly within"),
        (">1015", "wholly outside"),
        ("1015..1020", "on which side"),
    ):
        with pytest.raises(WorkingOutError, match=says):
            answer("verdict", {"value": typed} | most)
