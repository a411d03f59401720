"""Fasteners and welding: bad inputs get one line with the key; the nearest good value is taken."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from jobtrack.shopmath.catalogue import Value, WorkingOutError, calculate
from jobtrack.shopmath.fasteners.tightening import torque_stages

TINY = Fraction(1, 10**6)
CARBON = {"C": Fraction("0.2"), "Mn": Fraction("0.8")}

GOOD: dict[str, dict[str, Value]] = {
    "stress-area": {"thread": "M10"},
    "proof-load": {"thread": "M10", "grade": "8.8"},
    "bolt-clamp": {"torque": 50, "nut_factor": Fraction(1, 5), "diameter": 10},
    "torque-stages": {"torque": 110, "shares": (30, 60, 100)},
    "tightening-order": {"bolts": 8},
    "adapter-setting": {"torque": 110, "wrench": 400, "adapter": 80, "angle": 180},
    "thread-engagement": {"thread": "1/2-13"},
    "fillet-minimum": {"thickness": 6, "set": "AWS"},
    "fillet-strength": {"leg": 6, "length": 240, "electrode": "E7018"},
    "weld-group": {"shape": "two lines", "width": 70, "depth": 120},
    "perch-weld": {
        "line": 120,
        "spacing": 70,
        "leg": 6,
        "electrode": "E70",
        "force": 8000,
        "height": 90,
        "twist": 0,
    },
    "heat-input": {"volts": 23, "amps": 120, "travel": 150, "k": Fraction(4, 5)},
    "travel-speed": {"length": 120, "time": 48},
    "carbon-equivalent": {**CARBON, "Cr": 0, "Mo": 0, "V": 0, "Ni": 0, "Cu": 0},
    "duty-cycle": {"rated_current": 200, "rated_duty": 25, "current": 120},
    "rods-needed": {
        "leg": 6,
        "length": 480,
        "rod": Fraction("3.2"),
        "rod_length": 350,
        "stub": 50,
        "extra": 15,
    },
    "wire-settings": {"thickness": 3, "wire": Fraction("0.9")},
    "electrode-current": {"electrode": "E7018", "diameter": Fraction("3.2")},
    "eye-shade": {"process": "stick", "current": 120},
}
"""Inputs that are taken; each refusal changes one of them."""

LONG = tuple(range(90, 101))

OUT_OF_RANGE: list[tuple[str, str, Value, Value, str]] = [
    ("stress-area", "thread", "M12x2", "M12x1.75", "near it: M12x1.75"),
    ("stress-area", "thread", "1/2-1.25", "1/2-13", "can't be read"),
    ("proof-load", "thread", "M11", "M10", "in none of the tables"),
    ("proof-load", "grade", "5", "8.8", "accepted for metric threads: 8.8, 10.9, 12.9"),
    ("bolt-clamp", "torque", 0, TINY, "above 0"),
    ("bolt-clamp", "diameter", 0, TINY, "above 0"),
    ("bolt-clamp", "nut_factor", Fraction("0.049"), Fraction("0.05"), "0.05 to 0.5"),
    ("bolt-clamp", "nut_factor", Fraction("0.501"), Fraction("0.5"), "0.05 to 0.5"),
    ("torque-stages", "torque", 0, TINY, "above 0"),
    ("torque-stages", "shares", (30, 60), (30, 60, 100), "the last is 60, not 100; give rising percentages"),
    ("torque-stages", "shares", (30, 60, 101), (30, 60, 100), "the last is 101, not 100"),
    ("torque-stages", "shares", (60, 60, 100), (60, 61, 100), "60 doesn't rise above 60"),
    ("torque-stages", "shares", (60, 30, 100), (30, 60, 100), "30 doesn't rise above 60"),
    ("torque-stages", "shares", (0, 100), (TINY, 100), "0 doesn't rise above 0"),
    ("torque-stages", "shares", LONG, LONG[1:], "11 stages are more than 10"),
    ("tightening-order", "bolts", 1, 2, "2 to 40"),
    ("tightening-order", "bolts", 41, 40, "2 to 40"),
    ("adapter-setting", "torque", 0, TINY, "above 0"),
    ("adapter-setting", "wrench", 0, 400, "above 0"),
    ("adapter-setting", "adapter", -1, 0, "0 or more"),
    ("adapter-setting", "adapter", 400, 400 - TINY, "leaves a reach of 0 mm"),
    ("adapter-setting", "angle", -1, 0, "0 to 180"),
    ("adapter-setting", "angle", 181, 180, "0 to 180"),
    (
        "thread-engagement",
        "thread",
        "M10",
        "1/4-20",
        "no limits of M10x1.5 are listed; accepted: 1/4-20, 5/16-18",
    ),
    ("thread-engagement", "thread", "1/2-20", "1/2-13", "no limits of 1/2-20"),
    ("fillet-minimum", "thickness", 0, TINY, "above 0"),
    ("fillet-minimum", "set", "cyclical", "cyclic", "did you mean cyclic?; accepted: AISC, AWS, cyclic"),
    ("fillet-strength", "leg", 0, TINY, "above 0"),
    ("fillet-strength", "length", 0, 24, "above 0"),
    (
        "fillet-strength",
        "length",
        24 - TINY,
        24,
        "below four legs; give 24 mm or more, or a leg of 5.99999975 mm",
    ),
    ("fillet-strength", "electrode", "E80", "E70", "is in none of the tables; accepted: E60"),
    ("fillet-strength", "electrode", "E7048", "E7028", "is in none of the tables"),
    ("fillet-strength", "electrode", "ER60S-6", "ER70S-6", "is in none of the tables"),
    ("fillet-strength", "electrode", "wire", "ER70S-6", "is in none of the tables"),
    ("weld-group", "width", 0, TINY, "above 0"),
    ("weld-group", "depth", 0, TINY, "above 0"),
    ("weld-group", "depth", None, 120, "two lines needs it in mm"),
    ("perch-weld", "line", 24 - TINY, 24, "below four legs"),
    ("perch-weld", "line", 0, 24, "above 0"),
    ("perch-weld", "spacing", 0, TINY, "above 0"),
    ("perch-weld", "leg", 0, TINY, "above 0"),
    ("perch-weld", "force", -1, 0, "0 or more"),
    ("perch-weld", "height", -1, 0, "0 or more"),
    ("perch-weld", "twist", -1, 0, "0 or more"),
    ("perch-weld", "electrode", "E90", "ER70S-6", "in none of the tables"),
    ("heat-input", "volts", Fraction("7.9"), 8, "8 to 45"),
    ("heat-input", "volts", Fraction("45.1"), 45, "8 to 45"),
    ("heat-input", "amps", 0, 120, "above 0"),
    ("heat-input", "travel", 0, 150, "above 0"),
    ("heat-input", "k", 0, Fraction("0.6"), "above 0"),
    ("heat-input", "k", Fraction("1.01"), 1, "0 to 1"),
    ("travel-speed", "length", 0, TINY, "above 0"),
    ("travel-speed", "time", 0, TINY, "above 0"),
    ("carbon-equivalent", "C", -TINY, 0, "0 or more"),
    ("carbon-equivalent", "C", 1 + TINY, 1, "0 to 1"),
    ("carbon-equivalent", "Cu", -1, 0, "0 or more"),
    ("carbon-equivalent", "V", -1, 0, "0 or more"),
    ("carbon-equivalent", "Mn", Fraction("14.81"), Fraction("14.8"), "add up to 15.01 %, over 15 %"),
    ("carbon-equivalent", "Cr", Fraction("14.01"), 14, "add up to 15.01 %, over 15 %"),
    ("carbon-equivalent", "Mo", Fraction("14.01"), 14, "add up to 15.01 %, over 15 %"),
    ("carbon-equivalent", "V", Fraction("14.01"), 14, "add up to 15.01 %, over 15 %"),
    ("carbon-equivalent", "Ni", Fraction("14.01"), 14, "add up to 15.01 %, over 15 %"),
    ("carbon-equivalent", "Cu", Fraction("14.01"), 14, "add up to 15.01 %, over 15 %"),
    ("duty-cycle", "rated_current", 0, 200, "above 0"),
    ("duty-cycle", "rated_duty", Fraction("0.9"), 1, "1 to 100"),
    ("duty-cycle", "rated_duty", 101, 100, "1 to 100"),
    ("duty-cycle", "current", 0, TINY, "above 0"),
    ("duty-cycle", "current", None, 120, "give either current in A or duty in percent"),
    ("duty-cycle", "duty", 60, None, "given beside current"),
    ("rods-needed", "leg", 0, TINY, "above 0"),
    ("rods-needed", "length", 0, TINY, "above 0"),
    ("rods-needed", "rod", 0, TINY, "above 0"),
    ("rods-needed", "rod_length", 0, 350, "above 0"),
    ("rods-needed", "stub", -1, 0, "0 or more"),
    ("rods-needed", "stub", 350, 350 - TINY, "leaves nothing of a rod of 350 mm"),
    ("rods-needed", "extra", -1, 0, "0 to 100"),
    ("rods-needed", "extra", 101, 100, "0 to 100"),
    ("wire-settings", "thickness", 0, TINY, "above 0"),
    (
        "wire-settings",
        "wire",
        1,
        Fraction("1.2"),
        "1 mm is not listed; accepted: 0.6, 0.8, 0.9, 1.2 mm, or 0.024",
    ),
    ("wire-settings", "wire", Fraction("0.901"), Fraction("0.9"), "is not listed"),
    ("electrode-current", "diameter", 5, 4, "5 mm has no range for E7018; accepted: 2.4, 3.2, 4.0 mm"),
    ("electrode-current", "diameter", Fraction("1.6"), Fraction("2.5"), "no range for E7018"),
    (
        "electrode-current",
        "electrode",
        "E8018",
        "E6013",
        "has no rows; accepted: E6010, E6011, E6013, E7018, generic",
    ),
    ("electrode-current", "electrode", "E70", "E7018", "has no rows"),
    ("eye-shade", "current", 0, 1, "above 0"),
    ("eye-shade", "current", 551, 550, "551 A has no row for stick; accepted: up to 550 A"),
    ("eye-shade", "current", 550 + TINY, 550, "accepted: up to 550 A"),
]


@pytest.mark.parametrize(("name", "key", "bad", "good", "says"), OUT_OF_RANGE)
def test_a_bad_value_of_these_topics_is_refused(
    name: str, key: str, bad: Value, good: Value, says: str
) -> None:
    """The bad value is refused in a line with its key and what is accepted; its neighbour is taken."""
    with pytest.raises(WorkingOutError) as refusal:
        calculate(name, GOOD[name] | {key: bad})
    line = str(refusal.value)
    assert line.startswith(f"{key}: ")
    assert says in line
    assert "\n" not in line
    assert calculate(name, GOOD[name] | {key: good}).values


@pytest.mark.parametrize(
    ("name", "changes", "says"),
    [
        ("weld-group", {"shape": "circle"}, "^depth: a circle has none; give its diameter as width"),
        ("weld-group", {"shape": "rectangle", "depth": None}, "^depth: missing; rectangle needs it"),
        ("duty-cycle", {"current": None, "duty": Fraction("0.9")}, "^duty: .* 1 to 100"),
        ("duty-cycle", {"current": None, "duty": 101}, "^duty: .* 1 to 100"),
        ("eye-shade", {"process": "mig", "current": 501}, "^current: .*up to 500 A"),
        ("eye-shade", {"process": "plasma cutting", "current": 300}, "^current: .*below 300 A"),
        (
            "heat-input",
            {"travel": Fraction("2.5")},
            "^travel: 2.5 mm/min makes 52.992 kJ/mm, outside 0.1 to 5",
        ),
    ],
)
def test_what_does_not_go_together_is_refused(name: str, changes: dict[str, Any], says: str) -> None:
    """A value that doesn't belong to the choice beside it is refused by its key."""
    with pytest.raises(WorkingOutError, match=says):
        calculate(name, GOOD[name] | changes)


