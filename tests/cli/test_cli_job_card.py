"""`job-card`: written in three forms, over nothing, in the units asked for; nothing is recorded by it."""

from __future__ import annotations

import pytest

from tests.support.cli_calls import Shop


@pytest.mark.parametrize("ending", [".html", ".md", ".txt"])
def test_a_card_is_written_in_each_form(ending: str, shop: Shop) -> None:
    """It says where it is, and the job file is as before."""
    before, out = shop.job.read_bytes(), shop.folder / f"card{ending}"
    assert shop.done("job-card", shop.job, "--out", out).out == f"The job card is {out}\n"
    assert "Job card: " in out.read_text(encoding="utf-8")
    assert shop.job.read_bytes() == before


def test_nothing_is_overwritten_and_no_other_ending_taken(shop: Shop) -> None:
    out = shop.folder / "card.html"
    out.write_text("mine")
    assert "is there already" in shop.run("job-card", shop.job, "--out", out).err
    assert out.read_text() == "mine"
    assert "no sheet is written so" in shop.run("job-card", shop.job, "--out", shop.folder / "card.pdf").err


def test_the_units_are_those_asked_for(shop: Shop) -> None:
    """A frame has the unit of the system that is shown first."""
    found = {}
    for units in ("metric", "US"):
        out = shop.folder / f"{units}.txt"
        shop.done("job-card", shop.job, "--out", out, "--empty", "--units", units)
        found[units] = out.read_text(encoding="utf-8")
    assert found["metric"].count("_ mm") > found["metric"].count("_ in")
    assert found["US"].count("_ in") > 0
    assert "_ mm" not in found["US"]


def test_the_empty_card_has_nothing_that_was_recorded(shop: Shop) -> None:
    filled, empty = shop.folder / "filled.txt", shop.folder / "empty.txt"
    shop.record("tack", "--note", "thin by the weld")
    shop.done("job-card", shop.job, "--out", filled)
    shop.done("job-card", shop.job, "--out", empty, "--empty")
    assert "thin by the weld" in filled.read_text(encoding="utf-8")
    assert "thin by the weld" not in empty.read_text(encoding="utf-8")
    assert "Nothing recorded is filled in." in empty.read_text(encoding="utf-8")
