"""The catalogue as a whole: names, units, what every entry has to say, and what is said beside a figure."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
import tomli

import jobtrack.shopmath
from jobtrack.shopmath.catalogue import Value, WorkingOutError, by_topic, calculate, find
from jobtrack.shopmath.index import INDEX
from jobtrack.shopmath.loads.axles import axle_loads
from jobtrack.workings.answers import answer, describe

NAMES = [name for names in by_topic().values() for name in names]
NEVER = re.compile(
    r"\b(safe|legal|roadworthy|approved|certified|guaranteed|permitted|allowed|fit for|ok|pass|all clear"
    r"|good to go)\b",
    re.I,
)
ADJECTIVES = re.compile(r"\b(good|bad|fine|wrong|strong|weak|sound|acceptable|enough|too)\b", re.I)

KEYS = {
    "perch-shift": "spacing_now:mm spacing_wanted:mm -> left_inboard:mm right_inboard:mm",
    "perch-shift-from-faces": "face_distance:mm left_face_to_perch:mm right_face_to_perch:mm "
    "spacing_wanted:mm -> spacing_now:mm face_to_perch:mm left_inboard:mm right_inboard:mm off_centre:mm",
    "centre-spacing": "inner_gap:mm left_pin:mm right_pin:mm -> spacing:mm",
    "level": "gap:mm length:mm -> angle:deg per_metre:mm",
    "relative-level": "reference:deg face:deg -> difference:deg",
    "pinion-to-pad": "gearbox_slope:deg pad_slope:deg nose_down?:deg -> pinion_slope:deg pinion_to_pad:deg",
    "bolt-circle": "holes:count spacing:mm measured:centres|inner-edges|outer-edges|same-edges hole?:mm "
    "apart?:count -> diameter:mm",
    "tightening-torque": "thread:text grade:text for?:bolt|u-bolt|wheel-nut|locked-bolt|torque-angle-bolt "
    "nut_factor?:ratio share?:ratio -> torque:N*m clamp_force:N",
    "axle-loads": "wheelbase:mm front_now?:kg rear_now?:kg items:list-mass-@-distance -> "
    "front:kg rear:kg total:kg",
    "axle-limit": "plate:kg housing?:kg spring_each?:kg wheel_each?:kg tyre_each?:kg tyres?:count brakes?:kg "
    "shaft?:kg bearings?:kg -> lowest_rating:kg weakest:text below_plate:kg",
}
for path in sorted(Path(__file__).parent.glob("keys_*.toml")):
    for topic in tomli.loads(path.read_text(encoding="utf-8")).values():
        KEYS |= topic
"""Names, keys and units that scripts rely on; those of further topics stand in keys_*.toml."""


@pytest.mark.parametrize("name", NAMES)
def test_keys_and_units_are_the_agreed_ones(name: str) -> None:
    """Inputs and results have the names, units and order that scripts and templates rely on."""
    work = find(name)
    inputs = [f"{q.key}{'?' if q.optional else ''}:{q.unit.replace(' ', '-')}" for q in work.inputs]
    results = [f"{q.key}:{q.unit}" for q in work.results]
    assert " ".join([*inputs, "->", *results]) == KEYS[name]


def test_the_agreed_workings_out_are_all_there() -> None:
    """Each agreed name stands once, under its topic."""
    assert sorted(NAMES) == sorted(KEYS)
    assert by_topic()["flange"][0] == "bolt-circle"


@pytest.mark.parametrize("name", NAMES)
def test_the_example_works_and_everything_is_said(name: str) -> None:
    """The example gives every result, in the declared order, with a source and a sentence in words."""
    work = find(name)
    done = answer(name, work.example)
    assert list(done.outcome.values) == [quantity.key for quantity in work.results]
    assert work.source
    assert work.formula
    assert work.function.__doc__
    assert "Refuses" in work.function.__doc__
    assert "{" not in done.as_text()


@pytest.mark.parametrize("name", NAMES)
def test_no_entry_speaks_a_verdict(name: str) -> None:
    """No text of an entry promises anything, and its sentence has no adjective of judgement."""
    work = find(name)
    assert not NEVER.search(f"{answer(name, work.example).as_text()} {describe(work)}")
    assert not ADJECTIVES.search(re.sub(r"\{\w+\}", "", work.sentence))


@pytest.mark.parametrize("name", NAMES)
def test_a_hazard_has_its_three_parts(name: str) -> None:
    """A hazard message has a signal word, the hazard, what it does and how to avoid it."""
    for hazard in find(name).hazards:
        assert re.fullmatch(r"(DANGER|WARNING|CAUTION|NOTICE): [^.]+\. [^.]+\. [^.]+\.", hazard)


def test_inputs_come_back_with_the_defaults_filled_in() -> None:
    """What was left out stands among the inputs as it was used."""
    done = calculate("tightening-torque", {"thread": "M10", "grade": "8.8"})
    assert done.inputs == {
        "thread": "M10", "grade": "8.8", "for": "bolt", "nut_factor": Fraction(1, 5), "share": Fraction(3, 4),
    }  # fmt: skip


def test_results_are_found_by_key() -> None:
    """A result is found with its unit, and a misspelt one is named with the nearest."""
    assert find("level").result("angle").unit == "deg"
    with pytest.raises(WorkingOutError, match="angel: no such result of level; did you mean angle"):
        find("level").result("angel")


@pytest.mark.parametrize(
    ("name", "inputs", "says"),
    [
        ("relative-level", {"reference": 50, "face": 51}, "past 45 deg"),
        ("pinion-to-pad", {"gearbox_slope": 3, "pad_slope": 1, "nose_down": -1}, "puts the nose up"),
        (
            "tightening-torque",
            {"thread": "M10", "grade": "8.8", "share": Fraction("0.85")},
            "Share 0.85: 0.75 is usual",
        ),
        ("tightening-torque", {"thread": "1/2-13", "grade": "2"}, "6 in and shorter"),
        (
            "axle-loads",
            {"wheelbase": 3000, "items": ((-90, 3600), (90, 2100))},
            "a change to a load that wasn't given",
        ),
        ("axle-limit", {"plate": 1900, "tyre_each": 900}, "tell the owner in writing"),
        ("axle-limit", {"plate": 1900, "tyre_each": 900}, "was given: housing, springs, wheels, brakes"),
    ],
)
def test_a_figure_that_asks_for_it_gets_a_remark(name: str, inputs: dict[str, Value], says: str) -> None:
    """What a figure doesn't cover is said when it applies."""
    assert any(says in remark for remark in calculate(name, inputs).remarks)