@pytest.mark.parametrize(("travel", "heat"), [(600, Fraction("0.1")), (12, 5)])
def test_heat_at_its_ends_is_given(travel: int, heat: Fraction) -> None:
    """Exactly 0.1 and 5 kJ/mm are given, the least beyond is refused."""
    good: dict[str, Value] = {"volts": 10, "amps": 125, "travel": travel, "k": Fraction(4, 5)}
    assert calculate("heat-input", good).values["heat"] == heat
    beyond = travel + TINY if travel == 600 else travel - TINY
    with pytest.raises(WorkingOutError, match=r"^travel: "):
        calculate("heat-input", good | {"travel": beyond})


def test_no_stages_are_refused_by_the_function_too() -> None:
    """The function itself refuses an empty list of shares."""
    with pytest.raises(WorkingOutError, match=r"^shares: the last is nothing, not 100"):
        torque_stages(100, ())


@pytest.mark.parametrize(
    ("one", "same"),
    [
        ("E7018", "e 7018"),
        ("E70", "E70xx"),
        ("E70", "7018-1 H4R"),
        ("E60", "6013"),
        ("E70", "ER70S-6"),
        ("E70", "er70s"),
    ],
)
def test_one_electrode_has_several_spellings(one: str, same: str) -> None:
    """An electrode is the same however the packet writes it; wire of 70 ksi is no E60."""
    inputs = GOOD["fillet-strength"]
    results = [calculate("fillet-strength", inputs | {"electrode": each}).values for each in (one, same)]
    assert results[0] == results[1]
    assert (
        calculate("fillet-strength", inputs | {"electrode": "E60"}).values
        != calculate("fillet-strength", inputs | {"electrode": "E70"}).values
    )
