"""What counts when an input is left out, in the catalogue and in the function itself."""

from __future__ import annotations

import inspect
from fractions import Fraction

import pytest

from jobtrack.shopmath.catalogue import Value, by_topic, find

NAMES = [name for names in by_topic().values() for name in names]
DEFAULTS: dict[str, dict[str, Value]] = {
    "pinion-to-pad": {"nose_down": 0},
    "track-change": {"old_offset": 0, "new_offset": 0},
    "joint-angle": {"plan_ahead": 0, "plan_behind": 0},
    "joint-pair": {"set": "J3311-1"},
    "joint-limit": {"set": "J3311-1"},
    "shaft-critical-speed": {"share": Fraction("0.75")},
    "shaft-length": {"across": 0},
    "shaft-speed": {"gear_ratio": 1},
    "bolt-circle": {"apart": 1},
    "tightening-torque": {"for": "bolt", "nut_factor": Fraction("0.2"), "share": Fraction("0.75")},
    "torque-stages": {"shares": (30, 60, 100)},
    "adapter-setting": {"angle": 0},
    "fillet-minimum": {"set": "AISC"},
    "perch-weld": {"twist": 0, "all_round": False},
    "heat-input": {"k": Fraction("0.8")},
    "carbon-equivalent": dict.fromkeys(("Cr", "Mo", "V", "Ni", "Cu"), 0),
    "rods-needed": {"extra": 0},
    "axle-loads": {"front_now": 0, "rear_now": 0},
    "axle-limit": {"tyres": 2},
    "cargo-capacity": {"gas": 0, "people": 0, "person": 68, "water": 0},
    "tyre-axle-load": {"dual": False, "passenger_on_truck": False},
    "tyre-index-needed": {"dual": False, "passenger_on_truck": False},
    "tyre-part-load": {"set": "power-0.8"},
    "recommended-weight-limit": {
        "turn": 0, "lifts_per_minute": Fraction("0.2"), "duration": "short", "grip": "good", "where": "open",
    },
    "sum-of-times": {"correlation": 0},
}  # fmt: skip
"""As the help tells them; every other input that can be left out is then not used."""


@pytest.mark.parametrize("name", NAMES)
def test_what_is_left_out_counts_as_told(name: str) -> None:
    """Each input that can be left out has the default of the list, or none."""
    told = {each.key: each.default for each in find(name).inputs if each.default is not None}
    assert told == DEFAULTS.get(name, {})


@pytest.mark.parametrize("name", NAMES)
def test_a_function_called_alone_has_the_same_defaults(name: str) -> None:
    """A function's own defaults are those of its entry in the catalogue."""
    work = find(name)
    parameters = inspect.signature(work.function).parameters
    own = {key.removesuffix("_"): each.default for key, each in parameters.items()}
    for each in work.inputs:
        assert own[each.key] == (each.default if each.optional else inspect.Parameter.empty)


def test_an_entry_keeps_formula_and_source_apart() -> None:
    """The formula is the formula, the source the source, and name and topic likewise."""
    limit = find("axle-limit")
    assert limit.formula.startswith("the lowest of plate, housing")
    assert limit.source.startswith("the rating follows the weakest part")
    assert (limit.name, limit.topic) == ("axle-limit", "loads")
