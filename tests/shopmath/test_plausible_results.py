"""Results outside what is usual are said with the range and whose it is; the figures stay as they are."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from keyword import iskeyword

import pytest

from jobtrack.shopmath.catalogue import Quantity, WorkingOutError, by_topic, calculate, find
from jobtrack.shopmath.plausible import beyond_usual, remarks_on_results
from jobtrack.shopmath.tables_plausible import Plausible
from jobtrack.shopmath.tables_plausible_results import CLAMPED, RESULTS, WELD_STRESS
from jobtrack.workings import answer
from tests.shopmath.test_published import PUBLISHED

NAMES = [name for names in by_topic().values() for name in names]
NOT_NUMBERS = ("text", "date", "yes/no")
NUMBERS = [(name, each) for name in NAMES for each in find(name).results if each.unit not in NOT_NUMBERS]
RANGED = [(name, each) for name, each in NUMBERS if each.plausible]

OF_ITS_OWN = [
    ("shock-fit", ("left_at_bump",), {"bump": "200"}, "fully closed"),
    ("shock-fit", ("left_at_droop",), {"droop": "200"}, "fully open"),
    ("joint-angle", ("angle",), {"side_ahead": "-28"}, "Above 30 deg"),
    ("joint-pair", ("first",), {"ahead_slope": "-28", "shaft_slope": "7"}, "Above 30 deg"),
    ("joint-pair", ("second",), {"behind_slope": "-28", "shaft_slope": "7"}, "Above 30 deg"),
    ("second-pattern", ("seat_clearance",), {"second_holes": "6", "seat": "20"}, "lies over an old hole by"),
    ("bolt-clamp", ("clamp_force",), {"torque": "1200"}, "that a bolt of this diameter bears"),
    ("carbon-equivalent", ("CE",), {"C": "0.25", "Mn": "2.5", "Cr": "2"}, "CE 0.30 to 0.70 %"),
    ("wire-settings", ("current",), {"thickness": "12"}, "lies outside this wire's"),
]  # fmt: skip
"""Results whose bound depends on the inputs, or is said with more to it: the working-out's own remark."""

GEOMETRY = "no number can lie outside: angles and shares of what was given"
TABLE = "read from a table, which refuses what lies outside it"
THREAD = "of a thread of the tables; no other is taken"
ANY_UNIT = "any number in any unit"
NO_RANGE = {
    ("joint-limit", "angle"): TABLE,
    ("rectangular-pattern", "half_angle"): GEOMETRY,
    ("second-pattern", "rotation"): GEOMETRY,
    ("clearance-hole", "hole"): TABLE,
    ("drill-name", "nearest_size"): TABLE,
    ("drill-name", "next_up_size"): TABLE,
    ("tap-drill", "drill"): THREAD,
    ("stress-area", "area"): THREAD,
    ("proof-load", "load"): THREAD,
    ("tightening-order", "order"): "the places of the bolts, each once",
    ("thread-engagement", "length"): THREAD,
    ("fillet-minimum", "leg"): TABLE,
    ("weld-group", "bending"): "follows from sides that are asked about; nobody knows it by sight",
    ("weld-group", "twisting"): "follows from sides that are asked about; nobody knows it by sight",
    ("heat-input", "heat"): "refused outside 0.1 to 5 kJ/mm: a slip of unit, mm/s for mm/min",
    ("perch-weld", "line_load"): "the stress has the range: the same over the throat",
    ("perch-weld", "rule_stress"): TABLE,
    ("electrode-current", "low"): TABLE,
    ("electrode-current", "high"): TABLE,
    ("eye-shade", "minimum"): TABLE,
    ("eye-shade", "suggested"): TABLE,
    ("tyre-index-needed", "index"): TABLE,
    ("tyre-part-load", "load"): "at most the table's load; a pressure under half of the full one is refused",
    ("recommended-weight-limit", "rwl"): "at most 23 kg by its rule; a small one is said by the index",
    ("recommended-weight-limit", "rwl_at_end"): "at most 23 kg by its rule; a small one is said by the index",
    ("repeat-readings", "mean"): ANY_UNIT,
    ("repeat-readings", "scatter"): ANY_UNIT,
    ("repeat-readings", "standard_uncertainty"): ANY_UNIT,
    ("repeat-readings", "expanded_uncertainty"): ANY_UNIT,
    ("verdict", "chance_within"): GEOMETRY,
    ("learned-time", "log_mean"): "the logarithm of the median, which has the range",
}
"""Results that are numbers and have neither, and why."""

