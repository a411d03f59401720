"""Laws that hold for any numbers: signs, sums, order, units, exactness."""

from __future__ import annotations

import shlex
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import calculate
from jobtrack.shopmath.common.threads import LISTED
from jobtrack.shopmath.fasteners.torque import tightening_torque
from jobtrack.shopmath.fit.perches import centre_spacing, perch_shift, perch_shift_from_faces
from jobtrack.shopmath.flange.circles import bolt_circle
from jobtrack.shopmath.loads.axles import axle_limit, axle_loads
from jobtrack.workings.answers import answer

length = st.integers(1000, 3_000_000).map(lambda thousandths: Fraction(thousandths, 1000))
metric_thread = st.sampled_from([name for name, thread in LISTED.items() if thread.metric])


@given(length, length)
def test_swapping_vehicles_changes_the_sign(one: Fraction, other: Fraction) -> None:
    """What goes inboard on one vehicle goes outboard on the other by as much."""
    assert perch_shift(one, other).left_inboard == -perch_shift(other, one).left_inboard


@given(length, length, length, length)
def test_moves_add_up_exactly(faces: Fraction, left: Fraction, right: Fraction, wanted: Fraction) -> None:
    """Left and right moves add up to spacing now minus spacing wanted, exactly, for Fractions."""
    faces += left + right + wanted
    move = perch_shift_from_faces(faces, left, right, wanted)
    assert move.left_inboard + move.right_inboard == move.spacing_now - wanted
    assert isinstance(move.left_inboard, Fraction)


@given(length, length, length)
def test_spacing_from_edges_is_symmetric(gap: Fraction, left: Fraction, right: Fraction) -> None:
    """Which pin is the larger doesn't matter, and Fractions stay exact."""
    assert centre_spacing(gap, left, right) == centre_spacing(gap, right, left)
    assert isinstance(centre_spacing(gap, left, right).spacing, Fraction)


@given(length)
def test_opposite_and_sixth_holes_stay_exact(spacing: Fraction) -> None:
    """Opposite holes give the diameter itself and neighbours of six half of it, as exact Fractions."""
    assert bolt_circle(8, spacing, "centres", apart=4).diameter == spacing
    assert bolt_circle(6, spacing, "centres").diameter == 2 * spacing


@given(st.integers(4, 40), length, length)
def test_a_wider_spacing_is_a_larger_circle(holes: int, one: Fraction, other: Fraction) -> None:
    """The circle grows with the spacing."""
    wider = bolt_circle(holes, one + other, "centres").diameter
    assert bolt_circle(holes, one, "centres").diameter < wider


@given(length, st.lists(st.tuples(length, length), min_size=1, max_size=5))
def test_axle_loads_sum_exactly(wheelbase: Fraction, items: list[tuple[Fraction, Fraction]]) -> None:
    """Front and rear add up to the loads now and all items, exactly."""
    lifted = (
        sum(mass * distance for mass, distance in items) / wheelbase
    )  # the most that the items can lift the front
    front = lifted + 1
    loads = axle_loads(wheelbase, items, front, 500)
    assert loads.front + loads.rear == loads.total == front + 500 + sum(mass for mass, _ in items)


@given(length, length, length)
def test_taking_off_undoes_putting_on(wheelbase: Fraction, mass: Fraction, distance: Fraction) -> None:
    """An item put on and taken off at the same place leaves the loads as they were."""
    loads = axle_loads(wheelbase, [(mass, distance), (-mass, distance)], 900, 800)
    assert (loads.front, loads.rear) == (900, 800)


@given(length, length, length)
def test_another_part_never_raises_the_limit(plate: Fraction, housing: Fraction, wheel: Fraction) -> None:
    """The lowest rating is never above the plate, and one more part never raises it."""
    fewer = axle_limit(plate, housing)
    assert axle_limit(plate, housing, wheel_each=wheel).lowest_rating <= fewer.lowest_rating <= plate


@given(metric_thread, st.sampled_from(["8.8", "10.9", "12.9"]), st.fractions("0.05", "0.25"))
def test_torque_follows_nut_factor_and_grade(thread: str, grade: str, factor: Fraction) -> None:
    """Twice the nut factor is twice the torque at the same clamp force, and more share clamps more."""
    one = tightening_torque(thread, grade, nut_factor=factor)
    two = tightening_torque(thread, grade, nut_factor=2 * factor)
    assert two.torque == pytest.approx(float(2 * one.torque))
    assert two.clamp_force == one.clamp_force
    assert tightening_torque(thread, grade, share=Fraction(1, 2)).clamp_force < one.clamp_force


def test_a_stronger_class_takes_more_torque() -> None:
    """For each thread the torque rises from class to class, and a finer thread clamps more."""
    for name, thread in LISTED.items():
        grades = ("8.8", "10.9", "12.9") if thread.metric else ("2", "5", "8")
        torques = [tightening_torque(name, grade).torque for grade in grades]
        assert torques == sorted(torques)
    assert LISTED["M12x1.25"].stress_area > LISTED["M12x1.5"].stress_area > LISTED["M12x1.75"].stress_area


@pytest.mark.parametrize(
    ("name", "metric", "inch"),
    [
        (
            "perch-shift",
            "spacing_now=965.2 spacing_wanted=952.5",
            "spacing_now=38in spacing_wanted='37 1/2 in'",
        ),
        ("axle-limit", "plate=907.18474 wheel_each=800", "plate='2000 lb' wheel_each=0.8t"),
        ("level", "gap=2.54 length=609.6", "gap='100 thou' length='2 ft'"),
        (
            "bolt-circle",
            "holes=6 spacing=63.5 measured=centres",
            "holes=6 spacing='2 1/2 in' measured=centres",
        ),
        ("axle-loads", "wheelbase=2540 items=45.359237@1270", "wheelbase='100 in' items='100 lb @ 50 in'"),
        (
            "tightening-torque",
            "thread=M10 grade=8.8 share=0.75",
            "thread='M10 x 1.5' grade='class 8.8' share='75 %'",
        ),
    ],
)
def test_the_units_typed_change_nothing(name: str, metric: str, inch: str) -> None:
    """The same lengths and masses typed in other units give exactly the same results."""
    one, other = (dict(word.split("=") for word in shlex.split(line)) for line in (metric, inch))
    assert answer(name, one).outcome.values == answer(name, other).outcome.values


def test_whole_numbers_are_taken_exactly() -> None:
    """Integers count as exact numbers, so that a half stays a half and a third a third."""
    halves = calculate("perch-shift", {"spacing_now": 1012, "spacing_wanted": 965}).values
    assert halves["left_inboard"] == Fraction(47, 2)
    thirds = calculate("axle-loads", {"wheelbase": 3000, "items": ((100, 1000),)}).values
    assert thirds["rear"] == Fraction(100, 3)
