"""`show`: every key of `show --json`, always there, and the form in words."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.support.cli_calls import AT, Shop, one_line, step

TOP = [
    "job",
    "steps",
    "workings_out",
    "open_conditions",
    "tags",
    "next_steps",
    "due_afterwards",
    "hours",
    "problems",
    "buying",
    "agreed",
    "welds",
    "parts",
    "places",
    "photos",
    "notes",
    "marks",
    "met",
    "others",
    "gone",
]
ABOUT = ["id", "title", "template", "ended", "givens"]
STEP = [
    "id", "stage", "title", "state", "problems", "hazard", "hold", "readings", "ticks", "torques",
    "torque_stages", "welds", "parts", "places", "photos", "notes", "marks", "met", "others",
]  # fmt: skip
READING = [
    "value", "unit", "typed", "bound", "low", "high", "word", "target", "off_by", "at_least", "at_most",
    "doubt",
    "with", "verdict", "by", "at", "others",
]  # fmt: skip
STATES = {"to come", "next", "in hand", "finished", "not needed", "look again"}
VERDICTS = {"within", "outside", "too close to call", "none"}


def refuse(constant: str) -> None:
    raise ValueError(f"{constant} is no JSON")


def show(shop: Shop) -> Any:
    return json.loads(shop.done("show", shop.job, "--json").out, parse_constant=refuse)


@pytest.fixture
def worked_on(shop: Shop) -> Shop:
    """A job with a bit of everything recorded in it."""
    shop.record("--given", "hook-height=17 1/2 in", "--clock", "on", "--at", AT)
    shop.record("spacing.donor", "--reading", "holes=1012", "--finished", "--at", "2031-04-02T10:41:07+01:00")
    shop.record("spacing.recipient", "--reading", "holes=37 15/16 in", "--finished")
    shop.record(
        "plate.left", "--reading", "moved=30", "--tick", "scribed=no", "--reading", "thick=8", by="Ada"
    )
    shop.record("plate.left", "--reading", "moved=24", "--release-hold", by="Ada")
    shop.record("tack", "--tick", "looked=yes")
    shop.record("nuts", "--torque", "nuts.1=snug", "--torque", "nuts.1=final:55", "--torque", "nuts.2=1")
    return shop


def test_all_keys_are_there_from_the_beginning(shop: Shop) -> None:
    """Before anything is recorded every key of the shape is there, null where there is no value."""
    state = show(shop)
    assert list(state) == TOP
    assert list(state["job"]) == ABOUT
    assert [list(one) for one in state["steps"]] == [STEP] * 6
    readings = [reading for one in state["steps"] for reading in one["readings"].values()]
    assert [list(one) for one in readings] == [READING] * 6
    assert {(one["value"], one["typed"], one["by"], one["at"], one["verdict"]) for one in readings} == {
        (None, None, None, None, "none")
    }
    assert step(state, "plate.left")["ticks"] == {"scribed": None}
    assert step(state, "nuts")["torques"] == {"nuts": {}}
    assert state["job"]["ended"] is None


def test_all_keys_are_there_later_too(worked_on: Shop) -> None:
    """The same keys on a job that was worked on, each of a kind that the shape names."""
    state = show(worked_on)
    assert list(state) == TOP
    for one in state["steps"]:
        assert list(one) == STEP
        assert one["state"] in STATES
        assert one["hold"] is None or list(one["hold"]) == ["ask", "state", "by", "at"]
        for reading in one["readings"].values():
            assert list(reading) == READING
            assert reading["verdict"] in VERDICTS
            assert all(
                list(other) == ["act", "value", "unit", "typed", "by", "at"] for other in reading["others"]
            )
    assert {tuple(one) for one in state["job"]["givens"].values()} == {("value", "unit", "typed")}
    assert {tuple(one) for one in state["open_conditions"]} == {
        ("id", "member", "step", "text", "since", "by", "tag")
    }
    assert {tuple(one) for one in state["due_afterwards"]} == {("id", "text", "done")}
    assert list(state["hours"]) == ["total_hours", "by_person", "by_step", "running"]
    results = [one for work in state["workings_out"].values() for one in work.values()]
    assert {tuple(one) for one in results} == {("value", "unit", "doubt")}


def test_what_was_recorded_is_in_it(worked_on: Shop) -> None:
    """Values in the template's unit and as typed, targets, what was measured before, stages of bolts."""
    state = show(worked_on)
    assert state["job"]["givens"]["hook-height"] == {"value": 444.5, "unit": "mm", "typed": "17 1/2 in"}
    assert state["job"]["givens"]["wanted-on"] == {"value": None, "unit": None, "typed": None}
    moved = step(state, "plate.left")["readings"]["moved"]
    assert (moved["value"], moved["typed"], moved["by"], moved["verdict"]) == (24.0, "24", "Ada", "within")
    assert moved["target"] == pytest.approx((1012 - 963.6125) / 2)
    assert (moved["off_by"], moved["doubt"], moved["with"]) == (1.0, 0.6, "steel rule")
    assert [one["value"] for one in moved["others"]] == [30.0]
    assert step(state, "plate.left")["ticks"] == {"scribed": False}
    assert step(state, "plate.left")["hold"]["by"] == "Ada"
    assert step(state, "plate.left")["hold"]["state"] == "released"
    assert step(state, "nuts")["torques"] == {"nuts": {"1": "final", "2": "1"}}
    assert state["workings_out"]["plate.left"]["shift.left_inboard"]["unit"] == "mm"
    assert {one["id"]: one["tag"] for one in state["open_conditions"]} == {
        "ask-first": "ASK FIRST", "hook-loose": "HOOK LOOSE", "nuts-new": "RE-CHECK NUTS"}  # fmt: skip


