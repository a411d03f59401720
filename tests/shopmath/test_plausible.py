"""Inputs outside what is usual are asked about, with what may have been meant; they are never refused for it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from jobtrack.shopmath.catalogue import Quantity, by_topic, calculate, find
from jobtrack.shopmath.plausible import _MISTAKEN, question
from jobtrack.shopmath.plausible_tables import PLAUSIBLE, Plausible
from jobtrack.workings.answers import Answer, answer
from tests.support.other_units import registry

EVERY = [(name, each) for names in by_topic().values() for name in names for each in find(name).inputs]
RANGED = [(name, each) for name, each in EVERY if each.plausible]

NOT_PHYSICAL = ("text", "date", "yes/no")
NO_RANGE = {
    "list mass @ distance": "masses taken out stand below 0, and distances ahead of the axle too",
    "count": "a whole number has its own bounds, which refuse",
    "number": "any number in any unit",
    "list number": "any number in any unit",
}
"""Kinds of inputs that are numbers and have no range, and why."""
NO_RANGE_OF_ITS_OWN = {
    "relative-level": "past 45 deg it has a remark of its own, at 90 it refuses",
    "level-reversal": "past 45 deg it has a remark of its own, at 90 it refuses",
}
"""Workings-out whose numbers have no range though others of their kind do, and why."""

ASKED = [
    ("force-on-grade", {"grade": "0.3"}, "grade 0.3 %: was 30 % meant? Usual is 2 to 60 % (49 CFR"),
    ("brake-share", {"rear_share": "0.3"}, "rear_share 0.3 %: was 30 % meant?"),
    ("duty-cycle", {"rated_duty": "1"}, "rated_duty 1 %: was 100 % meant?"),
    ("torque-stages", {"shares": "1; 60; 100"}, "shares 1 %: was 100 % meant?"),
    ("braking-weight-share", {"deceleration": "0.006"}, "deceleration 0.006: was 0.6 meant?"),
    ("perch-shift", {"spacing_now": "38"}, "spacing_now 38 mm: was 38 in meant?"),
    ("perch-shift", {"spacing_now": "1012 in"}, "spacing_now 25700 mm: was 1012 mm meant?"),
    ("perch-shift", {"spacing_now": "101.2"}, "spacing_now 101.2 mm: was 1012 mm meant?"),
    ("weigh-ticket", {"wheelbase": "2.7"}, "wheelbase 2.7 mm: was 2.7 m meant?"),
    ("axle-limit", {"plate": "1.72"}, "plate 1.72 kg: was 1.72 t meant?"),
    ("tyre-part-load", {"pressure": "34", "full_pressure": "50"}, "pressure 34 kPa: was 34 psi meant?"),
    ("line-pressure", {"bore": "0.75"}, "bore 0.75 mm: was 0.75 in meant?"),
    ("three-point", {"long": "720"}, "long 720 h: was 720 min meant?"),
    ("shaft-speed", {"tyre_diameter": "29"}, "tyre_diameter 29 mm: was 29 in meant?"),
    ("shaft-critical-speed", {"wall": "0.083"}, "wall 0.083 mm: was 0.083 in meant?"),
    ("flange-slip-torque", {"clamp_force": "250 kN"}, "clamp_force 250000 N: was 25000 N meant?"),
    ("shock-fit", {"lean": "-30"}, "lean -30 deg: was 30 deg meant?"),
]


def asked(done: Answer) -> list[str]:
    """The questions about inputs that are out of the usual."""
    return [remark for remark in done.remarks if "? Usual is " in remark]


@pytest.mark.parametrize(("name", "typed", "says"), ASKED)
def test_a_slip_is_asked_about_and_worked_out_all_the_same(
    name: str, typed: dict[str, str], says: str
) -> None:
    """A share typed as a fraction, a unit forgotten, a point misplaced: the answer stands, with one question."""
    done = answer(name, find(name).example | typed)
    assert done.outcome.values
    assert any(remark.startswith(says) for remark in asked(done))


@pytest.mark.parametrize("name", [name for names in by_topic().values() for name in names])
def test_no_example_is_asked_about(name: str) -> None:
    """What the catalogue shows as its example is usual."""
    assert asked(answer(name, find(name).example)) == []


def test_what_is_left_out_is_not_asked_about() -> None:
    """A default is nobody's slip: a correlation, an offset or a load of 0 that nobody typed."""
    assert asked(answer("axle-loads", {"wheelbase": "2700", "items": "90 @ 1500"})) == []


