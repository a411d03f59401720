"""Joint angles by high precision, joints turned in small steps, and the published table of second angles."""

from __future__ import annotations

import math
from decimal import Decimal, localcontext
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import calculate
from jobtrack.shopmath.driveline.joints import joint_angle, joint_motion, plan_angle
from jobtrack.shopmath.driveline.pairs import joint_limit, joint_pair
from jobtrack.workings.answers import answer

PUBLISHED = tomli.loads(
    (Path(__file__).parent / "published_fit_driveline_flange.toml").read_text(encoding="utf-8")
)
slope = st.floats(-60, 60)
plain_slope = st.integers(-350, 350).map(lambda tenths: tenths / 10)


def precise_sine(u: list[Decimal], v: list[Decimal]) -> float:
    """The sine of the angle of two vectors from their dot product, with 60 digits: 1 - cos^2 keeps enough."""
    with localcontext() as context:
        context.prec = 60
        dot = sum((a * b for a, b in zip(u, v, strict=True)), Decimal(0))
        square = dot * dot / (sum(a * a for a in u) * sum(b * b for b in v))
        return float((1 - square).sqrt()) if square < 1 else 0.0


def axis(side: float, plan: float) -> list[Decimal]:
    """The line of a part: one ahead, its plan and side slopes across."""
    return [Decimal(1), Decimal(math.tan(math.radians(plan))), Decimal(math.tan(math.radians(side)))]


@pytest.mark.independent("joint-angle")
@given(slope, slope, slope, slope)
def test_a_joint_angle_agrees_with_the_cosine_at_high_precision(
    side_ahead: float, side_behind: float, plan_ahead: float, plan_behind: float
) -> None:
    """The angle has the sine that the dot product gives with 60 digits."""
    angle = joint_angle(side_ahead, side_behind, plan_ahead, plan_behind).angle
    sine = precise_sine(axis(side_ahead, plan_ahead), axis(side_behind, plan_behind))
    assert math.sin(math.radians(angle)) == pytest.approx(sine, rel=1e-9, abs=1e-15)
    assert joint_angle(side_behind, side_ahead, plan_behind, plan_ahead).angle == pytest.approx(angle)


def test_a_blunt_joint_angle_stays_blunt() -> None:
    """Two parts that lean 60 and 50 deg apart from straight make 110 deg, not its supplement."""
    assert joint_angle(60, -50).angle == pytest.approx(110)


@given(slope, st.floats(1e-7, 1e-3))
def test_a_joint_angle_is_good_near_zero(side: float, apart: float) -> None:
    """In one plane even a tiny angle is the difference of the slopes."""
    assert joint_angle(side, side + apart).angle == pytest.approx((side + apart) - side, rel=1e-6)


@pytest.mark.independent("plan-angle")
@given(st.floats(-500, 500), st.floats(500, 2000))
def test_a_plan_angle_is_that_of_two_points(offset: float, length: float) -> None:
    """A vector between two joints, turned back by the answer, lies straight along the vehicle."""
    turned = complex(length, offset) * np.exp(-1j * math.radians(plan_angle(offset, length).angle))
    assert turned.imag == pytest.approx(0, abs=1e-9)
    assert turned.real > 0


TURNS = np.linspace(0, 2 * math.pi, 8001)
"""Turns of the first fork from the plane of the two parts."""


def through(turned: np.ndarray, bend: float) -> np.ndarray:
    """The second fork's turn behind one joint, from tan a2 = tan a1 / cos bend, by quadrant."""
    return np.unwrap(np.arctan2(np.sin(turned), np.cos(turned) * math.cos(math.radians(bend))))


@pytest.mark.independent("joint-motion")
@pytest.mark.parametrize("bend", [0.5, 2.0, 8.7, 18.0, 30.0, 44.0])
def test_a_joint_turned_in_steps_swings_as_worked_out(bend: float) -> None:
    """Speed and acceleration by differences over a turn reach the worked-out extremes."""
    step, w = TURNS[1], 3000 * math.pi / 30
    out = through(TURNS, bend)
    speeds = np.gradient(out, step)[2:-2]
    motion = joint_motion(bend, 3000)
    assert motion.fastest == pytest.approx(3000 * speeds.max(), rel=1e-6)
    assert motion.slowest == pytest.approx(3000 * speeds.min(), rel=1e-6)
    peak = w**2 * np.abs(np.gradient(speeds, step)).max()
    assert motion.peak_acceleration == pytest.approx(peak, rel=2e-5)


def test_a_straight_joint_does_not_swing() -> None:
    """At no angle the output is the input, and nothing accelerates."""
    assert joint_motion(0, 1000)[:3] == (1000, 1000, 0)


