"""Fit, driveline and flange refuse bad inputs in one line with the key, and take the nearest good value."""

from __future__ import annotations

from fractions import Fraction

import pytest

from jobtrack.shopmath.catalogue import Value, WorkingOutError, calculate, find
from jobtrack.workings import answer

GOOD: dict[str, dict[str, Value]] = {
    "level-reversal": {"normal": 2, "turned": -1},
    "wedge": {"angle": 3, "length": 100},
    "wedge-angle": {"thick": 8, "thin": 3, "length": 100},
    "thrust-angle": {"wheelbase_left": 2703, "wheelbase_right": 2700, "track": 1500},
    "square-by-diagonals": {
        "length": 3300, "width": 900, "first_diagonal": 3423, "second_diagonal": 3418,
    },
    "u-bolt-leg": {"stack": (45, 12, 76, 10), "washer": 3, "nut": 14, "projection": 8},
    "u-bolt-blank": {"inside_width": 76, "leg": 200, "rod": 14, "bend": "square", "bend_radius": 10},
    "shock-fit": {
        "collapsed": 310, "extended": 490, "ride_length": 400, "lean": 30, "bump": 80, "droop": 70,
    },
    "ride-height-change": {
        "old_pad_above_centre": 40, "new_pad_above_centre": 46, "springs": "over the axle",
        "old_pack": 45, "new_pack": 50,
    },
    "track-change": {
        "old_face_distance": 1500, "new_face_distance": 1524, "old_offset": 20, "new_offset": 26,
    },
    "housing-straightness": {"bar": 600, "front": 1499, "rear": 1500, "top": 1500, "bottom": 1500},
    "rotated-point": {"ahead": -130, "angle": 5},
    "joint-angle": {"side_ahead": 3, "side_behind": 5},
    "plan-angle": {"offset": 35, "length": 1400},
    "joint-motion": {"angle": 3, "speed": 3000},
    "joint-pair": {"ahead_slope": 3, "shaft_slope": 7, "behind_slope": 3},
    "joint-limit": {"speed": 3000},
    "shaft-critical-speed": {"outside": 76, "wall": 2, "length": 1500},
    "shaft-length": {"along": 1400, "vertical": 130},
    "shaft-speed": {"road_speed": 100, "axle_ratio": 4, "tyre_diameter": 700},
    "axle-ratio-from-turns": {"shaft_turns": 37, "wheel_turns": 10, "turned": "both wheels"},
    "shaft-torque": {
        "engine_torque": 180, "gear_ratio": 3, "axle_load": 900, "grip": 1, "tyre_radius": 330,
        "axle_ratio": 4,
    },
    "speedometer": {
        "indicated": 100, "old_axle_ratio": 3, "new_axle_ratio": 4, "old_tyre": 700, "new_tyre": 720,
        "driven_from": "gearbox",
    },
    "rectangular-pattern": {"length": 60, "width": 80},
    "second-pattern": {
        "first_holes": 4, "first_circle": 100, "first_hole": 12, "second_holes": 4, "second_circle": 90,
        "second_hole": 11, "seat": 20,
    },
    "edge-distance": {"flange": 120, "circle": 95, "hole": 11},
    "drill-name": {"diameter": 9},
    "flange-slip-torque": {"bolts": 4, "clamp_force": 25_000, "friction": Fraction(1, 5), "radius": 45},
    "drill-speed": {"diameter": 10, "cutting_speed": 25},
}  # fmt: skip
"""Inputs that are taken; each refusal changes one of them. Threads are in test_flange_tables.py."""

