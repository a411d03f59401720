"""Results in words no finer than what was typed for them can tell; the numbers in JSON as they were."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import jobtrack.shopmath
from jobtrack.shopmath.catalogue import by_topic, calculate, find
from jobtrack.units.typed.half_place import half_a_place
from jobtrack.workings.answers import answer
from jobtrack.workings.fineness import figures_of, is_number

assert jobtrack.shopmath

NAMES = [name for names in by_topic().values() for name in names]


def _said(name: str, typed: dict[str, str], key: str) -> str:
    return dict(answer(name, typed).results())[key]


@pytest.mark.parametrize(
    ("name", "typed", "key", "words"),
    [
        # 0.5 mm of a tape's reading moves each side by 0.25 mm: tenths can be told.
        ("perch-shift", {"spacing_now": "1012", "spacing_wanted": "965"}, "left inboard", "23.5 mm"),
        # Half a degree of 5 is 130 mm x (sin 5.5 - sin 5) = 1.1 mm: millimetres.
        ("rotated-point", {"ahead": "-130", "angle": "5"}, "rise", "-11 mm"),
        # 0.05 deg instead of half a degree: 0.11 mm, so tenths.
        ("rotated-point", {"ahead": "-130", "angle": "5.0"}, "rise", "-11.3 mm"),
        # 16 % more or less on 3 mm of plate moves 118 A by 20 A: tens.
        ("wire-settings", {"thickness": "3", "wire": "0.9"}, "current", "120 A"),
        ("wire-settings", {"thickness": "3.0", "wire": "0.9"}, "current", "118 A"),
        # Friction 0.15 is 0.145 to 0.155: 22 N·m; what is left before it slips is rounded down.
        ("flange-slip-torque",
         {"bolts": "4", "clamp_force": "25 kN", "friction": "0.15", "radius": "45"}, "torque", "670 N·m"),
        # What has to be held is rounded up: half a per cent of the grade is 103 N.
        ("force-on-grade", {"mass": "2350", "grade": "30"}, "force", "6700 N"),
        ("force-on-grade", {"mass": "2350", "grade": "30.0"}, "force", "6630 N"),
        # Turns of the wheel are counted to a mark: 37.3 shaft turns tell the ratio to a hundredth.
        ("axle-ratio-from-turns",
         {"shaft_turns": "37.3", "wheel_turns": "10", "turned": "both wheels"}, "ratio", "3.73"),
        # A bolt of 10 mm and a drill are sizes from a list; torque and nut factor tell hundreds.
        ("bolt-clamp", {"torque": "47", "nut_factor": "0.20", "diameter": "10"}, "clamp force", "23500 N"),
        # The row of a table isn't moved by half a revolution: the figure is the row's.
        ("joint-limit", {"speed": "2000"}, "angle", "8.7 deg"),
        # 7 in beside fractions isn't 6 1/2 to 7 1/2: the rod keeps its tenth.
        ("u-bolt-blank", {"inside_width": "3 1/8 in", "leg": "7 in", "rod": "9/16 in", "bend": "round"},
         "blank", "423.3 mm"),
        # 100 kg typed is 99.5 to 100.5, so that the sum of a heavy axle stays to the kilogram.
        ("axle-loads", {"wheelbase": "2700", "front_now": "900.3", "rear_now": "850.3",
                        "items": "100 kg @ 1350 mm"}, "total", "1851 kg"),
    ],
)  # fmt: skip
def test_by_hand(name: str, typed: dict[str, str], key: str, words: str) -> None:
    """The reasoning stands beside each."""
    assert _said(name, typed, key) == words


def test_a_figure_keeps_its_first_place() -> None:
    """1 mm with half a degree open isn't said to be 0 mm: nought would be another statement."""
    assert _said("rotated-point", {"ahead": "3000", "angle": "0.1"}, "rise") == "5 mm"
    assert _said("rotated-point", {"ahead": "3000", "angle": "0"}, "rise") == "0 mm"


def _swing(name: str, typed: dict[str, str], key: str) -> float:
    """The swing by a second way: each plain number moved to its two ends, without any of the program's movers."""
    done, most = answer(name, typed), 0.0
    given: dict[str, Any] = {one: done.outcome.inputs[one] for one in typed}
    here: Any = done.outcome.values[key]
    for one, text in typed.items():
        kind = done.work.input(one)
        if kind.nominal or kind.unit == "count" or not is_number(given[one]):
            continue
        half = half_a_place(text, kind.unit if kind.unit not in ("ratio", "number") else None)
        for by in (half, -half):
            there: Any = calculate(name, {**given, one: given[one] + by}).values[key]
            most = max(most, abs(float(there - here)))
    return most


