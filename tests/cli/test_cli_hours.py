"""`hours` and `handover`."""

from __future__ import annotations

import csv
import errno
import json
import os
from pathlib import Path
from typing import Any

import pytest

from jobtrack.store.file import disk
from tests.support.cli_calls import TEMPLATE, Shop, entries, one_line

PER = ["step", "stage", "person", "vehicle", "job", "template", "month"]


@pytest.fixture
def timed(shop: Shop) -> Shop:
    """Two hours of Wim on the donor's spacing, half on the left plate, one of Ada's typed afterwards."""
    for at, step, option in [
        ("08:00", [], ["--clock", "on"]),
        ("10:00", ["spacing.donor"], ["--reading", "holes=1012"]),
        ("10:30", ["plate.left"], ["--reading", "moved=23"]),
        ("10:30", [], ["--clock", "off"]),
    ]:
        shop.record(*step, *option, "--at", f"2031-04-30T{at}:00+01:00")
    shop.record("--worked", "1", "--for", "Ada", "--on-day", "2031-05-02")
    return shop


def hours(shop: Shop, per: str, *paths: object) -> Any:
    found = json.loads(shop.done("hours", *(paths or [shop.job]), "--per", per, "--json").out)
    assert list(found) == ["total_hours", "groups"]
    assert all(list(one) == ["key", "hours", "estimated_hours"] for one in found["groups"])
    return found


@pytest.mark.parametrize("per", PER)
def test_the_groups_add_up(timed: Shop, per: str) -> None:
    """However they are grouped, the hours are the same three and a half."""
    found = hours(timed, per)
    assert found["total_hours"] == pytest.approx(3.5)
    assert sum(one["hours"] for one in found["groups"]) == pytest.approx(3.5)


def test_hours_by_each_heading(timed: Shop) -> None:
    """Each stretch stands under the step, person, vehicle, job and month that it belongs to."""
    by = {
        per: {one["key"]: pytest.approx(one["hours"]) for one in hours(timed, per)["groups"] if one["hours"]}
        for per in PER
    }
    assert by["step"] == {"spacing.donor": 2.0, "plate.left": 0.5, "(no step)": 1.0}
    assert by["person"] == {"Wim": 2.5, "Ada": 1.0}
    assert by["vehicle"] == {"donor": 2.0, "(no vehicle)": 1.5}
    assert by["stage"] == {"survey": 2.0, "plates": 0.5, "(no step)": 1.0}
    assert by["job"] == {"Tow hook moved": 3.5}
    assert by["template"] == {"tow-hook": 3.5}
    assert by["month"] == {"2031-04": 2.5, "2031-05": 1.0}


def test_estimates_are_three_point_means(timed: Shop) -> None:
    """(short + 4 likely + long) / 6 of each step that isn't *not needed*; none for a person."""
    timed.record("plate.right", "--not-needed=one plate does")
    estimated = {one["key"]: one["estimated_hours"] for one in hours(timed, "step")["groups"]}
    assert estimated["plate.left"] == pytest.approx((10 + 4 * 20 + 60) / 6 / 60)
    assert "plate.right" not in estimated
    assert {one["estimated_hours"] for one in hours(timed, "person")["groups"]} == {None}
    [job] = hours(timed, "job")["groups"]
    assert job["estimated_hours"] == pytest.approx((10 + 10 + 25 + 30 + 10) / 60)


def test_one_person_is_in_one_place_at_a_time(timed: Shop) -> None:
    """A clock put on in another job ends this one's while it lasts; a copy of a job isn't counted twice."""
    other = Path("other.job.toml")
    timed.done("begin", TEMPLATE, "--out", other, "--by", "Wim", "--title", "Other")
    for at, what in (("09:00", "on"), ("09:30", "off")):
        timed.done("record", other, "--by", "wim", "--clock", what, "--at", f"2031-04-30T{at}:00+01:00")
    Path("copy.job.toml").write_bytes(other.read_bytes())
    found = hours(timed, "job", ".")
    assert {one["key"]: pytest.approx(one["hours"]) for one in found["groups"]} == {
        "Tow hook moved": 3.0,
        "Other": 0.5,
    }
    assert found["total_hours"] == pytest.approx(3.5)


def test_hours_in_words(timed: Shop) -> None:
    """The sum, a line each, and whose clock runs."""
    timed.record("--clock", "on", by="Teo")
    lines = timed.done("hours", timed.job, "--per", "person").out.splitlines()
    assert lines[0] == "Labour: 3.50 h"
    assert "  Wim: 2.50 h" in lines
    assert lines[-1] == "The clock of Teo runs; it counts to their last entry."


def test_a_damaged_file_is_named(timed: Shop) -> None:
    """Exit 0 with what could be read, and the file and line on stderr."""
    timed.job.write_bytes(timed.job.read_bytes().replace(b'for = "Ada"', b'for = "Eda"'))
    Path("nonsense.job.toml").write_bytes(b"\x00\xff nonsense")
    ended = timed.done("hours", ".", "--json")
    assert json.loads(ended.out)["total_hours"] == pytest.approx(2.5)
    said = ended.err.splitlines()
    assert any(line.startswith("hook.job.toml:") and "isn't counted" in line for line in said)
    assert any(line.startswith("nonsense.job.toml:1: ") for line in said)