TINY = Fraction(1, 10**6)
ABOVE = [
    ("wedge", "length"), ("wedge-angle", "length"), ("thrust-angle", "wheelbase_left"),
    ("thrust-angle", "wheelbase_right"), ("thrust-angle", "track"), ("square-by-diagonals", "length"),
    ("square-by-diagonals", "width"), ("square-by-diagonals", "first_diagonal"),
    ("square-by-diagonals", "second_diagonal"), ("u-bolt-leg", "nut"), ("u-bolt-blank", "inside_width"),
    ("u-bolt-blank", "leg"), ("u-bolt-blank", "rod"), ("shock-fit", "collapsed"),
    ("shock-fit", "ride_length"), ("ride-height-change", "old_pad_above_centre"),
    ("ride-height-change", "new_pad_above_centre"), ("ride-height-change", "old_pack"),
    ("ride-height-change", "new_pack"), ("track-change", "old_face_distance"),
    ("track-change", "new_face_distance"), ("housing-straightness", "bar"),
    ("housing-straightness", "front"), ("housing-straightness", "rear"), ("housing-straightness", "top"),
    ("housing-straightness", "bottom"), ("plan-angle", "length"), ("joint-motion", "speed"),
    ("joint-pair", "speed"), ("joint-limit", "speed"), ("shaft-critical-speed", "outside"),
    ("shaft-critical-speed", "wall"), ("shaft-critical-speed", "length"),
    ("shaft-critical-speed", "share"), ("shaft-length", "along"), ("shaft-speed", "road_speed"),
    ("shaft-speed", "axle_ratio"), ("shaft-speed", "gear_ratio"), ("shaft-speed", "tyre_diameter"),
    ("axle-ratio-from-turns", "shaft_turns"), ("axle-ratio-from-turns", "wheel_turns"),
    ("shaft-torque", "engine_torque"), ("shaft-torque", "gear_ratio"), ("shaft-torque", "axle_load"),
    ("shaft-torque", "grip"), ("shaft-torque", "tyre_radius"), ("shaft-torque", "axle_ratio"),
    ("speedometer", "indicated"), ("speedometer", "old_axle_ratio"), ("speedometer", "new_axle_ratio"),
    ("speedometer", "old_tyre"), ("speedometer", "new_tyre"), ("rectangular-pattern", "length"),
    ("rectangular-pattern", "width"), ("second-pattern", "first_circle"),
    ("second-pattern", "first_hole"), ("second-pattern", "second_circle"),
    ("second-pattern", "second_hole"), ("edge-distance", "flange"), ("edge-distance", "circle"),
    ("edge-distance", "hole"), ("flange-slip-torque", "clamp_force"), ("flange-slip-torque", "friction"),
    ("flange-slip-torque", "radius"), ("drill-speed", "diameter"), ("drill-speed", "cutting_speed"),
]  # fmt: skip
"""Inputs that have to be above 0."""

SLOPES = [
    ("level-reversal", "normal"), ("level-reversal", "turned"), ("wedge", "angle"),
    ("rotated-point", "angle"), ("joint-angle", "side_ahead"), ("joint-angle", "side_behind"),
    ("joint-angle", "plan_ahead"), ("joint-angle", "plan_behind"), ("joint-motion", "angle"),
]  # fmt: skip
"""Inputs between -90 and 90 deg."""

