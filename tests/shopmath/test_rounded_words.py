"""The figures of the workings-out in words, beside those in JSON: as fine as they are told, and no finer."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

import jobtrack.shopmath
from jobtrack.shopmath.catalogue import by_topic, find
from jobtrack.workings import answer

assert jobtrack.shopmath

RESULTS = [(name, one.key) for names in by_topic().values() for name in names for one in find(name).results]
FIGURE = re.compile(r"(-?\d+(?:\.(\d+))?)(?: (?!=)\S+)*?(?: = (-?\d+(?:\.\d+)?) \S+.*)?")

DECIMALS = {
    "mm": 1,
    "deg": 1,
    "kg": 0,
    "g": 0,
    "A": 0,
    "km/h": 0,
    "m/min": 1,
    "percent": 0,
    "h": 1,
    "years": 1,
}
"""Decimals at the most, by unit."""
OWN = {
    ("drum-wear", "left_to_discard"): 2,
    ("clearance-hole", "hole"): 2,
    ("tap-drill", "drill"): 2,
    ("drill-name", "nearest_size"): 2,
    ("drill-name", "next_up_size"): 2,
    ("level", "angle"): 2,
    ("level-reversal", "tilt"): 2,
    ("level-reversal", "zero_error"): 2,
    ("thrust-angle", "angle"): 2,
    ("square-by-diagonals", "skew"): 2,
    ("housing-straightness", "toe"): 2,
    ("housing-straightness", "camber"): 2,
    ("recommended-weight-limit", "rwl"): 1,
    ("recommended-weight-limit", "rwl_at_end"): 1,
    ("recommended-weight-limit", "index"): 2,
    ("recommended-weight-limit", "index_at_end"): 2,
    ("weigh-ticket", "front_share"): 1,
    ("weigh-ticket", "centre_behind_front"): 0,
    ("joint-motion", "fastest"): 0,
    ("joint-motion", "slowest"): 0,
    ("verdict", "chance_within"): 2,
    ("carbon-equivalent", "CE"): 2,
    ("repeat-readings", "mean"): 2,
}
"""Those that an instrument or a table tells otherwise: a drum and a drill to 0.01 mm, a level's angle to 0.01 deg,
a speed beside that of the shaft to 1 rpm, a centre of gravity from scales to 1 mm."""
SIGNIFICANT = {"kJ/mm": 2, "number": 2}
"""Figures at the most, where they aren't three; an uncertainty has two."""


def _words(name: str, key: str) -> str:
    return dict(answer(name, find(name).example).figures())[key.replace("_", " ")]


@pytest.mark.parametrize(("name", "key"), RESULTS, ids=["-".join(each) for each in RESULTS])
def test_the_word_is_as_fine_as_its_kind_and_within_a_step(name: str, key: str) -> None:
    """No more figures than the kind is told to; within the last place of the JSON value, or within what half a
    place of the inputs leaves open where that is more; a limit on its side."""
    done = answer(name, find(name).example)
    value = done.as_json()["results"][key]["value"]
    if isinstance(value, bool | str | list | None):
        return
    quantity, words = find(name).result(key), _words(name, key)
    found = FIGURE.fullmatch(words)
    assert found, words
    said, decimals = float(found[1]), _most_decimals(name, key, quantity.unit, value)
    assert said == round(said, decimals)
    assert abs(said - value) < max(10.0**-decimals, done.known().swings.get(key, 0) * (1 + 1e-9))
    slack = 1e-9 * max(1.0, abs(value))
    assert not (quantity.towards == "down" and said > value + slack)
    assert not (quantity.towards == "up" and said < value - slack)


def _most_decimals(name: str, key: str, unit: str, value: float) -> int:
    """Decimals that are told; below nought: tens, hundreds."""
    if unit in DECIMALS or (name, key) in OWN:
        return OWN.get((name, key), DECIMALS.get(unit, 0))
    figures = SIGNIFICANT.get(unit, 3)
    return figures - 1 - math.floor(math.log10(abs(value))) if value else 0


def test_every_result_is_looked_at() -> None:
    """The list above names results that there are, and there are results of every working-out."""
    assert set(OWN) <= set(RESULTS)
    assert len({name for name, _ in RESULTS}) == sum(map(len, by_topic().values()))


@given(st.integers(1000, 9000), st.floats(-3, 3), st.sampled_from(("kg", "lb")))
def test_stands_over_their_rating_read_so(marked: int, off: float, unit: str) -> None:
    """The load on each reads over the rating in both units when it is, and not when it isn't."""
    done = answer(
        "stand-load",
        {"load": f"{marked + off:.3f} {unit}", "marked": f"{marked} {unit}", "marked_for": "pair"},
    )
    found = dict(done.figures())
    here, there = (FIGURE.fullmatch(found[key]) for key in ("on each", "rated each"))
    assert here
    assert there
    over = done.outcome.values["over_rating"]
    assert (float(here[1]) > float(there[1])) == over
    assert (float(here[3]) > float(there[3])) == over


@given(st.integers(-200, 200))
def test_a_drum_beyond_its_discard_reads_so(thousandths: int) -> None:
    """What is left reads below nought when the drum is beyond, and nought only where it is on the mark."""
    done = answer(
        "drum-wear", {"new": "254", "measured": f"{256 + thousandths / 1000:.3f}", "discard": "256"}
    )
    found = FIGURE.fullmatch(dict(done.figures())["left to discard"])
    assert found
    assert (float(found[1]) < 0) == done.outcome.values["beyond_discard"]
    assert (float(found[1]) == 0) == (thousandths == 0)


@given(st.floats(0.001, 3), st.sampled_from(("joint-pair", "thrust-angle")))
def test_an_angle_beside_a_published_one_reads_on_its_own_side(off: float, name: str) -> None:
    """An angle over a listed one reads over it, an angle under it under."""
    if name == "joint-pair":
        done = answer(name, {"ahead_slope": "0", "shaft_slope": f"{off:.4f}", "behind_slope": "0"})
        key, limit = "first", 0.5
    else:
        left = 2700 + off * 5
        done = answer(name, {"wheelbase_left": f"{left:.4f}", "wheelbase_right": "2700", "track": "1500"})
        key, limit = "angle", 0.2
    value = float(done.outcome.values[key])  # type: ignore[arg-type]
    said = FIGURE.fullmatch(dict(done.figures())[key])
    assert said
    assert (float(said[1]) > limit) == (value > limit + 1e-9)


def test_typed_figures_stay_as_typed() -> None:
    """An input is said in the unit and to the figures that it was typed in, and so is a result that repeats it."""
    assert "A wedge of 3 deg and 4 in long" in answer("wedge", {"angle": "3", "length": "4 in"}).sentence()
    assert "stages 33.8 N·m, 67.5 N·m, 112.5 N·m;" in answer("torque-stages", {"torque": "112.5"}).sentence()
    drum = answer("drum-wear", {"new": "10 in", "measured": "10.062 in", "discard": "10.09 in"}).sentence()
    assert "Measured 10.062 in (255.5748 mm); discard 256.286 mm" in drum