def test_a_plain_figure_gets_no_extra_remark() -> None:
    """Where nothing special applies only the entry's own remarks are given, and whose nut factor was taken."""
    all_ratings: dict[str, Value] = dict.fromkeys(("plate", "housing", "brakes", "shaft", "bearings"), 900)
    all_ratings.update(dict.fromkeys(("spring_each", "wheel_each", "tyre_each"), 450))
    plain: list[tuple[str, dict[str, Value]]] = [
        ("relative-level", {"reference": 1, "face": -45}),
        ("pinion-to-pad", {"gearbox_slope": 3, "pad_slope": 1, "nose_down": 0}),
        ("tightening-torque", {"thread": "M10", "grade": "8.8", "share": Fraction("0.8")}),
        ("axle-loads", {"wheelbase": 3000, "items": ((90, 2100),)}),
        ("axle-limit", all_ratings),
    ]
    for name, inputs in plain:
        more = calculate(name, inputs).remarks[len(find(name).remarks) :]
        assert calculate(name, inputs).remarks == find(name).remarks + more
        assert [remark.partition(" 0.2: set ")[0] for remark in more] == (
            ["Nut factor"] if name == "tightening-torque" else []
        )


def test_equal_ratings_name_the_plate_first() -> None:
    """Of equal ratings the first in the order of the keys is named."""
    ratings: dict[str, Value] = {"plate": 1800, "wheel_each": 900, "tyre_each": 900}
    assert calculate("axle-limit", ratings).values["weakest"] == "plate"
    assert calculate("axle-limit", ratings | {"plate": 1801}).values["weakest"] == "wheels"
    assert calculate("axle-limit", ratings | {"tyres": 4, "plate": 3700}).values["weakest"] == "wheels"


def test_no_items_are_refused_by_the_function_too() -> None:
    """The function itself refuses to give axle loads of nothing."""
    with pytest.raises(WorkingOutError, match="items: missing"):
        axle_loads(3000, [])


def test_shop_mathematics_knows_nobody() -> None:
    """Imported in a fresh process it brings in no other room of the package and no interface."""
    code = (
        "import sys, jobtrack.shopmath.catalogue; "
        "print([m for m in sys.modules if m.startswith(('jobtrack.', 'textual', 'pydantic')) "
        "and not m.startswith('jobtrack.shopmath')])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_the_index_is_what_the_modules_put_in() -> None:
    """Each module puts in just the names that the index gives it, in that order, under its folder's topic."""
    code = (
        "import sys; from importlib import import_module; from jobtrack.shopmath import catalogue; "
        "import_module('jobtrack.shopmath.' + sys.argv[1]); "
        "print([(w.name, w.topic) for w in catalogue._CATALOGUE.values() "
        "if w.function.__module__ == 'jobtrack.shopmath.' + sys.argv[1]])"
    )
    for module, names in INDEX.items():
        run = subprocess.run([sys.executable, "-c", code, module], capture_output=True, text=True, check=True)
        assert ast.literal_eval(run.stdout) == [(name, module.partition(".")[0]) for name in names]
    with_entries = {find(name).function.__module__.removeprefix("jobtrack.shopmath.") for name in NAMES}
    assert with_entries == set(INDEX)


def test_a_topic_is_loaded_when_it_is_asked_for() -> None:
    """Listing loads no topic; one working-out loads its module, and what that needs."""
    code = (
        "import sys; from jobtrack.shopmath.catalogue import by_topic, find; by_topic(); "
        "loaded = lambda: [m for m in sys.modules if m.removeprefix('jobtrack.shopmath.') in INDEX]; "
        "from jobtrack.shopmath.index import INDEX; print(loaded()); find('bolt-circle'); print(loaded())"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.splitlines() == ["[]", "['jobtrack.shopmath.flange.circles']"]


def test_nothing_is_kept_between_two_calls() -> None:
    """No module of shop mathematics imports functools or speaks of a cache: each call works out anew."""
    modules = sorted(Path(jobtrack.shopmath.__file__).parent.rglob("*.py"))
    assert len(modules) > 40
    assert not [one.name for one in modules if re.search("functools|cache", one.read_text(encoding="utf-8"))]