PLACES = st.integers(0, 2)


@given(st.floats(900, 1500), st.floats(20, 60), PLACES, PLACES)
def test_a_step_is_what_half_a_place_moves_the_result_by(
    load: float, share: float, one: int, other: int
) -> None:
    """The force on a grade, against ends found here: a step is at least the power of ten at or below the swing."""
    typed = {"mass": f"{load:.{one}f}", "grade": f"{share:.{other}f}"}
    done = answer("force-on-grade", typed)
    figure = figures_of(done.work, done.outcome, done.known())["force"]
    swing = _swing("force-on-grade", typed, "force")
    assert figure.step >= Fraction(10) ** math.floor(math.log10(swing * 0.999999))
    assert 0 <= figure.rounded - figure.value < max(swing, 100)  # three figures of thousands of newtons
    assert figure.value == pytest.approx(done.as_json()["results"]["force"]["value"], rel=1e-11)


def test_no_result_is_finer_than_its_swing_except_beside_its_limit() -> None:
    """Each working-out's example: the step, but for the first figure and for figures more beside a limit."""
    looked_at = 0
    for name in NAMES:
        done = answer(name, find(name).example)
        known = done.known()
        for key, figure in figures_of(done.work, done.outcome, known).items():
            swing = known.swings.get(key, 0.0)
            if figure.typed or figure.more or not swing or not figure.value or done.work.result(key).like:
                continue
            first = Fraction(10) ** math.floor(math.log10(abs(figure.value)))
            assert figure.step >= min(Fraction(10) ** math.floor(math.log10(swing)), first), (name, key)
            looked_at += 1
    assert looked_at > 80


@pytest.mark.parametrize("name", NAMES)
def test_json_is_in_full(name: str) -> None:
    """What is said in words leaves the numbers as the function gives them."""
    done = answer(name, find(name).example)
    plain = calculate(name, {key: done.outcome.inputs[key] for key in done.typed}).values
    for key, cell in done.as_json()["results"].items():
        value = plain[key]
        if is_number(value):
            assert cell["value"] == float(value)


@given(st.integers(900, 1100), st.integers(-30, 30), st.integers(0, 2))
def test_over_a_rating_reads_so_however_coarse_it_was_typed(rated: int, off: int, places: int) -> None:
    """A load typed to whole kilograms or to hundredths reads over the rating where it is over, and only there."""
    load = f"{2 * rated + off / 10:.{places}f}"
    done = answer("stand-load", {"load": load, "marked": str(rated), "marked_for": "each"})
    figures = figures_of(done.work, done.outcome, done.known())
    assert (figures["on_each"].rounded > figures["rated_each"].rounded) == done.outcome.values["over_rating"]


NOMINAL = {
    "u-bolt-blank": {"rod"},  # a size from a list, as the next five
    "drill-name": {"diameter"},
    "drill-speed": {"diameter"},
    "bolt-clamp": {"diameter"},
    "electrode-current": {"diameter"},
    "wire-settings": {"wire"},
    "line-pressure": {"bore"},  # a cylinder's size as cast into it
    "rear-brake-ratio": {"old_bore", "new_bore"},
    "fillet-strength": {"leg"},  # the leg that is drawn, not one that was measured
    "perch-weld": {"leg"},
    "rods-needed": {"leg", "rod", "rod_length"},
    "joint-limit": {"speed"},  # the row of a table
    "shaft-critical-speed": {"share"},  # shares, factors and counts that are chosen
    "tightening-torque": {"share"},
    "torque-stages": {"shares"},
    "heat-input": {"k"},
    "sum-of-times": {"correlation"},
    "axle-ratio-from-turns": {"wheel_turns"},
}
"""Inputs that are all there is to them, however few places were typed; common practice, no source."""


@pytest.mark.parametrize("name", NAMES)
def test_which_inputs_are_nominal(name: str) -> None:
    """A size from a list, a share that is chosen, turns that are counted; everything else is read to a place."""
    assert {one.key for one in find(name).inputs if one.nominal} == NOMINAL.get(name, set())