OUT_OF_RANGE: list[tuple[str, str, Value, Value, str]] = [
    ("wedge-angle", "thin", -TINY, 0, "0 or more"),
    ("wedge-angle", "thick", 3 - TINY, 3, "below the thin end of 3 mm; give the larger as thick"),
    ("thrust-angle", "wheelbase_left", 4200, 4200 - TINY, "1500 mm apart, not less than the track"),
    ("thrust-angle", "wheelbase_left", 1200, 1200 + TINY, "give all three in one unit"),
    ("square-by-diagonals", "first_diagonal", 4855, 3707, "can't belong to one parallelogram"),
    ("square-by-diagonals", "second_diagonal", 4858, 3712, "give diagonals that differ by less"),
    ("square-by-diagonals", "first_diagonal", 4854, 3707.5, "make 89.1 deg of skew; a frame over 10 deg"),
    (
        "square-by-diagonals",
        "second_diagonal",
        3712.2,
        3712.1,
        "one of the four is a slip: measure them again",
    ),
    ("u-bolt-leg", "stack", (45, -1), (45, 0), "stack: -1 is below 0"),
    ("u-bolt-leg", "stack", (0, 0), (0, TINY), "above 0"),
    ("u-bolt-leg", "washer", -TINY, 0, "0 or more"),
    ("u-bolt-leg", "projection", -TINY, 0, "0 or more"),
    ("u-bolt-blank", "bend_radius", None, 0, "missing; a square bend needs its inside radius in mm"),
    ("u-bolt-blank", "bend_radius", -TINY, 0, "0 or more"),
    (
        "u-bolt-blank",
        "bend_radius",
        39,
        38,
        "more than half of the inside width of 76 mm; give at most 38 mm",
    ),
    ("u-bolt-blank", "leg", 9, 10, "shorter than the bend, 10 mm"),
    ("shock-fit", "extended", 310, 490, "not above the collapsed length of 310 mm"),
    ("shock-fit", "ride_length", 309, 310, "outside 310 to 490 mm, collapsed to extended"),
    ("shock-fit", "ride_length", 491, 490, "outside 310 to 490 mm"),
    ("shock-fit", "lean", 90, 75, "lies flat or beyond; give one between -90 and 90 deg"),
    ("shock-fit", "lean", -90, -75, "lies flat or beyond"),
    ("shock-fit", "bump", 347, 346, "brings the mounts past each other; give less than 346.4101615 mm"),
    ("shock-fit", "bump", -TINY, 0, "0 or more"),
    ("shock-fit", "droop", -TINY, 0, "0 or more"),
    ("ride-height-change", "springs", "beside", "under the axle", "over the axle, under the axle"),
    ("track-change", "old_offset", 750, 749, "leaves no track between faces 1500 mm apart; give less"),
    ("track-change", "new_offset", 762, 761, "leaves no track between faces 1524 mm apart"),
    ("plan-angle", "offset", 1401, 1400, "at most the length"),
    ("plan-angle", "offset", -1401, -1400, "at most the length"),
    ("joint-pair", "ahead_slope", 90, 89, "between -90 and 90 deg"),
    ("joint-pair", "shaft_slope", -90, -80, "between -90 and 90 deg"),
    ("joint-pair", "behind_slope", -90, -80, "between -90 and 90 deg"),
    (
        "joint-pair",
        "set",
        "J3311",
        "j3311-1",
        "no set of joint limits; did you mean J3311-1?; accepted: J3311-1",
    ),
    ("joint-pair", "set", "mine", "3-Degree ", "accepted: J3311-1, 3-degree"),
    ("joint-limit", "set", "4-degree", "3-degree", "did you mean 3-degree?"),
    ("joint-limit", "speed", 5001, 5000, "above the table of J3311-1, which ends at 5000 rpm"),
    ("shaft-critical-speed", "wall", 38, 37, "not below half of the outside diameter of 76 mm"),
    (
        "shaft-critical-speed",
        "length",
        227,
        228,
        "below three diameters, where the beam formula ends; give 228",
    ),
    ("shaft-critical-speed", "share", Fraction(101, 100), 1, "above 1; give a share from 0 to 1"),
    ("shaft-torque", "grip", Fraction(201, 100), 2, "outside 0 to 2"),
    ("axle-ratio-from-turns", "turned", "three wheels", "one wheel", "both wheels, one wheel"),
    ("speedometer", "driven_from", "shaft", "wheels", "gearbox, wheels"),
    ("second-pattern", "first_holes", 2, 3, "3 to 100"),
    ("second-pattern", "second_holes", 2, 3, "3 to 100"),
    ("second-pattern", "second_holes", 101, 4, "3 to 100"),
    ("second-pattern", "first_circle", None, 100, "missing; give it in mm, or first_length and first_width"),
    ("second-pattern", "first_hole", 71, 20, "holes of 71 mm would overlap on their own circle of 100 mm"),
    ("second-pattern", "second_hole", 64, 19, "holes of 64 mm would overlap on their own circle of 90 mm"),
    ("second-pattern", "second_hole", 62, 19, "overlaps an old hole by 0.35 mm even at the best turn"),
    ("second-pattern", "seat", 11, 12, "not above the new hole of 11 mm"),
    ("edge-distance", "hole", 26, 25, "reaches beyond the edge of a flange of 120 mm"),
    ("drill-name", "diameter", Fraction("1.5874"), Fraction("1.5875"), "outside 1.5875 to 25.4"),
    ("drill-name", "diameter", Fraction("25.4001"), Fraction("25.4"), "outside 1.5875 to 25.4"),
    ("flange-slip-torque", "bolts", 2, 3, "3 to 100"),
    ("flange-slip-torque", "friction", Fraction(101, 100), 1, "outside 0 to 1"),
    ("drill-speed", "cutting_speed", 61, 60, "above 60 for high-speed steel in steel; give 60 m/min or less"),
]


