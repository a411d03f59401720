"""Workings-out as people type and read them."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from jobtrack.shopmath.catalogue import Quantity, WorkingOutError, find
from jobtrack.workings.answers import answer, describe, read_inputs


def test_typed_inputs_are_read_in_the_catalogues_units() -> None:
    """A bare number takes the unit written there, any unit of its kind is converted exactly."""
    typed = {"wheelbase": "8' 10 5/16\"", "items": "332 lb @ 162 in; 58.8 lb @ 100 in; -40 kg @ 0.8 m"}
    values = read_inputs(find("axle-loads"), typed)
    pound, inch = Fraction("0.45359237"), Fraction("25.4")
    assert values["wheelbase"] == (96 + 10 + Fraction(5, 16)) * inch
    assert values["items"] == (
        (332 * pound, 162 * inch),
        (Fraction("58.8") * pound, 100 * inch),
        (-40, 800),
    )


@pytest.mark.parametrize("typed", ["inner edges", "Inner edges", " inner_edges ", "inner-edges"])
def test_a_choice_has_lenient_spelling(typed: str) -> None:
    """Capitals, hyphens and blanks don't matter in a choice."""
    assert read_inputs(find("bolt-circle"), {"measured": typed}) == {"measured": "inner edges"}


def test_the_json_has_the_agreed_shape() -> None:
    """Inputs with defaults, results with units, source, hazards and remarks, in plain JSON types."""
    done = answer("tightening-torque", {"thread": "M10", "grade": "8.8", "share": "75 %"})
    shape = json.loads(json.dumps(done.as_json(), allow_nan=False))
    assert list(shape) == ["name", "inputs", "results", "source", "hazards", "remarks"]
    assert shape["inputs"]["thread"] == {"value": "M10", "unit": None, "typed": "M10"}
    assert shape["inputs"]["share"] == {"value": 0.75, "unit": None, "typed": "75 %"}
    assert shape["inputs"]["nut_factor"] == {"value": 0.2, "unit": None, "typed": None}
    assert shape["results"]["torque"]["unit"] == "N*m"
    assert shape["results"]["torque"]["value"] == pytest.approx(50.45, abs=0.005)
    assert shape["source"]
    assert shape["hazards"]


def test_the_json_of_lists_counts_and_what_was_left_out() -> None:
    """A list is a list with the unit of its items, a count has no unit, what isn't there is null."""
    loads = answer("axle-loads", {"wheelbase": "3 m", "items": "90 @ 1500, 10.5 @ 0"}).as_json()
    assert loads["inputs"]["items"] == {
        "value": [[90, 1500], [10.5, 0]],
        "unit": "kg @ mm",
        "typed": "90 @ 1500, 10.5 @ 0",
    }
    limit = answer("axle-limit", {"plate": "1720"}).as_json()
    assert limit["inputs"]["tyres"] == {"value": 2, "unit": None, "typed": None}
    assert limit["inputs"]["housing"] == {"value": None, "unit": "kg", "typed": None}
    assert limit["results"]["weakest"] == {"value": "plate", "unit": None}


def test_the_text_sets_figure_and_limit_side_by_side() -> None:
    """Lowest rating, the plate and whose it is stand in one sentence; source, hazard and remarks follow."""
    text = answer("axle-limit", {"plate": "1900", "tyre_each": "1984 lb"}).as_text()
    assert "lowest rating: 1799 kg = " in text
    sentence = "Lowest rating 1799 kg (tyres); plate 1900 kg, the vehicle maker's; 101 kg below the plate."
    assert sentence in text.splitlines()
    assert "\nSource: " in text
    assert "\nWARNING: " in text
    assert "\nRemark: The plate now stands above the lowest part: tell the owner in writing." in text


def test_how_a_number_was_taken_is_said() -> None:
    """A number typed with ~ counts as its number, and the answer says so."""
    done = answer("level", {"gap": "~2", "length": "600"})
    assert done.outcome.inputs["gap"] == 2
    assert "gap: taken as its number" in done.remarks


def test_remarks_of_items_are_kept() -> None:
    """A ~ inside a list is said too."""
    done = answer("axle-loads", {"wheelbase": "3 m", "items": "~90 @ 1500"})
    assert "items: taken as its number" in done.remarks


def test_the_help_tells_what_can_be_typed() -> None:
    """The help names each input with its unit or choices and default, and an example to copy."""
    text = describe(find("bolt-circle"))
    assert "  measured: centres | inner edges | outer edges | same edges" in text
    assert "  apart: count (can be left out: 1)" in text
    assert "  hole: mm (can be left out)" in text
    assert (
        "Example: jobtrack work-out bolt-circle holes=4 spacing=58.71 measured='inner edges' hole=12" in text
    )
    assert "  items: list of mass @ distance, comma-separated" in describe(find("axle-loads"))


@pytest.mark.parametrize(
    ("name", "typed", "says"),
    [
        ("level", {"gap": ""}, "^gap: empty; give a number in mm"),
        ("level", {"gap": "2 deg"}, "^gap: .*deg is an angle"),
        ("level", {"gap": ">2"}, "^gap: >2 is not one number; give a number in mm"),
        ("level", {"gap": "1..2"}, "^gap: 1..2 is not one number"),
        ("level", {"gap": "seized"}, "^gap: seized is not one number"),
        ("level", {"gap": "?"}, "^gap: "),
        ("level", {"gap": "nan"}, "^gap: "),
        ("level", {"gpa": "2"}, "^gpa: no such input of level; did you mean gap"),
        ("bolt-circle", {"measured": "innner edges"}, "did you mean inner edges"),
        (
            "bolt-circle",
            {"holes": "4.5", "spacing": "9", "measured": "centres"},
            "^holes: 9/2 can't be used; give a whole number",
        ),
        ("axle-loads", {"items": " , "}, "^items: .* holds no item; give a list of mass @ distance"),
        ("axle-loads", {"items": "90 kg"}, "^items: 90 kg is no mass @ distance"),
        ("axle-loads", {"items": "90 @ 3 @ 4"}, "^items: .* is no mass @ distance"),
        ("axle-loads", {"items": "90 mm @ 3"}, "^items: .*mm is a length"),
        ("no-such", {}, "^no-such: no such working-out"),
    ],
)
def test_bad_typing_is_refused_in_one_line(name: str, typed: dict[str, str], says: str) -> None:
    """What can't be read is named with its key and with what would be read."""
    with pytest.raises(WorkingOutError, match=says) as refusal:
        answer(name, typed)
    assert "\n" not in str(refusal.value)


def test_a_quantity_knows_its_choices_and_items() -> None:
    """Units that are choices or lists say so."""
    assert Quantity("measured", "a|b").choices == ("a", "b")
    assert Quantity("stack", "list mm").items == Quantity("stack", "mm")
    assert Quantity("gap", "mm").items is None