@given(st.floats(-80, 80), st.floats(1, 6000))
def test_a_joint_swings_the_same_to_both_sides(bend: float, speed: float) -> None:
    """The sign of the angle doesn't matter, and fastest times slowest is the speed squared."""
    motion = joint_motion(bend, speed)
    assert motion[:3] == joint_motion(-bend, speed)[:3]
    assert float(motion.fastest) * float(motion.slowest) == pytest.approx(speed**2)


def pin(axis_of_fork: np.ndarray, other: np.ndarray) -> np.ndarray:
    """The cross's pin of the driven fork: square to its own shaft and to the driving pin."""
    across = np.cross(axis_of_fork, other)
    return np.asarray(across / np.linalg.norm(across))


def lag(ahead: float, shaft: float, behind: float) -> float:
    """The largest lead of the part behind on the part ahead over a turn, by vectors, forks in phase."""
    axes = [
        np.array([math.cos(math.radians(s)), 0.0, math.sin(math.radians(s))]) for s in (ahead, shaft, behind)
    ]
    side = np.array([0.0, 1.0, 0.0])
    leads = []
    for turned in np.linspace(0, 2 * math.pi, 721):
        first = np.cos(turned) * side + np.sin(turned) * np.cross(axes[0], side)
        on_shaft = pin(axes[1], first)
        last = -pin(axes[2], on_shaft)
        out = math.atan2(float(last @ np.cross(axes[2], side)), float(last @ side))
        leads.append(math.remainder(out - turned, 2 * math.pi))
    return max(leads)


@pytest.mark.independent("joint-pair")
@pytest.mark.parametrize(
    ("ahead", "shaft", "behind"),
    [(5, 0, 3), (5, 0, 5), (3, 7, 3), (3, 0, -3), (4.5, 7, 4), (10, -5, 2), (0, 0, 8), (-8, 0, 0)],
)
def test_two_joints_built_from_vectors_swing_as_one_of_the_residual_angle(
    ahead: float, shaft: float, behind: float
) -> None:
    """Forks and crosses built as vectors lead by as much as a single joint of the residual angle does."""
    cosine = math.cos(math.radians(float(joint_pair(ahead, shaft, behind).residual)))
    most = math.atan((1 - cosine) / (2 * math.sqrt(cosine)))
    assert lag(ahead, shaft, behind) == pytest.approx(most, abs=2e-7, rel=1e-4)


@given(plain_slope, plain_slope, plain_slope)
def test_a_pair_is_the_same_from_both_ends(ahead: float, shaft: float, behind: float) -> None:
    """Swapping the ends swaps the joints and leaves difference and residual."""
    one, other = joint_pair(ahead, shaft, behind, 2000), joint_pair(behind, shaft, ahead, 2000)
    assert (one.first, one.second) == (other.second, other.first)
    assert one[2:5] == other[2:5]
    assert one.difference == abs(one.first - one.second)


@given(plain_slope, st.floats(1, 6000))
def test_one_straight_joint_leaves_the_other_as_residual(bend: float, speed: float) -> None:
    """With one joint straight the residual is the other's angle and the acceleration its (w r) squared."""
    pair = joint_pair(bend, 0, 0, speed)
    assert pair.residual == pytest.approx(abs(bend))
    assert pair.acceleration == pytest.approx(3.340504e-6 * speed**2 * bend**2, rel=1e-6)


def second_angle(first: float, speed: int) -> float:
    """The second angle at which a pair reaches 402.2 rad/s^2 at this speed, by halving."""
    low, high = first, 20.0
    while high - low > 1e-9:
        middle = (low + high) / 2
        reached = joint_pair(first, 0, middle, speed).acceleration
        assert reached is not None
        low, high = (middle, high) if reached < 402.2 else (low, middle)
    return low


@pytest.mark.parametrize(
    ("speed", "first", "printed"),
    [
        (row[0], first, printed)
        for group in PUBLISHED["residual"]
        for row in group["rows"]
        for first, printed in enumerate(row[1:])
    ],
)
def test_the_published_second_angles_come_back(speed: int, first: int, printed: float) -> None:
    """Each printed second angle is the one of 402.2 rad/s^2, within a digit: the page takes squares."""
    assert second_angle(first, speed) == pytest.approx(printed, abs=0.1)