OUTSIDE = [
    ("perch-shift", {"spacing_now": "1450"}, "left_inboard right_inboard"),
    ("perch-shift-from-faces", {"left_face_to_perch": "700", "right_face_to_perch": "600"},
     "spacing_now left_inboard"),
    ("perch-shift-from-faces", {"left_face_to_perch": "900", "right_face_to_perch": "260"}, "spacing_now off_centre"),
    ("perch-shift-from-faces", {"face_distance": "2300", "spacing_wanted": "410"},
     "face_to_perch left_inboard right_inboard"),
    ("centre-spacing", {"inner_gap": "1490"}, "spacing"),
    ("level", {"gap": "120", "length": "300"}, "angle per_metre"),
    ("relative-level", {"reference": "-40", "face": "44"}, "difference"),
    ("pinion-to-pad", {"gearbox_slope": "20", "nose_down": "-5", "pad_slope": "-5"}, "pinion_slope pinion_to_pad"),
    ("level-reversal", {"normal": "40", "turned": "-36"}, "tilt"),
    ("level-reversal", {"turned": "2.35"}, "zero_error"),
    ("wedge", {"angle": "8", "length": "900"}, "rise"),
    ("wedge-angle", {"thick": "40", "thin": "3", "length": "100"}, "angle"),
    ("rotated-point", {"ahead": "700", "angle": "30"}, "rise"),
    ("thrust-angle", {"wheelbase_left": "2700", "wheelbase_right": "2900"}, "angle"),
    ("square-by-diagonals", {"length": "3000", "width": "900", "first_diagonal": "3200",
                             "second_diagonal": "3059"}, "skew"),
    ("housing-straightness", {"front": "1400", "rear": "1500", "top": "1400", "bottom": "1500"}, "toe camber"),
    ("u-bolt-leg", {"stack": "280, 290, 150"}, "leg"),
    ("u-bolt-blank", {"leg": "700", "inside_width": "200", "rod": "30"}, "blank"),
    ("shock-fit", {"collapsed": "130", "extended": "600", "ride_length": "150", "lean": "0", "bump": "60",
                   "droop": "100"}, "length_at_bump ride_share"),
    ("shock-fit", {"collapsed": "600", "extended": "1080", "ride_length": "1000", "lean": "0", "bump": "60",
                   "droop": "150"}, "length_at_droop ride_share"),
    ("ride-height-change", {"old_pad_above_centre": "20", "new_pad_above_centre": "245"}, "body_rise"),
    ("track-change", {"old_face_distance": "1000", "new_face_distance": "1600"}, "track_change each_side"),
    ("plan-angle", {"offset": "480", "length": "900"}, "angle"),
    ("joint-motion", {"angle": "30", "speed": "7800"}, "fastest peak_acceleration"),
    ("joint-motion", {"angle": "30", "speed": "105"}, "slowest"),
    ("joint-pair", {"ahead_slope": "0", "shaft_slope": "15", "behind_slope": "15", "speed": "4000"},
     "difference residual acceleration"),
    ("shaft-critical-speed", {"outside": "30", "wall": "1.5", "length": "2800"}, "critical at_share"),
    ("shaft-length", {"along": "3480", "vertical": "700"}, "length"),
    ("shaft-length", {"along": "700", "vertical": "600"}, "slope"),
    ("shaft-torque", {"engine_torque": "1400", "gear_ratio": "9", "axle_load": "6000", "grip": "1.3",
                      "tyre_radius": "600", "axle_ratio": "2.1"}, "by_engine by_grip carried"),
    ("shaft-speed", {"road_speed": "190", "axle_ratio": "8", "gear_ratio": "0.8"}, "shaft engine"),
    ("axle-ratio-from-turns", {"shaft_turns": "373"}, "ratio"),
    ("speedometer", {"indicated": "180", "old_axle_ratio": "8", "new_axle_ratio": "3"}, "true_speed factor"),
    ("bolt-circle", {"holes": "10", "spacing": "250"}, "diameter"),
    ("edge-distance", {"flange": "345", "circle": "100", "hole": "6"}, "to_centre to_hole in_holes"),
    ("flange-slip-torque", {"bolts": "20", "clamp_force": "110 kN", "friction": "0.4", "radius": "150"}, "torque"),
    ("rectangular-pattern", {"length": "245", "width": "245"}, "diameter"),
    ("second-pattern", {"second_holes": "6", "second_circle": "90", "first_hole": "14"}, "ligament"),
    ("drill-speed", {"diameter": "0.6", "cutting_speed": "30"}, "speed"),
    ("tightening-torque", {"thread": "1-8", "grade": "8", "share": "0.9", "nut_factor": "0.35"},
     "torque"),
    ("tightening-torque", {"thread": "M5", "grade": "8.8", "share": "0.05"}, "clamp_force torque"),
    ("torque-stages", {"torque": "0.6", "shares": "6; 60; 100"}, "stages"),
    ("adapter-setting", {"torque": "1400", "wrench": "500", "adapter": "200", "angle": "180"}, "setting"),
    ("fillet-strength", {"leg": "26", "length": "4900", "electrode": "E70"}, "load"),
    ("fillet-strength", {"leg": "1", "length": "4", "electrode": "E60"}, "load per_length"),
    ("weld-group", {"width": "900", "depth": "900", "shape": "rectangle"}, "length"),
    ("perch-weld", {"force": "150 kN", "leg": "3"}, "stress"),
    ("travel-speed", {"length": "3000", "time": "20"}, "travel"),
    ("duty-cycle", {"rated_current": "450", "rated_duty": "60", "duty": "20", "current": ""}, "current"),
    ("duty-cycle", {"current": "490", "rated_current": "100", "rated_duty": "20"}, "duty"),
    ("rods-needed", {"leg": "20", "length": "4900"}, "deposited rods"),
    ("wire-settings", {"thickness": "20", "wire": "0.6"}, "wire_speed"),
    ("axle-loads", {"wheelbase": "2700", "front_now": "5000", "rear_now": "5900", "items": "2500 @ 1200"},
     "front rear total"),
    ("axle-limit", {"plate": "50"}, "lowest_rating"),
    ("axle-limit", {"plate": "5500", "housing": "1000"}, "below_plate"),
    ("weigh-ticket", {"front": "5000", "rear": "200", "wheelbase": "2700"}, "centre_behind_front front_share"),
    ("cargo-capacity", {"rated": "12000", "unloaded": "1000"}, "capacity"),
    ("tyre-axle-load", {"index": "125", "dual_index": "124", "dual": "yes"}, "axle"),
    ("tyre-size", {"size": "400/100R26"}, "diameter turns_per_km"),
    ("tyre-age", {"date_code": "0301", "on": "2060-06-30"}, "age"),
    ("line-pressure", {"pedal_force": "1500", "pedal_ratio": "8", "bore": "19"}, "pressure"),
    ("rear-brake-ratio", {"old_bore": "12", "new_bore": "40"}, "torque_ratio road_force_ratio fluid_ratio"),
    ("brake-share", {"rear_share": "70", "ratio": "4"}, "rear_share_after"),
    ("braking-weight-share", {"centre_height": "1700", "deceleration": "0.67"}, "rear_share"),
    ("drum-wear", {"new": "254", "measured": "255", "discard": "262"}, "left_to_discard"),
    ("force-on-grade", {"mass": "11000", "grade": "60"}, "force"),
    ("force-on-grade", {"mass": "11000", "grade": "61"}, "force angle"),
    ("recommended-weight-limit", {"load": "140"}, "index index_at_end"),
    ("team-lift", {"each": "120 kg, 120 kg"}, "together"),
    ("stand-load", {"load": "19900", "marked": "30000"}, "rated_each"),
    ("stand-load", {"load": "90", "marked": "3000"}, "on_each"),
    ("three-point", {"short": "1", "likely": "5", "long": "495"}, "spread"),
    ("three-point", {"short": "400", "likely": "520", "long": "560"}, "mean"),
    ("learned-time", {"expected": "490", "seen": "495; 500; 500", "doubt": "1.5", "scatter": "1.5"},
     "next_90"),
    ("learned-time", {"expected": "490", "seen": "900; 900; 900", "doubt": "1", "scatter": "0.02"},
     "median log_spread next_10"),
    ("sum-of-times", {"medians": "500; 500; 500; 500; 450", "log_spreads": "0.3; 0.3; 0.3; 0.3; 0.3"},
     "p50 p80 p90"),
]  # fmt: skip
"""By working-out, on top of its example: what lands outside, and which results are said then (with others, perhaps)."""


