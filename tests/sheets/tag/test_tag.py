"""The paper on the steering wheel: every tag that is due once, and none that could be taken for an all-clear."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Literal

import pytest
import tomli
from pypdfium2 import PdfDocument

from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Cut, Section, Sheet, Shout
from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.tag.sheet import COME_OFF, COMES_OFF, MOST, ONE_BELOW_ANOTHER, tag_sheet
from jobtrack.sheets.words.sentences import tags
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from tests.support.browser import faults, rendered
from tests.support.builders import Copy, given, read, surveyed, tick
from tests.support.exchange import HALF_DONE

AT = datetime(2031, 5, 15, 15, 45, tzinfo=timezone(timedelta(hours=1)))
POINTS_IN_MM = 72 / 25.4
TALL = 20.0
"""Millimetres that the letters of up to three tags are high."""
SMALL = 6.0
"""The same of the others."""
WORDS = [
    "NO BRAKES", "JOINTS NOT SEEN: DON'T DRIVE", "U-BOLTS LOOSE", "ONLY CHOCKS HOLD IT", "AXLE DRY", "WHEEL OFF",
    "PROP SHAFT OFF: CAN ROLL", "TANK OUT, FUEL LINES OPEN", "ON STANDS", "BATTERY OFF", "FIRE WATCH", "KEEP THE MARKS",
    "PINION OPEN",
]  # fmt: skip
"""Short ones and the longest of the shelf."""


def job_with(found: Sequence[str], more: str = "", step: str = "s0", *, vehicle: str = "van") -> Job:
    """A job that has left a condition with each of these tags, all in one step."""
    template = tomli.loads(
        f"""format = 1
id = "t"
title = "Springs"
version = "1"
for = "an invented van"
[vehicle]
{vehicle} = "The van"
[stage]
a = {{ title = "A" }}
[condition]
{"".join(f'c{number} = {{ text = "Condition {number}", tag = "{tag}" }}' + chr(10) for number, tag in enumerate(found))}
{more}
[step.s0]
stage = "a"
title = "Left so"
opens = {[f"c{number}" for number in range(len(found))]}
tick.done = {{ ask = "Done?" }}
"""
    )
    data = write_header({"id": "job-2", "title": "Springs of the baker's van"}, template)
    header = scan(data).header
    assert header is not None
    copy = Copy(Job.fold(about_from(tomli.loads(data.decode()), header.hash), ()))
    copy.begin((f"{vehicle}.name", "Ostrick Haywain"))
    copy.call(step, tick("done"), by="Wim")
    return copy.job


def sheet_of(job: Job, by: str | None = "Ada Prosser") -> Sheet:
    sheet = tag_sheet(job, by, AT)
    assert sheet is not None
    return sheet


def shouts(one: Sheet | Section) -> list[Shout]:
    sections = one.sections if isinstance(one, Sheet) else (one,)
    return [block for section in sections for block in section.blocks if isinstance(block, Shout)]


def test_it_says_what_who_when_and_when_it_comes_off() -> None:
    """The words, the name as typed, date and time with their zone, job, vehicle, whom to ask."""
    said = " ".join(written(sheet_of(job_with(["NO BRAKES"])), ".txt").decode().split())
    for wanted in (
        "NO BRAKES",
        "Condition 0. Wim, since 1 Apr 08:01",
        "Left by Ada Prosser (as typed); written 15 May 2031 15:45. Ask before you touch it, telephone ____",
        "Times are local, UTC+01:00.",
        "Job: Springs of the baker's van. Van: Ostrick Haywain.",
        COMES_OFF,
    ):
        assert wanted in said
    assert COME_OFF in " ".join(written(sheet_of(job_with(["A", "B"])), ".txt").decode().split())


def test_without_a_name_there_is_room_for_one() -> None:
    """Nobody is named who didn't leave it."""
    assert (
        "Left by ________________ written 15 May" in written(sheet_of(job_with(["A"]), None), ".txt").decode()
    )


def test_every_tag_once_the_worst_first() -> None:
    """Those of `show`, in its order."""
    job = JobFile(HALF_DONE).job
    due = list(dict.fromkeys(one.partition(" (")[0] for one in tags(job)))
    assert [one.words for one in shouts(sheet_of(job))] == due


def test_left_and_right_are_one_line() -> None:
    """One wording that is due on both sides hangs there once and names both, each with whoever left it so."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"), by="Teo")
    copy.call("mark.right", read("moved", "23"), by="Ada")
    assert tags(copy.job) == ["KEEP THE MARKS (right)", "KEEP THE MARKS (left)"]
    [one] = shouts(sheet_of(copy.job))
    assert one.words == "KEEP THE MARKS"
    assert one.under == ("right and left: Marks not yet read back. Ada and Teo, since 1 Apr 08:02",)


@pytest.mark.parametrize("many", range(1, 2 * MOST + 2))
def test_up_to_three_have_a_row_each_and_none_is_larger(many: int) -> None:
    """All on one paper as far as it has room; which of them is worst isn't recorded, so none stands out."""
    found = sheet_of(job_with([f"TAG {number}" for number in range(many)])).sections
    assert [len(shouts(one)) for one in found] == [min(MOST, many - at) for at in range(0, many, MOST)]
    for one in found:
        here = shouts(one)
        assert {each.lesser for each in here} == {len(here) > ONE_BELOW_ANOTHER}
    assert [any(isinstance(block, Cut) for block in one.blocks) for one in found] == [
        not number % 2 for number in range(len(found))
    ]