def test_hours_are_in_it(worked_on: Shop) -> None:
    """An hour between the clock's *on* and the next entry belongs to that entry's step; the clock runs."""
    hours = show(worked_on)["hours"]
    assert hours["running"] == ["Wim"]
    assert hours["by_step"]["spacing.donor"] == pytest.approx(1.0)
    assert hours["total_hours"] == pytest.approx(sum(hours["by_step"].values()))
    assert hours["total_hours"] == pytest.approx(sum(hours["by_person"].values()))


def test_bounds_and_words_have_no_value(shop: Shop) -> None:
    """*Over* and a word are shown as what they are, `value` null."""
    shop.record("spacing.donor", "--reading", "holes=>1012")
    shop.record("spacing.recipient", "--reading", "holes=can't reach")
    over, word = (
        step(show(shop), one)["readings"]["holes"] for one in ("spacing.donor", "spacing.recipient")
    )
    assert (over["value"], over["bound"], over["low"], over["high"]) == (None, "over", 1012.0, None)
    assert (word["value"], word["word"], word["verdict"]) == (None, "can't reach", "none")


def test_repeats_count_by_their_mean(shop: Shop) -> None:
    """Three readings, as typed, count as their mean; fewer than asked is a problem."""
    shop.record("plate.left", "--reading", "thick=8", "--reading", "thick=8.3")
    assert any("thick" in one for one in step(show(shop), "plate.left")["problems"])
    shop.record("plate.left", "--reading", "thick=8", "--reading", "thick=8.3", "--reading", "thick=8.3")
    thick = step(show(shop), "plate.left")["readings"]["thick"]
    assert (thick["value"], thick["typed"]) == (pytest.approx(8.2), ["8", "8.3", "8.3"])
    assert not any("thick" in one for one in step(show(shop), "plate.left")["problems"])


def test_the_form_in_words(worked_on: Shop) -> None:
    """What is open stands before the steps, then each step with its state, readings, verdict and hold."""
    out = worked_on.done("show", worked_on.job).out
    lines = out.splitlines()
    assert lines[0] == "Tow hook moved"
    assert lines.index("Recorded as open:") < lines.index("Stage 1 of 3, survey: 2 of 2 steps finished.")
    assert any(
        line.startswith("  Hook only tacked · since ") and line.endswith(" · tag HOOK LOOSE")
        for line in lines
    )
    assert "  plate.left: in hand. Make the plate (left)" in lines
    assert "      Scribed line past the old and the new place? no" in lines
    assert any(line.startswith("      moved: 24 mm. Within the limits given: ") for line in lines)
    assert "limit set in this template, no published source" in out
    assert "Released by Ada (as typed)" in out
    assert "The clock of Wim runs" in out


def test_nothing_open_is_no_promise(shop: Shop) -> None:
    """An empty list of open conditions says what it doesn't say."""
    shop.record("--closes", "ask-first")
    out = shop.done("show", shop.job).out
    assert "No open condition is recorded. That does not say that the vehicle is safe: look." in out
    assert "Nothing in the order of steps or in what is recorded as open stops these." in out