def _beyond(remarks: tuple[str, ...]) -> list[str]:
    return [remark for remark in remarks if " what is usual, " in remark]


def _keys(remarks: list[str]) -> set[str]:
    """The results that remarks name: what stands before each figure."""
    named = [remark.split(": ")[0] for remark in remarks]
    return {key.replace(" ", "_") for names in named for key in names.split(" and ")}


@pytest.mark.parametrize(("name", "typed", "keys"), OUTSIDE)
def test_a_result_outside_is_said_and_stays(name: str, typed: dict[str, str], keys: str) -> None:
    """The remark names the result, the figure, the range and whose it is; the figure is the function's own."""
    done = answer(name, {key: text for key, text in (find(name).example | typed).items() if text})
    said = _beyond(done.remarks)
    assert set(keys.split()) <= _keys(said)
    for key in keys.split():
        usual = done.work.result(key).plausible
        assert usual is not None
        assert any(
            key.replace("_", " ") in remark and f"({usual.source}): look at what went in." in remark
            for remark in said
        )
    arguments = {f"{key}_" if iskeyword(key) else key: value for key, value in done.outcome.inputs.items()}
    own = done.work.function(**arguments)._asdict()
    assert all(own.get(key, own.get(f"{key}_")) == value for key, value in done.outcome.values.items())