def refused(name: str, key: str, bad: Value, says: str) -> None:
    """The bad value is refused in one line that begins with its key and holds these words."""
    with pytest.raises(WorkingOutError) as refusal:
        calculate(name, GOOD[name] | {key: bad})
    message = str(refusal.value)
    assert key in message.partition(":")[0]
    assert says in message
    assert message.isprintable()


@pytest.mark.parametrize(("name", "key", "bad", "good", "says"), OUT_OF_RANGE)
def test_a_value_out_of_range_is_refused_beside_a_good_one(
    name: str, key: str, bad: Value, good: Value, says: str
) -> None:
    """The bad value is refused in a line with its key and what is accepted; its neighbour is taken."""
    refused(name, key, bad, says)
    assert calculate(name, GOOD[name] | {key: good}).values


@pytest.mark.parametrize(("name", "key"), ABOVE)
@pytest.mark.parametrize("bad", [0, -1])
def test_what_has_to_be_above_0_is_refused_below(name: str, key: str, bad: int) -> None:
    """0 and less are refused by the key."""
    refused(name, key, bad, "is not above 0; give a number above 0")


@pytest.mark.parametrize(("name", "key"), SLOPES)
@pytest.mark.parametrize("sign", [1, -1])
def test_a_slope_that_reaches_upright_is_refused(name: str, key: str, sign: int) -> None:
    """90 deg is refused either way, a little less is taken."""
    refused(name, key, sign * 90, "between -90 and 90 deg")
    assert calculate(name, GOOD[name] | {key: sign * Fraction("89.9")}).values


def test_every_working_out_of_the_three_topics_is_here() -> None:
    """The good inputs are taken and give every result."""
    for name, inputs in GOOD.items():
        assert list(calculate(name, inputs).values) == [result.key for result in find(name).results]


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("ride-height-change", "old_pack"),
        ("ride-height-change", "new_pack"),
        ("track-change", "old_offset"),
        ("track-change", "new_offset"),
    ],
)
def test_old_and_new_go_together(name: str, key: str) -> None:
    """One of a pair alone is refused by the missing one."""
    with pytest.raises(WorkingOutError, match=rf"^{key}: missing; old_\w+ and new_\w+ go together"):
        calculate(name, GOOD[name] | {key: None})


def test_a_length_without_a_width_is_refused() -> None:
    """A rectangle needs both sides."""
    with pytest.raises(WorkingOutError, match=r"^first_width: missing; first_length and first_width go"):
        calculate("second-pattern", GOOD["second-pattern"] | {"first_length": 60})


