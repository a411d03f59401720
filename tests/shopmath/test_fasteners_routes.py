"""Fasteners against a second way: printed tables, statics by vectors, drawn threads, orders looked at."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import calculate
from jobtrack.shopmath.common.tables import ENGAGEMENT_LIMITS
from jobtrack.shopmath.common.threads import INCH, LISTED
from jobtrack.shopmath.fasteners.engagement import thread_engagement
from jobtrack.shopmath.fasteners.strength import proof_load, stress_area
from jobtrack.shopmath.fasteners.tightening import (
    adapter_setting,
    tightening_order,
    torque_stages,
    turning_order,
)
from jobtrack.shopmath.fasteners.torque import bolt_clamp, tightening_torque

PUBLISHED = tomli.loads((Path(__file__).parent / "published.toml").read_text(encoding="utf-8"))

torque = st.fractions("0.5", 2000, max_denominator=1000)


def printed(table: str) -> list[Any]:
    """Each row of a table of areas or proof loads with its group."""
    return [pytest.param(group, row, id=row[0]) for group in PUBLISHED[table] for row in group["rows"]]


@pytest.mark.parametrize(("group", "row"), printed("area"))
def test_every_printed_area_is_given(group: dict[str, Any], row: list[Any]) -> None:
    """The working-out gives each published stress area within 0.5 %."""
    square = float(INCH) ** 2 if group["unit"] == "in²" else 1
    assert float(stress_area(row[0]).area) / square == pytest.approx(row[1], rel=0.005)


@pytest.mark.parametrize(("group", "row"), printed("proof"))
def test_every_printed_proof_load_is_given(group: dict[str, Any], row: list[Any]) -> None:
    """The working-out gives each published proof load within 0.65 %."""
    assert group["kind"] == "found"
    for grade, load in zip(("8.8", "10.9", "12.9"), row[1:], strict=True):
        assert float(proof_load(row[0], grade).load) == pytest.approx(load, rel=0.0065)


@pytest.mark.parametrize("name", list(LISTED))
def test_an_area_lies_between_its_circles(name: str) -> None:
    """The area is that of the circle midway between the pitch diameter and the minor diameter of its kind."""
    thread = LISTED[name]
    minor = 1.226869 if thread.metric else 1.299038
    midway = float(thread.diameter) - (0.649519 + minor) / 2 * float(thread.pitch)
    assert float(stress_area(name).area) == pytest.approx(math.pi / 4 * midway**2, rel=1e-5)


@given(torque, st.fractions("0.05", "0.5", max_denominator=100), st.integers(3, 40))
def test_clamp_takes_the_torque_back(wanted: Fraction, factor: Fraction, diameter: int) -> None:
    """The clamp force, times nut factor and diameter, is the torque again, exactly; more torque clamps more."""
    clamp = bolt_clamp(wanted, factor, diameter).clamp_force
    assert clamp * factor * diameter == 1000 * wanted
    assert bolt_clamp(wanted + 1, factor, diameter).clamp_force > clamp


def test_clamp_and_torque_agree() -> None:
    """A torque worked out for a bolt clamps the force that was worked out beside it."""
    for name, thread in LISTED.items():
        done = tightening_torque(name, "10.9" if thread.metric else "8")
        clamp = bolt_clamp(done.torque, Fraction(1, 5), thread.diameter).clamp_force
        assert float(clamp) == pytest.approx(float(done.clamp_force))


@pytest.mark.parametrize(
    ("friction", "factor"), [(0.10, 0.1435), (0.12, 0.1674), (0.15, 0.2033), (0.20, 0.2631)]
)
def test_clamp_by_the_friction_of_thread_and_head(friction: float, factor: float) -> None:
    """The long form with the friction of an M10's thread and head clamps as the nut factor it stands for."""
    metre = 1.5 / (2 * math.pi) + friction * 9.026 / (2 * math.cos(math.radians(30))) + friction * 13.5 / 2
    force = 50_000 / metre
    assert float(bolt_clamp(50, factor, 10).clamp_force) == pytest.approx(force, rel=5e-4)


@given(torque, st.lists(st.integers(1, 99), max_size=9, unique=True))
def test_stages_rise_to_the_torque(wanted: Fraction, below: list[int]) -> None:
    """The stages rise, the last is the torque itself, and each over the last is its share again."""
    shares = [*sorted(below), 100]
    stages = torque_stages(wanted, shares).stages
    assert stages[-1] == wanted
    assert list(stages) == sorted(stages)
    assert [stage / wanted * 100 for stage in stages] == shares


@pytest.mark.independent("tightening-order")
@pytest.mark.parametrize("bolts", range(2, 41))
def test_an_order_is_fair(bolts: int) -> None:
    """All bolts once, opposites in turn, neighbours never in turn, and the pull stays near the middle."""
    order = tightening_order(bolts).order
    assert sorted(order) == list(range(1, bolts + 1))
    if bolts % 2 == 0:
        assert all(
            (second - first) % bolts == bolts // 2
            for first, second in zip(order[::2], order[1::2], strict=True)
        )
    apart = [min((second - first) % bolts, (first - second) % bolts) for first, second in pairwise(order)]
    assert min(apart) > 1 or bolts < 5
    places = np.exp(2j * np.pi * (np.array(order) - 1) / bolts)
    assert np.abs(np.cumsum(places)).max() <= 1 + 1e-9