# As a table


@pytest.mark.parametrize("per", PER)
def test_the_table_has_what_json_has(timed: Shop, per: str) -> None:
    """A row a group under JSON's names, read by the standard reader; the words are said as well."""
    ended = timed.done("hours", timed.job, "--per", per, "--csv", f"{per}.csv")
    assert ended.out.startswith("Labour: 3.50 h\n")
    assert ended.out.endswith(f"The table is {per}.csv\n")
    with Path(f"{per}.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, strict=True))
    assert [
        (one["key"], float(one["hours"]), float(one["estimated_hours"]) if one["estimated_hours"] else None)
        for one in rows
    ] == [(one["key"], one["hours"], one["estimated_hours"]) for one in hours(timed, per)["groups"]]


def test_a_name_that_is_a_formula_is_text_in_the_table(timed: Shop) -> None:
    """Whoever is called so: a spreadsheet shows the name, and runs nothing."""
    timed.record("--worked", "1", "--on-day", "2031-05-03", by="=HYPERLINK(A1)")
    timed.done("hours", timed.job, "--per", "person", "--csv", "people.csv")
    assert b'\r\n"\'=HYPERLINK(A1)",1.0,""\r\n' in Path("people.csv").read_bytes()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--csv", "there.csv"], "there.csv: is there already; name a file that isn't"),
        (["--csv", "hours.txt"], "name a file that ends in .csv"),
        (["--csv", "no/hours.csv"], "no/hours.csv: there is no such folder"),
        (["--csv", "hours.csv", "--json"], "--json"),
    ],
)
def test_a_table_that_is_refused(timed: Shop, options: list[str], said: str) -> None:
    """Exit 2, one line, nothing on standard output and nothing overwritten."""
    Path("there.csv").write_text("mine", encoding="utf-8")
    ended = timed.run("hours", timed.job, *options)
    assert (ended.status, ended.out) == (2, "")
    assert said in one_line(ended.err)
    assert Path("there.csv").read_text(encoding="utf-8") == "mine"
    assert [one.name for one in Path().glob("hours.*")] == []


# What the hours don't say by themselves

TWICE = (
    "Wim's clock was on in Tow hook moved and in Other from 2031-04-30 09:00 to 09:30; "
    "that time is counted once, in Other."
)
SPREAD = (
    "2 h typed afterwards by Wim for 2031-04-30 are spread equally over 2 steps: spacing.donor, plate.left; "
    "a clock was on that day as well, and both are counted."
)


def test_time_on_two_clocks_is_said(timed: Shop) -> None:
    """One person's clock on in two jobs is one sentence; with --json it stands on stderr, the JSON alone on stdout."""
    other = Path("other.job.toml")
    timed.done("begin", TEMPLATE, "--out", other, "--by", "Wim", "--title", "Other")
    for at, what in (("09:00", "on"), ("09:30", "off")):
        timed.done("record", other, "--by", "wim", "--clock", what, "--at", f"2031-04-30T{at}:00+01:00")
    assert TWICE in timed.done("hours", timed.job, other).out.splitlines()
    ended = timed.done("hours", timed.job, other, "--json")
    assert ended.err.splitlines() == [TWICE]
    assert list(json.loads(ended.out)) == ["total_hours", "groups"]
    assert TWICE not in timed.done("hours", timed.job).out


def test_how_typed_hours_are_spread_is_said(timed: Shop) -> None:
    """Hours typed afterwards are spread over the steps touched that day, in the sums and in a sentence."""
    timed.record("--worked", "2", "--on-day", "2031-04-30")
    assert SPREAD in timed.done("hours", timed.job).out.splitlines()
    by_step = {one["key"]: one["hours"] for one in hours(timed, "step")["groups"] if one["hours"]}
    assert by_step == {"spacing.donor": 3.0, "plate.left": 1.5, "(no step)": 1.0}
    assert timed.done("hours", timed.job, "--json").err == ""


def test_show_says_how_the_hours_are_counted(timed: Shop) -> None:
    """`show` has the same sentence about hours typed afterwards, the steps by their titles."""
    timed.record("--worked", "2", "--on-day", "2031-04-30")
    titles = "“Spacing of the holes (donor)” and “Make the plate (left)”"
    said = SPREAD.rstrip(".").replace("spacing.donor, plate.left", titles)
    assert said in " ".join(timed.done("show", timed.job).out.split())


def test_a_break_is_no_clock_that_runs(timed: Shop) -> None:
    """Somebody on a break is said to be on one, on every sheet, until their next entry."""
    timed.record("--clock", "on", "--at", "2031-05-03T08:00:00+01:00")
    timed.record("--clock", "break", "--at", "2031-05-03T09:00:00+01:00")
    paused, runs = "Wim is on a break; the clock goes on with their next entry.", "The clock of Wim runs"
    said = [timed.done("show", timed.job).out, timed.done("hours", timed.job).out]
    said.append(timed.done("handover", timed.job, "--by", "Ada", "--to", "Jo").out)
    assert all(paused in text.replace("\\", "") and runs not in text for text in said)
    timed.record("--note", "back", "--at", "2031-05-03T09:30:00+01:00")
    assert runs in timed.done("show", timed.job).out