def test_each_range_has_a_call_that_lands_outside() -> None:
    """No range stands in the table that nobody has seen speak."""
    reached = {(name, key) for name, _, keys in OUTSIDE for key in keys.split()}
    assert {(name, each.key) for name, each in RANGED} == reached


@pytest.mark.parametrize(("name", "result"), RANGED)
def test_each_range_speaks_outside_and_not_inside(name: str, result: Quantity) -> None:
    """Both ends are usual, and what a float's last bit puts beyond; a hair more is said, told from the end."""
    usual = result.plausible
    assert usual is not None
    middle = (usual.low + usual.high) / 2
    bit = float(usual.high) * (1 + 1e-15)
    assert [beyond_usual(result, value) for value in (usual.low, middle, usual.high, bit, None)] == [None] * 5
    hair = Fraction(1, 1000) + usual.high / 10**6
    for value, side in ((usual.low - hair, "below"), (usual.high + hair, "above")):
        text = beyond_usual(result, value)
        assert text is not None
        figure, _, rest = text.partition(f" lies {side} what is usual, ")
        assert float(figure.split()[0]) == pytest.approx(float(value), rel=5e-4)
        assert f" to {figure}" not in rest
        assert not rest.startswith(f"{figure.split()[0]} to ")
        assert beyond_usual(result, (middle, value)) == (
            text if result.items else beyond_usual(result, value)
        )