def test_a_torn_end_is_said(shop: Shop) -> None:
    """What a broken-off write left is named, counts for nothing, and is set aside by the next entry."""
    shop.record("--note", "whole")
    whole = shop.job.read_bytes()
    shop.record("--note", "torn")
    shop.job.write_bytes(shop.job.read_bytes()[:-10])
    torn = shop.job.read_bytes()
    assert "the write of an entry was broken off; it counts for nothing" in shop.done("show", shop.job).out
    assert shop.job.read_bytes() == torn
    said = shop.done("record", shop.job, "--by", "Wim", "--note", "next").out
    assert "A torn end stood in the file; it was set aside in " in said
    assert shop.job.read_bytes().startswith(whole)
    assert [one.read_bytes() for one in shop.folder.glob("*.set-aside-*")] == [torn[len(whole) :]]


def test_what_is_gone_from_the_file_is_named(shop: Shop) -> None:
    """After an older copy was put back, the entry that this machine has seen: whose, when, and where it was seen."""
    old = shop.job.read_bytes()
    assert show(shop)["gone"] == []
    shop.record("--note", "seen once", by="Ada")
    shop.job.write_bytes(old)
    [gone] = show(shop)["gone"]
    assert list(gone) == ["id", "at", "by", "file"]
    assert (gone["by"], gone["file"]) == ("Ada", str(shop.job))


def test_the_list_to_buy(shop: Shop) -> None:
    """What is missing or on its way, one that nobody planned too; JSON and the list are asked for apart."""
    assert "To get:\n- 4 × " in (before := shop.done("show", shop.job, "--to-buy").out)
    assert before.count("nothing recorded") == 1
    shop.record("--buying", "bolts=ordered", "--also", "from=Quilby", "--also", "due=Friday")
    shop.record("--buying", "split pin=asked")
    out = shop.done("show", shop.job, "--to-buy").out
    assert out.splitlines()[3:] == ["To get:", "- split pin: asked", "", "On the way:", out.splitlines()[-1]]
    assert out.endswith(": ordered, from Quilby, due Friday\n")
    assert "--json: can't go with --to-buy" in shop.run("show", shop.job, "--to-buy", "--json").err


def test_the_tag_for_the_steering_wheel(worked_on: Shop) -> None:
    """Written where it was asked for, with the name of who leaves it, or of whoever recorded last."""
    assert worked_on.done("show", worked_on.job, "--wheel-tag", "tag.html", "--by", " Ada  P ").out == (
        "The tag is tag.html\n"
    )
    page = Path("tag.html").read_text(encoding="utf-8")
    assert "<strong>Ada P</strong> (as typed)" in page
    assert all(tag.partition(" (")[0] in page for tag in show(worked_on)["tags"])
    worked_on.done("show", worked_on.job, "--wheel-tag", "mine.html")
    assert "<strong>Wim</strong> (as typed)" in Path("mine.html").read_text(encoding="utf-8")


def test_no_tag_is_no_paper(worked_on: Shop) -> None:
    """One honest sentence, exit 0, and nothing written that could be taken for an all-clear."""
    worked_on.record("--agreed", "Ruth=yes", "--closes", "ask-first")
    for one in show(worked_on)["open_conditions"]:
        name = one["id"] if one["member"] is None else f"{one['id']}.{one['member']}"
        worked_on.record("--closes", name)
    assert worked_on.done("show", worked_on.job, "--wheel-tag", "tag.html").out == (
        "No tag is recorded as due. That does not say that the vehicle is safe: look.\n"
    )
    assert not Path("tag.html").exists()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--wheel-tag", "there.html"], "there.html: is there already; name a file that isn't"),
        (["--wheel-tag", "tag.md"], "name a file that ends in .html"),
        (["--wheel-tag", "no/tag.html"], "no/tag.html: there is no such folder"),
        (["--wheel-tag", "tag.html", "--by", " "], "--by is empty"),
        (["--wheel-tag", "tag.html", "--json"], "--json"),
    ],
)
def test_a_tag_that_is_refused(worked_on: Shop, options: list[str], said: str) -> None:
    """Exit 2, one line, and nothing written."""
    Path("there.html").write_text("mine", encoding="utf-8")
    ended = worked_on.run("show", worked_on.job, *options)
    assert (ended.status, ended.out) == (2, "")
    assert said in one_line(ended.err)
    assert Path("there.html").read_text(encoding="utf-8") == "mine"
    assert not Path("tag.html").exists()
