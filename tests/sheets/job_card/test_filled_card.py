"""The card filled in so far says what `show --json` says, step by step; the empty one nothing of it."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from functools import cache
from typing import Any

import pytest

from jobtrack import units
from jobtrack.job.acts.base import replace
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.state.job import Job
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_card.sheet import job_card
from jobtrack.sheets.paper.blocks import Paragraph, Points, Section, Sheet, Text
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.units.chosen import METRIC, US, Chosen
from tests.sheets.job_card.reading_cards import (
    CHECKED,
    MEASURED,
    TIGHTENED,
    WELDED,
    blanks,
    boxes,
    every_text,
    named_before,
    plain,
    released_lines,
    rows,
    step_sections,
    strong,
)
from tests.support.builders import DONOR, Copy, minutes, not_needed, note, read, surveyed

AT = datetime(2031, 5, 20, 16, 20, tzinfo=UTC)
SAMPLES = ("axle-exchange-half-done", "axle-exchange-finished")
Json = dict[str, Any]
NUMBER = re.compile(r"((?:-?\d+ )?-?\d+(?:\.\d+|/\d+)?) ?(.*)")


@cache
def sample(name: str) -> Job:
    return JobFile(shipped("sample_jobs") / f"{name}.job.toml").job


def card(job: Job, system: str = METRIC, *, empty: bool = False) -> Sheet:
    return job_card(job, Chosen(system), AT, empty)


@pytest.mark.parametrize("system", [METRIC, US])
@pytest.mark.parametrize("name", SAMPLES)
def test_it_says_what_show_says(name: str, system: str) -> None:
    """Each value with its verdict, name and time, each answer, bolt, run and release; frames for the rest."""
    job = sample(name)
    found = step_sections(card(job, system))
    for step in job_json(job)["steps"]:
        if step["id"] not in found:
            assert step["state"] == "not needed"
            assert not any(one["value"] for one in step["readings"].values() if one["by"])
            continue
        check_readings(rows(found[step["id"]], MEASURED), step["readings"])
        check_ticks(rows(found[step["id"]], CHECKED), step["ticks"])
        check_torques(found[step["id"]], step["torque_stages"])
        check_welds(found[step["id"]], step["welds"])
        check_hold(found[step["id"]], step["hold"])


def check_readings(found: list[tuple[Text, ...]], readings: dict[str, Json]) -> None:
    assert len(found) == len(readings)
    for (_, _, measured, lies), one in zip(found, readings.values(), strict=True):
        said = strong(measured)
        if one["value"] is not None:
            check_value(said, one)
        elif one["by"] is None:
            assert not said
            assert blanks(measured) >= 1
        else:
            assert one["word"] in said if one["word"] else one["typed"] in said
        verdicts = ("", "no limit known yet") if one["verdict"] == "none" else (one["verdict"],)
        assert strong(lies).removeprefix("far ") in verdicts
        assert plain(lies).count(when(one)) == 1 if one["by"] else True


def check_value(said: str, one: Json) -> None:
    """What stands in front of a bracket is the value, to its last place, read back as what is typed is read."""
    said_first = NUMBER.fullmatch(said.partition(" (")[0].removeprefix("about "))
    assert said_first, said
    number, unit = said_first.groups()
    decimals = len(number.partition(".")[2])
    noughts = 0 if decimals else len(number) - len(number.rstrip("0"))
    place = "1/64" if "/" in number else f"{10.0 ** (noughts - decimals):.{decimals}f}"
    read_back, step, nought = (
        float(units.read(f"{n} {unit}", one["unit"]).value or 0) for n in (number, place, "0")
    )
    assert abs(read_back - one["value"]) <= abs(step - nought), said


def when(one: Json) -> str:
    at = datetime.fromisoformat(one["at"])
    return f"{one['by']}, {at.day} {at:%b %H:%M}"


def check_ticks(found: list[tuple[Text, ...]], ticks: dict[str, bool | None]) -> None:
    assert len(found) == len(ticks)
    for (_, answer), yes in zip(found, ticks.values(), strict=True):
        assert strong(answer) == {True: "yes", False: "no", None: ""}[yes]
        assert boxes(answer) == (["yes", "no"] if yes is None else [])
        assert bool(plain(answer).removeprefix(strong(answer)).strip()) == (yes is not None)


def check_torques(section: Section, torques: dict[str, dict[str, Json]]) -> None:
    for name, table in named_before(section, TIGHTENED, "Torque"):
        done = torques[name]
        reached = [row for row in table.rows if any(strong(cell) for cell in row[1:-1])]
        assert len(reached) == (len(table.rows) if "" in done else len(done))
        for row in reached:
            mine = done.get(plain(row[0])) or done[""]
            last = max(number for number, cell in enumerate(row[1:-1]) if strong(cell))
            stages = ["finger", "snug", *(str(n + 1) for n in range(len(row) - 4))]
            assert stages[last] == {"final": stages[-1]}.get(mine["stage"], mine["stage"])
            assert plain(row[-1]) == when(mine)


def check_welds(section: Section, welds: list[Json]) -> None:
    for name, table in named_before(section, WELDED, "Weld"):
        last = {one["run"]: one for one in welds if one["weld"] == name}
        for row in table.rows:
            mine = last.get(plain(row[0]))
            assert bool(strong(row[1])) == (mine is not None)
            if mine:
                assert f"{mine['amps']:g} A" in strong(row[1])
                assert plain(row[-1]) == when(mine)


def check_hold(section: Section, hold: Json | None) -> None:
    said = [plain(one.text) for one in section.blocks if isinstance(one, Paragraph)]
    if hold is None:
        assert not any("Released" in one for one in said)
        return
    assert len(released_lines(section)) == (hold["state"] != "released")
    if hold["by"]:
        assert any(f"Released by {hold['by']} (as typed)" in one for one in said)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_empty_card_has_nothing_of_it(name: str) -> None:
    """No name of anybody, no time of an entry, nothing strong but labels: it is the card of a job just begun."""
    job = sample(name)
    sheet = card(job, empty=True)
    begun = Job.fold(job.about, ())
    assert sheet.sections == card(begun, empty=True).sections
    people = {entry.by for entry in job.view.entries}
    assert not [one for one in every_text(sheet) if any(name in one for name in people)]


@pytest.mark.parametrize("name", SAMPLES)
def test_what_isnt_needed_is_one_row_with_why(name: str) -> None:
    """In its stage, by its title; nothing of it is written out."""
    job = sample(name)
    sheet = card(job)
    spared = [one for one in job.steps if job.state(one) == "not needed"]
    points = [plain(point.text) for stage in sheet.sections for block in stage.blocks if isinstance(block, Points)
              for point in block.points if "not needed" in plain(point.text)]  # fmt: skip
    assert len(points) == len(set(spared) - set(step_sections(sheet)))
    assert any("”, not “" in one for one in points)


def test_a_step_marked_not_needed_says_why_and_who() -> None:
    """In the words of whoever marked it."""
    copy = surveyed()
    copy.call("nuts", not_needed("it came off with the bracket"), by="Orla Quince")
    said = [one for one in every_text(card(copy.job)) if "it came off with the bracket" in one]
    assert len(said) == 1
    assert "marked not needed: it came off with the bracket (Orla Quince, 1 Apr " in said[0]


def test_private_notes_stay_off_it() -> None:
    """Of a step and of the whole job; others stand, with who and when."""
    copy = surveyed()
    copy.call("tack.left", lambda draft: draft.add(NoteAct("He never sweeps", private=True)))
    copy.call(None, lambda draft: draft.add(NoteAct("Owes for the rods", private=True)))
    copy.call("tack.left", note("thin by the eye"), by="Orla Quince")
    said = list(every_text(card(copy.job)))
    assert not [one for one in said if "sweeps" in one or "Owes" in one or "private" in one]
    assert sum("note: thin by the eye (Orla Quince, " in one for one in said) == 1


def test_what_was_typed_in_later_says_when() -> None:
    """The time when it was done, and when it was typed in."""
    copy = Copy()
    copy.begin()
    entry = copy.call(DONOR, read("spacing", "1012"), by="Ada")
    late = replace(entry, typed_at=minutes(600))
    job = Job.fold(copy.job.about, [copy.entries[0], late])
    [row] = [row for row in rows(step_sections(card(job))[DONOR], MEASURED) if strong(row[2])]
    assert plain(row[3]).endswith("Ada, 1 Apr 08:01, typed in 1 Apr 18:00")


def test_two_who_differ_stand_both() -> None:
    """No value, both as typed, and a check that two answered otherwise counts as no."""
    mine = Copy()
    mine.begin()
    other = mine.split("other")
    mine.call(DONOR, read("spacing", "1012"), by="Ada")
    other.call(DONOR, read("spacing", "1015"), by="Wim")
    mine.take(other)
    found = next(row for row in rows(step_sections(card(mine.job))[DONOR], MEASURED) if strong(row[2]))
    assert strong(found[2]) in ("disagreement: 1012 mm / 1015 mm", "disagreement: 1015 mm / 1012 mm")
    assert {"Ada", "Wim"} <= set(re.findall(r"Ada|Wim", plain(found[3])))


def test_of_repeats_that_are_too_few_the_rest_are_frames() -> None:
    """Two of three: the mean so far, both as typed, one frame."""
    copy = Copy()
    copy.begin()
    copy.call("height", read("plate", "8.1", "8.2"))
    found = next(row for row in rows(step_sections(card(copy.job))["height"], MEASURED) if strong(row[2]))
    assert blanks(found[2]) == 1
    assert strong(found[2]).endswith("(mean of 2, 3 asked)")
    assert "typed 8.1; 8.2" in plain(found[2])