def test_one_figure_under_two_names_is_said_once() -> None:
    """A shift of both perches by as much is one line, not two."""
    said = _beyond(answer("perch-shift", {"spacing_now": "1450", "spacing_wanted": "965"}).remarks)
    assert said == [
        "left inboard and right inboard: 242.5 mm lies above what is usual, -200 to 200 mm "
        "(common practice, no source): look at what went in."
    ]


def test_results_without_a_range_are_silent() -> None:
    """A text, a yes and what isn't there say nothing, whatever the range."""
    usual = Plausible(Fraction(5), Fraction(6))
    bare = [Quantity("a", "text", plausible=usual), Quantity("b", "mm", plausible=usual), Quantity("c", "mm")]
    assert remarks_on_results(tuple(bare), {"a": "7", "b": None, "c": 7}) == ()
    assert len(remarks_on_results((replace(bare[1], key="c"),), {"c": 7})) == 1


@pytest.mark.parametrize("name", NAMES)
def test_no_example_lands_outside(name: str) -> None:
    """What the catalogue shows as its example is usual."""
    assert _beyond(answer(name, find(name).example).remarks) == []


def test_no_published_example_lands_outside_but_by_an_input() -> None:
    """Of what others printed nothing is said, but where an input itself is none of a vehicle: unit lengths, 1 rpm."""
    taken, outside = 0, set()
    for group in [group for table in PUBLISHED.values() for group in table if "work" in group]:
        for row in group["rows"]:
            try:
                done = answer(group["work"], dict(zip(group["inputs"], row, strict=False)))
            except WorkingOutError:
                continue
            taken += 1
            if _beyond(done.remarks):
                outside.add(group["id"])
                assert any("meant? Usual is " in remark for remark in done.remarks), (group["id"], row)
    assert taken > 1000
    assert outside == {"bolt-circle-factor", "fillet-per-millimetre", "motion-30", "motion-18", "grade"}


@pytest.mark.parametrize(("name", "keys", "typed", "says"), OF_ITS_OWN)
def test_a_result_with_a_remark_of_its_own_has_it(
    name: str, keys: tuple[str, ...], typed: dict[str, str], says: str
) -> None:
    """It is said beyond the bound and not in the catalogue's example, and the table says nothing besides."""
    assert any(says in remark for remark in answer(name, find(name).example | typed).remarks)
    assert not any(says in remark for remark in answer(name, find(name).example).remarks)
    assert all(find(name).result(key).plausible is None for key in keys)


def test_ranges_from_iso_898_and_shigley() -> None:
    """M24 in 12.9 bears 342 kN, to three figures; E70xx has 70 ksi, printed as 482 MPa."""
    proof = calculate("proof-load", {"thread": "M24", "grade": "12.9"}).values["load"]
    assert isinstance(proof, float | Fraction)
    assert float(f"{float(proof):.3g}") == CLAMPED.high
    assert float(WELD_STRESS.high) == pytest.approx(70 * 6.894757, abs=1)


def test_every_number_has_a_range_a_remark_or_a_reason(capsys: pytest.CaptureFixture[str]) -> None:
    """Each numeric result stands in one of the three lists, and nothing that is gone stands in any."""
    ranged = [(name, key) for name, usuals in RESULTS.items() for key in usuals]
    own = [(name, key) for name, keys, _, _ in OF_ITS_OWN for key in keys]
    listed = [*ranged, *own, *NO_RANGE]
    assert len(listed) == len(set(listed))
    assert set(listed) == {(name, each.key) for name, each in NUMBERS}
    assert all(NO_RANGE.values())
    ranges = [usual for usuals in RESULTS.values() for usual in usuals.values()]
    assert all(usual.low < usual.high and usual.source for usual in ranges)
    with capsys.disabled():
        works = len({name for name, _ in (*ranged, *own)})
        print(
            f"\n{len(ranged)} of {len(NUMBERS)} results have a range, {len(own)} a remark of their own, in {works} "
            f"workings-out; {len(NO_RANGE)} none"
        )
