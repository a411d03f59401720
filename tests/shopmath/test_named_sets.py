"""Where published limits disagree, each set has a name and a date, and the result says which one was used."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from jobtrack.shopmath.catalogue import Value, calculate, find
from jobtrack.shopmath.common.named_sets import AGAIN_AFTER, CRITICAL_SHARES, NUT_FACTORS
from jobtrack.shopmath.driveline.tables import JOINT_SETS
from jobtrack.shopmath.loads.tyre_tables import PRESSURE_RULES
from jobtrack.shopmath.welding.tables import FILLET_SETS
from jobtrack.workings.answers import answer

NUT_FACTOR_ROWS = [
    ("0.20", "charts", "plain and dry"),
    ("0.17", "charts", "zinc plated and dry"),
    ("0.15", "charts", "lubricated"),
    ("0.20", "Shigley-8-15", "zinc plated"),
    ("0.20", "Shigley-8-15", "surface not known"),
    ("0.18", "Shigley-8-15", "lubricated"),
    ("0.30", "Shigley-8-15", "black without plating"),
    ("0.16", "Shigley-8-15", "cadmium"),
    ("0.12", "Shigley-8-15", "anti-seize"),
    ("0.295", "Bickford-Nassar", "zinc plated and dry"),
    ("0.22", "bulletins", "zinc plated"),
    ("0.16", "bulletins", "lubricated"),
    ("0.13", "bulletins", "anti-seize"),
]
"""Figures read in copies (zinc of two suppliers' charts, oil of three, dry of four), bulletins from memory."""

RANGES = [
    ("dry steel", "0.18", "0.27"),
    ("machine oil", "0.1", "0.26"),
    ("zinc on steel", "0.17", "0.35"),
    ("cadmium", "0.15", "0.19"),
]
"""A supplier's ranges (zipfastener.com)."""

DATED = re.compile(r"\b(19|20)\d\d\b|undated|from memory|no edition|edition not named")


@pytest.mark.parametrize(("factor", "name", "surface"), NUT_FACTOR_ROWS)
def test_a_nut_factor_names_the_sets_that_list_it(factor: str, name: str, surface: str) -> None:
    """The torque and the clamp force both say in which set and for what surface their factor stands."""
    torque = answer("tightening-torque", {"thread": "M10", "grade": "8.8", "nut_factor": factor})
    clamp = answer("bolt-clamp", {"torque": "50", "nut_factor": factor, "diameter": "10"})
    for done in (torque, clamp):
        said = next(remark for remark in done.remarks if remark.startswith(f"Nut factor {float(factor):g}: "))
        in_set = next(part for part in re.split("; ", said) if f"set {name}, " in part)
        assert surface in in_set.rstrip(".").rpartition(": ")[2].split(", ")


def test_no_nut_factor_stands_in_a_set_that_is_not_listed_here() -> None:
    """The table holds these figures and ranges, and no others."""
    single = {(one.low, one.name, one.of) for one in NUT_FACTORS if one.single}
    ranges = {(one.of, one.low, one.high) for one in NUT_FACTORS if not one.single}
    assert single == {(Fraction(factor), name, surface) for factor, name, surface in NUT_FACTOR_ROWS}
    assert ranges == {(of, Fraction(low), Fraction(high)) for of, low, high in RANGES}


@pytest.mark.parametrize(("of", "low", "high"), RANGES)
def test_a_factor_between_listed_ones_names_its_ranges(of: str, low: str, high: str) -> None:
    """0.19 and 0.26 stand in no set by themselves: each range around them is named, with its ends."""
    inside = "0.19" if of == "cadmium" else "0.26"
    said = answer("bolt-clamp", {"torque": "50", "nut_factor": inside, "diameter": "10"}).remarks
    if Fraction(low) <= Fraction(inside) <= Fraction(high):
        assert any(f"{of} {low} to {high}" in remark for remark in said)
    beyond = str(float(Fraction(high) + Fraction("0.001")))
    said = answer("bolt-clamp", {"torque": "50", "nut_factor": beyond, "diameter": "10"}).remarks
    assert not any(f"{of} {low} to {high}" in remark for remark in said)


@pytest.mark.parametrize("factor", [0.45, Fraction("0.36"), 0.05])
def test_a_factor_of_nobody_is_said(factor: Value) -> None:
    """What no set lists is taken, and the result says that nobody lists it."""
    done = calculate("bolt-clamp", {"torque": 50, "nut_factor": factor, "diameter": 10})
    assert any("in none of the sets; write down whose it is" in remark for remark in done.remarks)


def test_a_float_names_the_same_sets_as_the_figure_typed() -> None:
    """0.295 as a float lies a hair beside the fraction and is still that figure."""
    exact, near = (
        calculate("bolt-clamp", {"torque": 50, "nut_factor": factor, "diameter": 10}).remarks
        for factor in (Fraction("0.295"), 0.295)
    )
    assert exact == near
    assert any("Bickford and Nassar" in remark for remark in near)


@pytest.mark.parametrize(
    ("share", "says"),
    [
        ("0.70", "set ims, a shaft maker's page (ims-ltd.co.uk, undated): vehicles."),
        ("0.65", ": industrial drives."),
        (
            "0.75",
            "set cardan, a shaft maker's page (cardanindia.com, undated), printed as 'x 7.5': shafts; set DSAG",
        ),
        ("75 %", "set DSAG-0200, a driveline guide, from memory: at most."),
        ("0.8", "Share 0.8: in none of the sets"),
    ],
)
def test_a_share_of_the_critical_speed_names_its_set(share: str, says: str) -> None:
    """The result says whose share was taken; left out it is 0.75."""
    tube = {"outside": "76.2", "wall": "2.1", "length": "1500"}
    assert any(says in remark for remark in answer("shaft-critical-speed", tube | {"share": share}).remarks)
    left_out = answer("shaft-critical-speed", tube)
    assert any(remark.startswith("Share 0.75: set cardan") for remark in left_out.remarks)


@pytest.mark.parametrize(
    "says",
    [
        "U-bolts again after a distance on which sources disagree: set lhrods, ",
        "set truckspring, a spring shop's page (truckspring.com, 23 May 2016): 500 miles (805 km)",
        "set truck-manual, a truck maker's operator's manual, undated, read in a copy: 500 miles (805 km)",
        "(lhrods.com, undated): 100 miles (161 km)",
        "from memory: 1000 miles (1609 km).",
        "Wheel nuts again after a distance on which sources disagree: set TM-5-3820, ",
        "read in a copy: 50 miles (80 km)",
        "undated: 50 to 100 miles (80 to 161 km).",
    ],
)
def test_the_stages_say_when_to_tighten_again_and_by_whom(says: str) -> None:
    """Each distance stands beside whose it is; none is the program's own."""
    assert any(says in remark for remark in find("torque-stages").remarks)


@pytest.mark.parametrize(
    ("name", "inputs", "says"),
    [
        ("joint-limit", {"speed": "3200"}, "J3311-1 (2005/2008)"),
        ("joint-limit", {"speed": "3200", "set": "3-degree"}, "3 degree upper limit"),
        ("joint-pair", {"ahead_slope": "3", "shaft_slope": "7", "behind_slope": "3"}, "J3311-1 (2005/2008)"),
        ("tyre-part-load", {"index": "98", "pressure": "240", "full_pressure": "350"}, "Rule power-0.8: "),
        ("fillet-minimum", {"thickness": "6", "set": "cyclic"}, "Set cyclic: "),
        ("fillet-minimum", {"thickness": "6"}, "the thinner part counts"),
        ("fillet-minimum", {"thickness": "6", "set": "AWS"}, "the thicker part counts"),
    ],
)
def test_a_chosen_set_is_named_in_the_answer(name: str, inputs: dict[str, str], says: str) -> None:
    """Whose limits they are stands in the answer, the default's as well."""
    assert says in answer(name, inputs).as_text()


def test_each_set_has_a_date_or_says_that_it_has_none() -> None:
    """A name, whose it is, and a year, or in words that none is known."""
    told = [(one.name, one.whose) for one in (*NUT_FACTORS, *CRITICAL_SHARES, *AGAIN_AFTER)]
    told += [(each.name, each.title) for each in JOINT_SETS.values()]
    told += [(each.name, f"{each.title} {each.read}") for each in FILLET_SETS.values()]
    told += [(name, rule.whose) for name, rule in PRESSURE_RULES.items()]
    assert all(name and DATED.search(whose) for name, whose in told)