def test_nothing_due_is_no_paper() -> None:
    """Nor where something is open that has no tag: an empty paper could be taken for an all-clear."""
    assert tag_sheet(job_with([]), "Ada", AT) is None
    assert tag_sheet(Job.fold(job_with(["A"]).about, ()), "Ada", AT) is None


def test_what_damage_may_have_opened_is_there_with_perhaps(tmp_path: Path) -> None:
    """The entry that took brakes and shaft off can't be read: each of its tags hangs there with PERHAPS."""
    sample = HALF_DONE.read_bytes()
    start = sample.index(b'did = [{ opens = "shaft-off" }')
    path = tmp_path / "half.job.toml"
    path.write_bytes(sample[:start] + sample[start:].replace(b"yes = true", b"yes = truu", 1))
    job = JobFile(path).job
    words = [one.words for one in shouts(sheet_of(job))]
    assert words[0].startswith("UNKNOWN: ENTRY AT LINE ")
    assert [one for one in words if one.startswith("PERHAPS ")] == [
        one for one in tags(job) if one.startswith("PERHAPS ")
    ]
    [perhaps] = [one for one in shouts(sheet_of(job)) if one.words == "PERHAPS PROP SHAFT OFF"]
    assert perhaps.under == ("Who left it so isn't known",)


def test_each_vehicle_has_a_half_page_of_its_own() -> None:
    """A condition of the donor hangs in the donor, by its name; the others where the template's steps are."""
    template = tomli.loads(
        """format = 1
id = "t"
title = "Axle"
version = "1"
for = "two invented vans"
about = "recipient"
[vehicle]
recipient = "gets it"
donor = "gives it"
[stage]
a = { title = "A" }
[condition]
chocks = { text = "Only chocks hold it", tag = "CHOCKS ONLY" }
dry = { text = "Axle drained", tag = "AXLE DRY" }
[step.chock]
stage = "a"
title = "Chock it"
for_each = "vehicle"
opens = ["chocks"]
tick.done = { ask = "Done?" }
[step.drain]
stage = "a"
title = "Drain it"
opens = ["dry"]
tick.done = { ask = "Done?" }
"""
    )
    data = write_header({"id": "job-3", "title": "Axle"}, template)
    header = scan(data).header
    assert header is not None
    copy = Copy(Job.fold(about_from(tomli.loads(data.decode()), header.hash), ()))
    copy.call(None, given("recipient.name", "Fenwold Sedge"))
    for step in ("chock.donor", "chock.recipient", "drain"):
        copy.call(step, tick("done"))
    found = {one.title: [each.words for each in shouts(one)] for one in sheet_of(copy.job).sections}
    assert found == {"Fenwold Sedge": ["AXLE DRY", "CHOCKS ONLY"], "Donor, axle": ["CHOCKS ONLY"]}


class Letters:
    """The letters of a printed page by their boxes; beside such large ones their order is lost."""

    def __init__(self, job: Job, paper: Literal["A4", "Letter"]) -> None:
        [page] = PdfDocument(rendered(written(sheet_of(job), ".html"), paper).pdf)
        text = page.get_textpage()
        self._found = [(text.get_text_range(at, 1), text.get_charbox(at)) for at in range(text.count_chars())]
        self.lowest = 1 - min(box[1] for one, box in self._found if one.strip()) / page.get_height()

    def rows(self, least: float) -> list[str]:
        """What is written in capital letters of at least so many millimetres, row by row, without blanks."""
        found: dict[int, list[tuple[float, str]]] = {}
        for letter, (left, bottom, _, top) in self._found:
            if letter.isupper() and top - bottom >= least * POINTS_IN_MM:
                found.setdefault(round(bottom / POINTS_IN_MM / least * 2), []).append((left, letter))
        return ["".join(letter for _, letter in sorted(found[row])) for row in sorted(found, reverse=True)]


def capitals(words: str) -> str:
    return "".join(one for one in words if one.isupper())


PAPERS: tuple[Literal["A4", "Letter"], ...] = ("A4", "Letter")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(
    "words", [["NO BRAKES"], ["NO PARKING BRAKE", "U-BOLTS LOOSE", "WHEELS NOT HELD"]], ids=len
)
def test_up_to_three_are_twenty_millimetres_high_on_half_a_page(
    paper: Literal["A4", "Letter"], words: list[str]
) -> None:
    """Measured in the PDF, letter by letter; all that stands there stands above the middle of the page."""
    found = Letters(job_with(words), paper)
    assert "".join(found.rows(TALL)) == "".join(map(capitals, words))
    assert 0.45 < found.lowest < 0.5


@pytest.mark.parametrize("paper", PAPERS)
def test_the_half_done_sample_on_half_a_page(paper: Literal["A4", "Letter"]) -> None:
    """Two in a row, all alike large; nothing below the middle."""
    job = JobFile(HALF_DONE).job
    words = [one.words for one in shouts(sheet_of(job))]
    found = Letters(job, paper)
    assert Counter("".join(found.rows(SMALL))) == Counter("".join(map(capitals, words)))
    assert found.lowest < 0.5


@pytest.mark.parametrize("many", [1, 3, MOST, MOST + 2])
def test_nothing_is_cut_off(many: int) -> None:
    """As few and as many lines as a half page has, and one page with two halves; on A4, Letter and a telephone."""
    assert faults(written(sheet_of(job_with(WORDS[:many])), ".html")) == []