@pytest.mark.parametrize(("name", "quantity"), RANGED)
def test_each_range_asks_outside_and_not_inside(name: str, quantity: Quantity) -> None:
    """Both ends are usual, a hair beyond either is asked about; a list is asked about for one of its items."""
    usual = quantity.plausible
    assert usual is not None
    middle = (usual.low + usual.high) / 2
    assert [question(quantity, value) for value in (usual.low, middle, usual.high)] == [None] * 3
    for value in (usual.low - Fraction(1, 1000), usual.high + Fraction(1, 1000)):
        text = question(quantity, value)
        assert text is not None
        assert text.startswith(f"{quantity.key} ")
        assert "meant? Usual is " in text
        assert text.endswith(f" ({usual.source}).")
        assert question(quantity, (middle, value)) == text


def test_no_range_stands_for_what_is_gone() -> None:
    """Each range belongs to an input of the catalogue, is wide, and names whose figure it is."""
    known = {(name, each.key) for name, each in EVERY}
    ranges: list[tuple[str, str, Plausible]] = [
        (name, key, usual) for name, usuals in PLAUSIBLE.items() for key, usual in usuals.items()
    ]
    assert {(name, key) for name, key, _ in ranges} <= known
    assert all(usual.low < usual.high and usual.source for _, _, usual in ranges)


def test_no_flange_bolt_is_clamped_beyond_its_proof_load() -> None:
    """The most that is usual in a flange is the proof load of M14 in 12.9, to three figures."""
    proof = calculate("proof-load", {"thread": "M14", "grade": "12.9"}).values["load"]
    assert isinstance(proof, float | Fraction)
    assert float(f"{float(proof):.3g}") == PLAUSIBLE["flange-slip-torque"]["clamp_force"].high


def test_inputs_without_a_range_have_a_reason(capsys: pytest.CaptureFixture[str]) -> None:
    """Every number that goes into a working-out has a range, but for the kinds named with their reason."""
    bare = [
        (name, each)
        for name, each in EVERY
        if not each.plausible and not each.choices and each.unit not in NOT_PHYSICAL
    ]
    assert {each.unit for name, each in bare if name not in NO_RANGE_OF_ITS_OWN} == set(NO_RANGE)
    assert {name for name, each in bare if each.unit not in NO_RANGE} == set(NO_RANGE_OF_ITS_OWN)
    with capsys.disabled():
        works = len({name for name, _ in RANGED})
        print(
            f"\n{len(RANGED)} of {len(EVERY)} inputs have a range, in {works} workings-out; {len(bare)} numbers none"
        )


@pytest.mark.parametrize(
    ("own", "other"), [(own, each) for own, others in _MISTAKEN.items() for each in others]
)
def test_units_that_may_be_meant_have_their_factor(own: str, other: tuple[str, Fraction | int]) -> None:
    """What one of the other unit is in the catalogue's own, by an independent library."""
    spelt = {"lbf ft": "foot * lbf", "lbf in": "inch * lbf", "kgf m": "kgf * meter", "N*m": "newton * meter",
             "t": "tonne", "in/min": "inch/minute", "in": "inch"}  # fmt: skip
    unit, factor = other
    found = registry().Quantity(1.0, spelt.get(unit, unit)).to(spelt.get(own, own))
    assert float(factor) == pytest.approx(found.magnitude, rel=1e-12)