# Handover


def test_a_handover_is_an_entry_and_a_sheet(shop: Shop) -> None:
    """The entry names who takes over; the sheet is written where it was asked for."""
    ended = shop.done("handover", shop.job, "--by", "Wim", "--to", " Ada  P ", "--out", "sheet.md")
    assert ended.out == "Handed over to Ada P; the sheet is sheet.md\n"
    assert entries(shop.job)[-1]["did"] == [{"to": "Ada P", "handover": True}]
    sheet = Path("sheet.md").read_text(encoding="utf-8")
    assert sheet.startswith("# Handover: Tow hook moved\n\nFrom Wim to Ada P, ")
    assert "Not yet asked: does the owner want the hook moved?" in sheet


SAYS = {
    "--holds-up": "two  stands, shaken", "--decides": "Ruth, till six", "--promised": "Friday",
    "--tried": "the long bar", "--says": "mind the dog",
}  # fmt: skip


@pytest.mark.parametrize("ending", [".html", ".md", ".txt"])
def test_what_the_giver_says_stands_in_the_entry_and_on_the_sheet(shop: Shop, ending: str) -> None:
    """In one row each; what isn't said has lines to write on; each form by the ending of its file."""
    options = [part for pair in SAYS.items() for part in pair]
    shop.done("handover", shop.job, "--by", "Wim", "--to", "Ada", *options, "--out", f"sheet{ending}")
    said = {name.strip("-").replace("-", "_"): " ".join(text.split()) for name, text in SAYS.items()}
    assert entries(shop.job)[-1]["did"] == [{"to": "Ada", "handover": True, **said}]
    sheet = Path(f"sheet{ending}").read_text(encoding="utf-8")
    assert all(f"Wim says: {text}" in " ".join(sheet.split()) for text in said.values())


def test_to_oneself_the_sheet_is_the_short_one(shop: Shop) -> None:
    """By one's own name, however it is written."""
    sheet = shop.done("handover", shop.job, "--by", "Wim", "--to", " WIM ").out
    assert [row for row in sheet.splitlines() if row.startswith("#")][:2] == [
        "# For the morning: Tow hook moved",
        "## What holds it up",
    ]
    assert "Return slip" not in sheet


def test_the_sheet_speaks_the_units_asked_for(shop: Shop) -> None:
    """As `--units` says."""
    shop.done("record", shop.job, "spacing.donor", "--by", "Wim", "--reading", "holes=1012")
    sheets = [
        shop.done("handover", shop.job, "--by", "Wim", "--to", "Ada", "--units", units).out
        for units in ("metric", "US")
    ]
    assert ["39.84 in" in sheet for sheet in sheets] == [False, True]
    assert all("1012 mm" in sheet for sheet in sheets)


def test_a_sheet_that_cannot_be_written_records_nothing(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk where the sheet goes: exit 2, one line, and no handover that nobody has a sheet of."""

    def full(path: Path, data: bytes, mode: int = 0) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    monkeypatch.setattr(disk, "write_new", full)
    before = Path(shop.job).read_bytes()
    ended = shop.run("handover", shop.job, "--by", "Wim", "--to", "Ada", "--out", "sheet.md")
    assert ended.status == 2
    assert one_line(ended.err).startswith(
        "sheet.md: can't be written: No space left on device; nothing was recorded"
    )
    assert Path(shop.job).read_bytes() == before


def test_without_out_the_sheet_is_printed(shop: Shop) -> None:
    """The sheet on standard output, nothing else."""
    assert shop.done("handover", shop.job, "--by", "Wim", "--to", "Ada").out.startswith("# Handover: ")


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--to", "Ada", "--out", "there.md"], "there.md: is there already"),
        (["--to", "Ada", "--out", "no/such.md"], "no/such.md: there is no such folder"),
        (["--to", "Ada", "--out", "sheet.pdf"], "name a file that ends in .html or .md or .txt"),
        (["--to", " "], "--to is empty"),
        (["--to", "Ada", "--holds-up", " "], "--holds-up is empty; say what is meant, or leave it out"),
        (["--to", "Ada", "--says", "x" * 10_241], "--says is longer than 10240 bytes"),
        (["--to", "x" * 201], "200 characters"),
    ],
)
def test_a_refused_handover_records_nothing(shop: Shop, options: list[str], said: str) -> None:
    """Exit 2, one line, no entry, and nothing overwritten."""
    Path("there.md").write_text("mine", encoding="utf-8")
    before = shop.job.read_bytes()
    ended = shop.run("handover", shop.job, "--by", "Wim", *options)
    assert ended.status == 2
    assert said in one_line(ended.err)
    assert shop.job.read_bytes() == before
    assert Path("there.md").read_text(encoding="utf-8") == "mine"
