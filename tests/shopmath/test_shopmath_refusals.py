"""Bad inputs: one line that names the key and what is accepted; the nearest good value is taken."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from jobtrack.shopmath.catalogue import Value, WorkingOutError, calculate

GOOD: dict[str, dict[str, Value]] = {
    "perch-shift": {"spacing_now": 1012, "spacing_wanted": 965},
    "perch-shift-from-faces": {
        "face_distance": 1524,
        "left_face_to_perch": 262,
        "right_face_to_perch": 250,
        "spacing_wanted": 1016,
    },
    "centre-spacing": {"inner_gap": 996, "left_pin": 16, "right_pin": 16},
    "level": {"gap": 2, "length": 600},
    "relative-level": {"reference": 1, "face": 2},
    "pinion-to-pad": {"gearbox_slope": 3, "pad_slope": 1},
    "bolt-circle": {"holes": 4, "spacing": 70, "measured": "inner edges", "hole": 12},
    "tightening-torque": {"thread": "M10", "grade": "8.8"},
    "axle-loads": {"wheelbase": 3000, "front_now": 900, "rear_now": 800, "items": ((90, 1500),)},
    "axle-limit": {"plate": 1720, "tyre_each": 900},
}
"""Inputs that are taken; each refusal changes one of them."""

TINY = Fraction(1, 10**6)

OUT_OF_RANGE: list[tuple[str, str, Value, Value, str]] = [
    ("perch-shift", "spacing_now", 0, TINY, "above 0"),
    ("perch-shift", "spacing_wanted", -1, TINY, "above 0"),
    ("perch-shift-from-faces", "face_distance", 0, 1524, "above 0"),
    ("perch-shift-from-faces", "left_face_to_perch", -1, 0, "0 or more"),
    ("perch-shift-from-faces", "left_face_to_perch", 1274, 1274 - TINY, "leave a spacing"),
    ("perch-shift-from-faces", "spacing_wanted", 1524, 1524 - TINY, "not below the face distance of 1524 mm"),
    ("centre-spacing", "inner_gap", 0, TINY, "above 0"),
    ("centre-spacing", "left_pin", -16, 16, "above 0"),
    ("level", "length", 0, 2, "above 0"),
    ("level", "gap", 601, 600, "at most the length"),
    ("level", "gap", -601, -600, "at most the length"),
    ("relative-level", "face", 90, 90 - TINY, "between -90 and 90 deg"),
    ("relative-level", "reference", -90, -90 + TINY, "between -90 and 90 deg"),
    ("pinion-to-pad", "gearbox_slope", 90, 89, "between -90 and 90 deg"),
    ("pinion-to-pad", "pad_slope", 95, 85, "folded back"),
    ("pinion-to-pad", "nose_down", 90, 5, "between -90 and 90 deg"),
    ("bolt-circle", "holes", 2, 3, "3 to 100"),
    ("bolt-circle", "holes", 101, 20, "3 to 100"),
    ("bolt-circle", "apart", 3, 2, "1 to 2"),
    ("bolt-circle", "apart", 0, 1, "1 to 2"),
    ("bolt-circle", "spacing", 0, TINY, "above 0"),
    ("bolt-circle", "hole", 0, 1, "above 0"),
    ("bolt-circle", "hole", None, 12, "inner edges need the hole's diameter"),
    ("tightening-torque", "nut_factor", Fraction("0.049"), Fraction("0.05"), "0.05 to 0.5"),
    ("tightening-torque", "nut_factor", Fraction("0.51"), Fraction("0.5"), "0.05 to 0.5"),
    ("tightening-torque", "share", Fraction("0.91"), Fraction("0.9"), "0.01 to 0.9"),
    ("tightening-torque", "share", 0, Fraction("0.01"), "0.01 to 0.9"),
    ("tightening-torque", "grade", "8", "8.8", "accepted for metric threads: 8.8, 10.9, 12.9"),
    ("tightening-torque", "grade", "A2-70", "10.9", "is no grade for M10x1.5"),
    ("axle-loads", "wheelbase", 0, 3000, "above 0"),
    ("axle-loads", "front_now", -1, 0, "0 or more"),
    ("axle-loads", "rear_now", -1, 0, "0 or more"),
    ("axle-loads", "items", ((900, 6000),), ((900, 5999),), "the front axle would carry 0 kg"),
    ("axle-loads", "items", ((-800, 3001),), ((-800, 3000),), "the rear axle would carry"),
    ("axle-limit", "plate", 0, 1, "above 0"),
    ("axle-limit", "tyre_each", -900, 900, "above 0"),
    ("axle-limit", "tyres", 1, 2, "2 to 8"),
    ("axle-limit", "tyres", 9, 8, "2 to 8"),
]


@pytest.mark.parametrize(("name", "key", "bad", "good", "says"), OUT_OF_RANGE)
def test_a_bad_value_is_refused_beside_a_good_one(
    name: str, key: str, bad: Value, good: Value, says: str
) -> None:
    """The bad value is refused in a line with its key and what is accepted; its neighbour is taken."""
    with pytest.raises(WorkingOutError) as refusal:
        calculate(name, GOOD[name] | {key: bad})
    line = str(refusal.value)
    assert key in line.split(":")[0]
    assert says in line
    assert "\n" not in line
    assert calculate(name, GOOD[name] | {key: good}).values


@pytest.mark.parametrize(
    ("inputs", "says"),
    [
        ({"spacing": 12, "measured": "outer edges"}, "not above the hole of 12 mm"),
        ({"spacing": 24, "measured": "outer edges"}, "holes of 12 mm would overlap"),
        ({"spacing": 12, "measured": "centres"}, "holes of 12 mm would overlap"),
        ({"spacing": 16, "measured": "same edges", "apart": 2}, "holes of 12 mm would overlap"),
    ],
)
def test_overlapping_holes_are_refused(inputs: dict[str, Value], says: str) -> None:
    """Holes that would run into each other are a slip of the caliper, and said so."""
    with pytest.raises(WorkingOutError, match=says):
        calculate("bolt-circle", GOOD["bolt-circle"] | inputs)


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("u-bolt", "70 plain and 52 plated; ask the supplier"),
        ("wheel nut", "ask the vehicle's or the wheel's maker"),
        ("locked bolt", "lubricant; ask the maker"),
        ("torque-angle bolt", "angle beyond its proof stress; ask the maker"),
    ],
)
def test_what_is_no_ordinary_bolt_gets_no_torque(kind: str, says: str) -> None:
    """U-bolts, wheel nuts, locked and torque-angle bolts are refused with the reason and whom to ask."""
    with pytest.raises(WorkingOutError, match=f"^for: the torque of a {kind} is not worked out: .*{says}"):
        calculate("tightening-torque", {"thread": "1/2-20", "grade": "5", "for": kind})
    assert calculate("tightening-torque", {"thread": "1/2-20", "grade": "5", "for": "bolt"}).values


@pytest.mark.parametrize(
    ("bad", "says"),
    [
        ("M12x2", "near it: M12x1.75, M12x1.5, M12x1.25"),
        ("M11", "M11 is in none of the tables"),
        ("M999", "M999 is in none of the tables; near it: "),
        ("1/2-12", "near it: 1/2-13, 1/2-20"),
        ("1-14 UNF", "1-14 is UNS"),
        ("1/2", "write it as M10x1.5"),
        ("1/2-1.25", "can't be read"),
        ("12", "can't be read"),
        ("\x1b[31mM10", r"\\x1b"),
        ("M" + "1" * 300, "…"),
    ],
)
def test_an_unlisted_thread_is_refused(bad: str, says: str) -> None:
    """A thread in none of the tables is refused, with those near it or how to write one."""
    with pytest.raises(WorkingOutError, match=f"^thread: .*{says}") as refusal:
        calculate("tightening-torque", {"thread": bad, "grade": "8.8"})
    assert str(refusal.value).isprintable()


@pytest.mark.parametrize(
    ("thread", "same"),
    [
        ("M10x1.5", "m10"),
        ("M10×1.5", "M10 x 1.50"),
        ("M14x1.5", "M14*1.5"),
        ("1-14", "1-14 UNS"),
        ("3/4-16", "3/4-16UNF"),
    ],
)
def test_one_thread_has_several_spellings(thread: str, same: str) -> None:
    """A thread is the same however the trade writes it; a metric size alone is the coarse thread."""
    grade = "8.8" if "M" in thread else "SAE grade 5"
    one, other = (calculate("tightening-torque", {"thread": t, "grade": grade}) for t in (thread, same))
    assert one.values == other.values


WRONG_TYPES: list[tuple[str, str, Value, str]] = [
    ("level", "gap", math.nan, "give a number in mm"),
    ("level", "gap", math.inf, "give a number in mm"),
    ("level", "gap", "2", "give a number in mm"),
    ("level", "gap", True, "give a number in mm"),
    ("level", "gap", 10**9 + 1, "too large or too small"),
    ("level", "gap", Fraction(10) ** 400, "too large or too small"),
    ("level", "length", 1e-300, "too large or too small"),
    ("bolt-circle", "holes", Fraction(9, 2), "9/2 can't be used; give a whole number"),
    ("bolt-circle", "measured", "inside", "accepted: centres, inner edges, outer edges, same edges"),
    ("bolt-circle", "measured", "inner edge", "did you mean inner edges?"),
    ("bolt-circle", "measured", 3, "give one of centres"),
    ("tightening-torque", "thread", " ", "give text"),
    ("tightening-torque", "grade", 8.8, "give text"),
    ("axle-loads", "items", (), "give a list of mass @ distance"),
    ("axle-loads", "items", 90, "give a list of mass @ distance"),
    ("axle-loads", "items", ((90,),), "give a number in mass @ distance"),
    ("axle-loads", "items", (90, 1500), "mass @ distance"),
    ("axle-loads", "items", ((90, math.nan),), "give a number in mm"),
    ("axle-loads", "items", (("90", 1500),), "give a number in kg"),
]


@pytest.mark.parametrize(("name", "key", "bad", "says"), WRONG_TYPES)
def test_a_value_of_the_wrong_kind_is_refused(name: str, key: str, bad: Value, says: str) -> None:
    """What is no finite number, no choice, no text or no list of items is refused by its key."""
    with pytest.raises(WorkingOutError) as refusal:
        calculate(name, GOOD[name] | {key: bad})
    assert str(refusal.value).startswith(f"{key}: ")
    assert says in str(refusal.value)


@pytest.mark.parametrize(
    ("name", "inputs", "says"),
    [
        ("perch-shift", {"spacing_now": 1}, "^spacing_wanted: missing; give a number in mm"),
        ("perch-shift", {"spacing_now": 1, "spacing_wanted": None}, "^spacing_wanted: missing"),
        ("perch-shift", {"spacing_nwo": 1}, "^spacing_nwo: no such input .*did you mean spacing_now"),
        ("perch-shift", {"x\n": 1}, r"^'x\\n': no such input"),
        (
            "axle-loads",
            {"wheelbase": 1, "front_now": 1, "items": ((1, 0),)},
            "^rear_now: missing; .* go together",
        ),
        (
            "axle-loads",
            {"wheelbase": 1, "rear_now": 1, "items": ((1, 0),)},
            "^front_now: missing; .* go together",
        ),
        ("perch-shfit", {}, "^perch-shfit: no such working-out; did you mean perch-shift"),
        ("zzz", {}, "^zzz: no such working-out; `jobtrack work-out` lists them"),
    ],
)
def test_unknown_missing_and_lone_keys_are_refused(name: str, inputs: dict[str, Value], says: str) -> None:
    """A key that isn't there, one that is too much, and one without its companion are named."""
    with pytest.raises(WorkingOutError, match=says):
        calculate(name, inputs)