def test_a_short_order_says_what_it_cannot_keep() -> None:
    """With fewer than five bolts neighbours come in turn, and it is said."""
    assert [len(tightening_order(bolts).remarks) for bolts in (2, 4, 5, 8)] == [1, 1, 0, 0]


ON_THE_CLOCK = {4: "12 6 3 9", 8: "12 6 3 9 1:30 7:30 4:30 10:30"}
"""Places as two suppliers' pages give them: "Start at 12 o'clock and then move to 6 o'clock", then "the 3 and 9
o'clock pair", then "the pair closest to 1:30 and 7:30" (henniggasket.com, how to bolt flanges); "0 - 180°, 90° - 270°,
45° - 225°, 135° - 315°" (a heater maker's specification page with a gasket maker's bolt table). Found."""


def clock(place: str) -> float:
    """The share of a turn that a place on the clock is."""
    hour, _, minutes = place.partition(":")
    return (int(hour) % 12 + int(minutes or 0) / 60) / 12


@pytest.mark.parametrize("bolts", ON_THE_CLOCK)
def test_an_order_is_the_published_one_on_the_clock(bolts: int) -> None:
    """Bolt 1 at twelve o'clock, the numbers clockwise."""
    turned = [(place - 1) / bolts for place in turning_order(bolts)]
    assert turned == [clock(place) for place in ON_THE_CLOCK[bolts].split()]


@given(st.integers(0, 200))
def test_any_number_of_bolts_has_an_order(bolts: int) -> None:
    """Each bolt once, also where the working-out refuses the number; a huge number takes no room."""
    assert sorted(turning_order(bolts)) == list(range(1, bolts + 1))
    assert turning_order(10**12)[10**11] == 10**11 + 1


@pytest.mark.independent("adapter-setting")
@given(st.floats(5, 500), st.floats(100, 1000), st.floats(0, 90), st.floats(0, 180))
def test_adapter_by_moments(wanted: float, wrench: float, adapter: float, angle: float) -> None:
    """A hand's force across the wrench that makes the setting at the drive makes the torque at the fastener."""
    turn = math.radians(angle)
    grip, fastener = np.array([-wrench, 0.0]), adapter * np.array([math.cos(turn), math.sin(turn)])
    setting = float(adapter_setting(wanted, wrench, adapter, angle).setting)
    hand = np.array([0.0, setting / wrench])
    arm = grip - fastener
    assert abs(arm[0] * hand[1] - arm[1] * hand[0]) == pytest.approx(wanted, rel=1e-9)


@given(st.integers(1, 500), st.integers(100, 900), st.integers(0, 99))
def test_adapter_angles_with_plain_cosines_stay_exact(wanted: int, wrench: int, adapter: int) -> None:
    """At 0, 60, 90, 120 and 180 degrees Fractions stay exact; at 90 the adapter changes nothing."""
    settings = [
        adapter_setting(Fraction(wanted), wrench, adapter, angle).setting for angle in (0, 60, 90, 120, 180)
    ]
    reaches = [Fraction(wrench) + Fraction(adapter) * half / 2 for half in (2, 1, 0, -1, -2)]
    assert settings == [wanted * wrench / reach for reach in reaches]
    assert all(isinstance(setting, Fraction) for setting in settings)
    assert adapter_setting(wanted, wrench, adapter) == adapter_setting(wanted, wrench, adapter, 0)


def test_beside_square_an_adapter_counts() -> None:
    """One degree past square the fastener comes nearer to the grip, by the adapter's sine of one degree."""
    reach = 400 - 100 * math.sin(math.radians(1))
    assert float(adapter_setting(110, 400, 100, 91).setting) == pytest.approx(110 * 400 / reach)


@pytest.mark.independent("thread-engagement")
@pytest.mark.parametrize("name", list(ENGAGEMENT_LIMITS))
def test_engagement_by_measuring_a_drawn_thread(name: str) -> None:
    """On a drawn 60 degree thread, what the nut's minor diameter shears through is twice the stress area."""
    pitch_diameter, minor = ENGAGEMENT_LIMITS[name]
    pitch = float(LISTED[name].pitch / INCH)
    along = (np.arange(400_000) + 0.5) / 400_000 * pitch
    height = np.abs(along - pitch / 2)
    surface = pitch_diameter / 2 + (pitch / 4 - height) * math.sqrt(3)
    metal = float(np.mean(surface >= minor / 2))
    length = float(thread_engagement(name).length) / float(INCH)
    sheared = math.pi * minor * length * metal
    assert sheared == pytest.approx(2 * float(stress_area(name).area) / float(INCH) ** 2, rel=1e-4)


def test_remarks_belong_to_their_threads() -> None:
    """The longer formula is named for inch threads only, and grade 2 says how long its bolts may be."""
    assert any(
        "longer formula" in remark for remark in calculate("stress-area", {"thread": "1/2-13"}).remarks
    )
    assert not stress_area("M10").remarks
    assert "6 in and shorter" in proof_load("1/2-13", "2").remarks[0]
    assert not proof_load("1/2-13", "grade 5").remarks