@given(st.floats(1, 5000), st.floats(1, 5000))
def test_a_faster_shaft_never_gets_a_larger_angle(one: float, other: float) -> None:
    """The limit falls with the speed."""
    assert joint_limit(min(one, other)).angle >= joint_limit(max(one, other)).angle


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (
            {"speed": "3200"},
            "At 3200 rpm: 5 deg, by joint maker's driveline installation manual J3311-1 (2005/2008), "
            "read in copies, row 3500 rpm.",
        ),
        ({"speed": "2000"}, "At 2000 rpm: 8.7 deg, by {}, row 2000 rpm (this row from memory)."),
        ({"speed": "2000", "set": "3-degree"}, "a pump manual (undated), read in copies, at any speed."),
    ],
)
def test_the_limit_names_whose_it_is(typed: dict[str, str], says: str) -> None:
    """The sentence holds speed, limit, publisher, year, and whether the row was read."""
    title = "joint maker's driveline installation manual J3311-1 (2005/2008), read in copies"
    assert says.format(title) in answer("joint-limit", typed).as_text()


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (
            {},
            "Joints 4 deg and 4 deg, 0 deg apart, residual 0 deg; joint maker's driveline installation "
            "manual J3311-1 (2005/2008), read in copies, lists at least 0.5 deg, at most by speed, and "
            "ends within 1 deg of each other.",
        ),
        ({"speed": "3800"}, "lists 0.5 deg to 4.2 deg up to 4000 rpm, and ends within 1 deg"),
        ({"speed": "2200"}, "lists 0.5 deg to 7 deg up to 2500 rpm (this row from memory), and ends"),
        ({"speed": "4800"}, "lists 0.5 deg to 3.2 deg up to 5000 rpm, and ends within 1 deg"),
        ({"speed": "5000"}, "lists 0.5 deg to 3.2 deg up to 5000 rpm, and ends within 1 deg"),
        ({"speed": "5001"}, "ends at 5000 rpm; it lists at least 0.5 deg, and ends within 1 deg"),
        ({"set": "3-degree"}, "(undated), read in copies, lists 0.5 deg to 3 deg, and ends within 1 deg"),
    ],
)
def test_a_pair_stands_beside_its_set_of_limits(typed: dict[str, str], says: str) -> None:
    """Both angles stand beside the limits of the named set, by speed where it has a table."""
    slopes = {"ahead_slope": "3", "shaft_slope": "7", "behind_slope": "3"}
    assert says in answer("joint-pair", slopes | typed).as_text()


def test_only_the_remembered_rows_are_doubted() -> None:
    """A limit from a row that was not read again says so."""
    assert any("2500 rpm is from memory" in remark for remark in joint_limit(2500).remarks)
    assert not any("from memory" in remark for remark in joint_limit(3500).remarks)


REMARKED: list[tuple[str, dict[str, Any], str]] = [
    ("joint-angle", {"side_ahead": 20, "side_behind": -11}, "Above 30 deg"),
    ("joint-angle", {"side_ahead": 0.05, "side_behind": -0.1}, "read in radians"),
    ("joint-motion", {"angle": -31, "speed": 100}, "Above 30 deg"),
    ("joint-pair", {"ahead_slope": 31, "shaft_slope": 0, "behind_slope": 0}, "Above 30 deg"),
    ("joint-pair", {"ahead_slope": 0, "shaft_slope": 0, "behind_slope": 31}, "Above 30 deg"),
    ("joint-pair", {"ahead_slope": 3, "shaft_slope": 0, "behind_slope": -3}, "opposite sides of the shaft"),
]


@pytest.mark.parametrize(("name", "inputs", "says"), REMARKED)
def test_a_joint_that_asks_for_it_gets_a_remark(name: str, inputs: dict[str, Any], says: str) -> None:
    """Steep joints, slopes that look like radians and ends that aren't parallel are told."""
    assert any(says in remark for remark in calculate(name, inputs).remarks)


@pytest.mark.parametrize(
    ("name", "inputs"),
    [
        ("joint-angle", {"side_ahead": 0, "side_behind": 0}),
        ("joint-angle", {"side_ahead": 0.1, "side_behind": 0.2}),
        ("joint-angle", {"side_ahead": 0.1, "side_behind": 0, "plan_behind": -0.3}),
        ("joint-motion", {"angle": 30, "speed": 100}),
        ("joint-pair", {"ahead_slope": 30, "shaft_slope": 0, "behind_slope": 0}),
        ("joint-pair", {"ahead_slope": 3, "shaft_slope": 7, "behind_slope": 3}),
    ],
)
def test_an_ordinary_joint_gets_no_extra_remark(name: str, inputs: dict[str, Any]) -> None:
    """Where nothing special applies the function adds no remark."""
    work = calculate(name, inputs)
    assert not any("Above 30" in each or "radians" in each or "opposite" in each for each in work.remarks)


@pytest.mark.parametrize(("speed", "words"), [(5000, "lists 3.2 deg here"), (5001, "ends at 5000 rpm")])
def test_the_other_set_counts_to_its_last_row(speed: int, words: str) -> None:
    """J3311-1 ends at 5000 rpm: there its row counts, above it none does."""
    [remark] = joint_limit(speed, "3-degree").remarks
    assert words in remark
