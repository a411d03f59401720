"""`work-out`: the list, one of them, its JSON and its help."""

from __future__ import annotations

import json
from typing import Any

import pytest

from jobtrack.shopmath import catalogue
from jobtrack.shopmath.quantity import wanted
from tests.support.cli_calls import Shop, one_line

NAMES = sorted(name for names in catalogue.by_topic().values() for name in names)


def test_without_a_name_all_are_listed(empty_shop: Shop) -> None:
    """Every working-out under its topic, in words and as JSON alike."""
    topics = json.loads(empty_shop.done("work-out", "--json").out)
    names = [name for names in topics.values() for name in names]
    assert len(names) == len(set(names))
    assert sorted(names) == NAMES
    listed = empty_shop.done("work-out").out
    assert listed.splitlines() == [f"{topic}: {', '.join(names)}" for topic, names in topics.items()]


def test_perch_shift_from_both_spacings(empty_shop: Shop) -> None:
    """Donor 1012 mm, recipient 965 mm: 23.5 mm each side, inboard (arithmetic only)."""
    ended = empty_shop.done("work-out", "perch-shift", "spacing_now=1012", "spacing_wanted=965", "--json")
    answer = json.loads(ended.out)
    assert list(answer) == ["name", "inputs", "results", "source", "hazards", "remarks"]
    assert answer["inputs"] == {
        "spacing_now": {"value": 1012, "unit": "mm", "typed": "1012"},
        "spacing_wanted": {"value": 965, "unit": "mm", "typed": "965"},
    }
    assert answer["results"]["left_inboard"] == {"value": 23.5, "unit": "mm"}
    assert answer["results"]["right_inboard"] == {"value": 23.5, "unit": "mm"}
    assert answer["source"]


def test_it_reads_what_people_type(empty_shop: Shop) -> None:
    """Inches with fractions beside bare millimetres."""
    ended = empty_shop.done("work-out", "perch-shift", "spacing_now=1012", "spacing_wanted=38in", "--json")
    answer = json.loads(ended.out)
    assert answer["inputs"]["spacing_wanted"] == {"value": 965.2, "unit": "mm", "typed": "38in"}
    assert answer["results"]["left_inboard"]["value"] == pytest.approx(23.4)


@pytest.mark.parametrize("name", NAMES)
def test_each_has_help_and_an_example_that_works(empty_shop: Shop, name: str) -> None:
    """Help names inputs, results and source; its example gives every key of the shape."""
    work = catalogue.find(name)
    out = empty_shop.done("work-out", name, "--help").out
    assert out.startswith(f"{name} (")
    assert all(f"  {quantity.key}: " in out for quantity in (*work.inputs, *work.results))
    assert f"Example: jobtrack work-out {name}" in out
    ended = empty_shop.done(
        "work-out", name, *(f"{key}={text}" for key, text in work.example.items()), "--json"
    )
    answer: dict[str, Any] = json.loads(ended.out)
    assert list(answer["inputs"]) == [quantity.key for quantity in work.inputs]
    assert list(answer["results"]) == [quantity.key for quantity in work.results]
    assert {tuple(one) for one in answer["inputs"].values()} == {("value", "unit", "typed")}
    assert {tuple(one) for one in answer["results"].values()} == {("value", "unit")}
    assert answer["source"]


def test_the_answer_in_words(empty_shop: Shop) -> None:
    """The results in both unit systems, a sentence, the source."""
    out = empty_shop.done("work-out", "perch-shift", "spacing_now=1012", "spacing_wanted=965").out
    assert "left inboard: 23.5 mm" in out
    assert "in" in out.splitlines()[0]
    assert "Source: " in out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["perch-shfit", "a=1"], "perch-shfit: no such working-out"),
        (["perch-shift"], "spacing_now: missing"),
        (["perch-shift", "spacing_now=1012"], "spacing_wanted: missing"),
        (["perch-shift", "spacing=1012"], "spacing: no such input of perch-shift"),
        (["perch-shift", "spacing_now"], "work-out wants KEY=VALUE"),
        (["perch-shift", "=5"], "work-out wants KEY=VALUE"),
        (["perch-shift", "spacing_now=wide", "spacing_wanted=965"], "spacing_now: "),
        (["perch-shift", "spacing_now=", "spacing_wanted=965"], "spacing_now: "),
        (["perch-shift", "spacing_now=5 kg", "spacing_wanted=965"], "spacing_now: "),
        (["perch-shift", "spacing_now=1,012", "spacing_wanted=965"], "spacing_now: "),
        (["perch-shift", "spacing_now=NaN", "spacing_wanted=965"], "spacing_now: "),
        (["perch-shift", "spacing_now=-1012", "spacing_wanted=965"], "spacing_now: "),
        (["perch-shift", "spacing_now=1", "spacing_now=2"], "spacing_now is given twice"),
        (["perch-shift", "spacing_now=\udcff", "spacing_wanted=965"], "spacing_now: "),
    ],
)
def test_what_cant_be_worked_out_names_the_key(empty_shop: Shop, arguments: list[str], said: str) -> None:
    """Exit 2 and one line that begins with the key."""
    ended = empty_shop.run("work-out", *arguments)
    assert (ended.status, ended.out) == (2, "")
    assert one_line(ended.err).startswith(said)


@pytest.mark.parametrize("name", NAMES)
def test_a_name_alone_lists_all_that_is_missing(empty_shop: Shop, name: str) -> None:
    """One line: every input that has to be there with what it takes, and the example as it is typed."""
    ended = empty_shop.run("work-out", name)
    line = one_line(ended.err)
    assert ended.status == 2
    needed = [each for each in catalogue.find(name).inputs if not each.optional]
    assert line.startswith(f"{needed[0].key}: missing; give {wanted(needed[0])}")
    assert all(f"{each.key} ({wanted(each)})" in line for each in needed[1:])
    assert line.endswith(f"; for example: {catalogue.find(name).example_call()}")


def test_an_input_that_counts_for_nothing_alone_is_refused(empty_shop: Shop) -> None:
    """What a person weighs, without how many people there are, isn't ignored."""
    asked = ("cargo-capacity", "rated=3500", "unloaded=2800", "person=90")
    ended = empty_shop.run("work-out", *asked)
    assert (ended.status, ended.out) == (2, "")
    assert one_line(ended.err) == "people: missing; without it person counts for nothing"
    assert "capacity: 520 kg" in empty_shop.done("work-out", *asked, "people=2").out


def test_the_picture_stands_under_the_words(empty_shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """After the remarks, no wider than the terminal; the JSON has none of it."""
    monkeypatch.setenv("COLUMNS", "60")
    typed = ("perch-shift", "spacing_now=1012", "spacing_wanted=965")
    words, _, picture = empty_shop.done("work-out", *typed).out.partition("\n\nSeen from behind")
    assert "Remark: " in words
    assert "23.5 mm inboard" in picture
    assert max(map(len, picture.splitlines())) <= 60
    assert "Seen from behind" not in empty_shop.done("work-out", *typed, "--json").out