RECTANGLE: dict[str, Value] = {"first_length": 60, "first_width": 80, "first_hole": 10, "second_hole": 10}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"first_length": 0}, "^first_length: 0 is not above 0"),
        ({"first_width": -80}, "^first_width: -80 is not above 0"),
        ({"first_holes": 5}, "^first_holes: 5 with a length and a width; a rectangle has 4"),
        ({"first_circle": Fraction("101.01")}, "^first_circle: 101.01 mm doesn't belong .* circle is 100 mm"),
        ({"first_circle": Fraction("98.99")}, "leave it out, or give it within 1 mm"),
        ({"first_width": 8, "first_circle": None}, "^first_hole: holes of 10 mm would overlap on their own"),
    ],
)
def test_a_rectangle_that_cannot_be_is_refused(change: dict[str, Value], says: str) -> None:
    """A rectangle has 4 holes, two sides above 0, holes apart and the circle of its diagonal."""
    with pytest.raises(WorkingOutError, match=says):
        calculate("second-pattern", GOOD["second-pattern"] | RECTANGLE | change)
    assert calculate("second-pattern", GOOD["second-pattern"] | RECTANGLE).values


def test_touching_holes_count_as_overlap() -> None:
    """No metal left between an old and a new hole is refused like an overlap."""
    inputs: dict[str, Value] = {
        "first_circle": 100,
        "second_circle": 100,
        "first_holes": 3,
        "second_holes": 3,
    }
    with pytest.raises(WorkingOutError, match=r"^second_hole: overlaps an old hole by 0\.00 mm"):
        calculate("second-pattern", GOOD["second-pattern"] | inputs | {"first_hole": 40, "second_hole": 60})


def test_a_round_bend_takes_no_radius() -> None:
    """A radius for a round bend is refused, and without one it is taken."""
    round_bend = GOOD["u-bolt-blank"] | {"bend": "round"}
    with pytest.raises(WorkingOutError, match=r"^bend_radius: a round bend takes half its inside width"):
        calculate("u-bolt-blank", round_bend)
    assert calculate("u-bolt-blank", round_bend | {"bend_radius": None}).values
    with pytest.raises(WorkingOutError, match=r"^leg: 37 mm is shorter than the bend, 38 mm"):
        calculate("u-bolt-blank", round_bend | {"bend_radius": None, "leg": 37})


def test_joints_bent_square_are_refused() -> None:
    """Slopes of 60 deg either way make a joint of 120 deg: refused by the end that makes it."""
    with pytest.raises(WorkingOutError, match=r"^ahead_slope: 120 deg from the shaft"):
        calculate("joint-pair", {"ahead_slope": 60, "shaft_slope": -60, "behind_slope": 0})
    with pytest.raises(WorkingOutError, match=r"^behind_slope: 90 deg from the shaft"):
        calculate("joint-pair", {"ahead_slope": 0, "shaft_slope": -30, "behind_slope": 60})


def test_a_parallelogram_laid_flat_is_refused() -> None:
    """Sides of 3 and 1 with diagonals of 4 and 2 have no width left."""
    with pytest.raises(WorkingOutError, match=r"^first_diagonal, second_diagonal: 4 and 2 mm can't belong"):
        calculate("square-by-diagonals", {"length": 3, "width": 1, "first_diagonal": 4, "second_diagonal": 2})


@pytest.mark.parametrize("side", ["length", "width"])
def test_diagonals_no_longer_than_a_side_are_refused(side: str) -> None:
    """Where neither diagonal is longer than the longer side, both are named; a little longer is taken."""
    good = GOOD["square-by-diagonals"]
    with pytest.raises(
        WorkingOutError, match=r"^first_diagonal, second_diagonal: neither is .* side of 3423 mm"
    ):
        calculate("square-by-diagonals", good | {side: 3423})
    assert calculate("square-by-diagonals", good | {side: 3423 - TINY}).values


def test_tips_further_apart_than_the_bar_are_refused() -> None:
    """Tip-to-tip distances that differ by the bar's length are a slip, named by both keys."""
    good = GOOD["housing-straightness"]
    with pytest.raises(WorkingOutError, match=r"^rear, front: 600 mm apart, not less than the bar of 600 mm"):
        calculate("housing-straightness", good | {"front": 900})
    with pytest.raises(WorkingOutError, match=r"^bottom, top: 600 mm apart"):
        calculate("housing-straightness", good | {"top": 2100})
    assert calculate("housing-straightness", good | {"front": 901, "top": 2099}).values


REMARKED: list[tuple[str, dict[str, Value], str]] = [
    ("level-reversal", {"normal": 46}, "check that both were taken from the same axis"),
    ("level-reversal", {"turned": -46}, "check that both were taken from the same axis"),
    ("wedge", {"angle": -1}, "the thick end lies at the other end"),
    ("u-bolt-leg", {"projection": 6}, "Projection 6 mm: less than the inspection rule's 6.35 mm"),
    ("shock-fit", {"bump": 140}, "fully closed 22.6 mm before the end of bump"),
    ("shock-fit", {"droop": 140}, "fully open 35.9 mm before the end of droop"),
]


@pytest.mark.parametrize(("name", "change", "says"), REMARKED)
def test_a_doubtful_fit_gets_a_remark(name: str, change: dict[str, Value], says: str) -> None:
    """What the figure doesn't say by itself is said beside it, and only when it applies; a level read 46 one way
    and 1 the other is besides out of the usual by its zero error."""
    plain, remarked = (calculate(name, GOOD[name] | each).remarks for each in ({}, change))
    assert any(says in remark for remark in remarked)
    assert len([remark for remark in remarked if not remark.startswith("zero error: ")]) == len(plain) + 1


@pytest.mark.parametrize(("travel", "remarks"), [(90, 0), (Fraction(181, 2), 2), (Fraction(179, 2), 0)])
def test_an_upright_damper_is_told_of_only_past_its_ends(travel: Value, remarks: int) -> None:
    """Upright, at 400 between 310 and 490, it reaches both ends at 90 mm and is told of beyond."""
    done = calculate("shock-fit", GOOD["shock-fit"] | {"lean": 0, "bump": travel, "droop": travel})
    assert len(done.remarks) == len(find("shock-fit").remarks) + remarks


def test_mounts_that_meet_are_refused() -> None:
    """Upright, bump by the whole length brings the mounts together."""
    with pytest.raises(WorkingOutError, match=r"^bump: 400 mm brings the mounts past each other"):
        calculate("shock-fit", GOOD["shock-fit"] | {"lean": 0, "bump": 400})


def test_a_quarter_inch_beyond_the_nut_gets_no_remark() -> None:
    """6.35 mm is what the rule lists."""
    done = calculate("u-bolt-leg", GOOD["u-bolt-leg"] | {"projection": Fraction("6.35")})
    assert done.remarks == find("u-bolt-leg").remarks


@pytest.mark.parametrize(
    ("name", "typed", "metric"),
    [
        ("shaft-length", {"along": "4 ft", "vertical": "4 in"}, {"along": "1219.2", "vertical": "101.6"}),
        (
            "shaft-speed",
            {"road_speed": "60 mph", "axle_ratio": "4", "tyre_diameter": "28 in"},
            {"road_speed": "96.56064", "axle_ratio": "4", "tyre_diameter": "71.12 cm"},
        ),
        ("drill-name", {"diameter": "1/2 in"}, {"diameter": "12.7"}),
        ("u-bolt-leg", {"stack": "1 in, 2 in", "washer": "0", "nut": "1/2 in", "projection": "1/4 in"},
         {"stack": "25.4, 50.8", "washer": "0", "nut": "12.7", "projection": "6.35"}),
    ],
)  # fmt: skip
def test_the_unit_typed_does_not_matter(name: str, typed: dict[str, str], metric: dict[str, str]) -> None:
    """The same lengths and speeds typed in other units give the same results."""
    assert answer(name, typed).outcome.values == answer(name, metric).outcome.values
