"""Whose a limit is: of the person who typed what it stands on, through every working-out between."""

from __future__ import annotations

import pytest
import tomli

from jobtrack.job.state.job import Job
from jobtrack.pages.step.table import whose_lines
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.words.sentences import OWN_LIMIT
from jobtrack.sheets.words.values.whose import NOT_KNOWN, limit_source
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from tests.support.builders import Copy, given, read
from tests.support.handed import handed, section, unescaped

TEMPLATE = """
format = 1
id = "tilt"
title = "Tilt of a bracket"

[stage]
only = { title = "Bracket" }

[given]
most = { ask = "Most on the plate", unit = "deg" }
pad = { ask = "Slope of the pad", unit = "deg" }
usual = { ask = "Allowance", unit = "deg", default = 4 }

[step.look]
stage = "only"
title = "Look at both faces"
work_out.level = { use = "relative-level", reference = "stand", face = "face" }
reading.stand = { unit = "deg", say = "On the stand", record_only = true }
reading.face = { unit = "deg", say = "On the face", record_only = true }
reading.tilt = { unit = "deg", from = "level.difference", say = "Face against the stand", record_only = true }

[step.bracket]
stage = "only"
title = "Set the bracket"
work_out.two = { use = "pinion-to-pad", gearbox_slope = "look.tilt", pad_slope = "pad" }
work_out.part = { use = "pinion-to-pad", gearbox_slope = "most", pad_slope = "most", nose_down = 1 }
work_out.own = { use = "relative-level", reference = 1, face = 3 }
work_out.begun = { use = "relative-level", reference = "most", face = "usual" }
reading.direct = { unit = "deg", at_most = "most" }
reading.through-one = { unit = "deg", at_most = "look.level.difference" }
reading.shown = { unit = "deg", at_most = "look.tilt" }
reading.through-two = { unit = "deg", target = "two.pinion_to_pad", off_by = 0.5 }
reading.partly-own = { unit = "deg", target = "part.pinion_slope", off_by = 0.5 }
reading.own = { unit = "deg", target = "own.difference", off_by = 0.5 }
reading.mixed = { unit = "deg", at_least = 0.5, at_most = "most" }
reading.sourced = { unit = "deg", at_most = "look.tilt", source = "a maker's sheet, 2 deg, invented" }
reading.as-begun = { unit = "deg", at_most = "usual" }
reading.with-begun = { unit = "deg", at_least = "begun.difference" }
"""
LEVEL = "relative-level (common practice, no source: the stand's tilt and the instrument's zero are in both readings)"
TO_PAD = (
    "pinion-to-pad (parallel layout of a two-joint shaft: plane geometry, arithmetic only; sign as in an axle "
    "maker's maintenance manual (MM-96147, 2021, p. 79, read in a copy))"
)
FACES = "“On the stand” and “On the face” in “Look at both faces”, typed by Ada, 1 Apr 08:02"
MOST = "“Most on the plate”, typed by Orla Quince, 1 Apr 08:01"
WHOSE = {
    "direct": "limit typed by Orla Quince from “Most on the plate”, 1 Apr 08:01",
    "through-one": f"limit worked out by {LEVEL} from {FACES}",
    "shown": f"limit worked out by {LEVEL} from {FACES}",
    "through-two": f"limit worked out by {TO_PAD}, with the result of {LEVEL}, from {FACES}, "
    "and from “Slope of the pad”, typed by Wim, 1 Apr 08:03",
    "partly-own": f"limit worked out by {TO_PAD} from {MOST}, and from figures set in this template",
    "own": OWN_LIMIT,
    "mixed": f"at least: {OWN_LIMIT}; at most: limit typed by Orla Quince from “Most on the plate”, 1 Apr 08:01",
    "sourced": "a maker's sheet, 2 deg, invented",
    "as-begun": OWN_LIMIT,
    "with-begun": f"limit worked out by {LEVEL} from {MOST}, and from figures set in this template",
}
"""Whose the limit of each reading is."""


def begun() -> Copy:
    data = write_header({"id": "job-1", "title": "Bay horse-box"}, tomli.loads(TEMPLATE))
    header = scan(data).header
    assert header is not None
    copy = Copy(Job.fold(about_from(tomli.loads(data.decode()), header.hash), ()))
    copy.begin(by="Nell")
    return copy


@pytest.fixture
def copy() -> Copy:
    """A copy in which every limit is known and every reading taken."""
    copy = begun()
    copy.call(None, given("most", "3"), by="Orla Quince")
    copy.call("look", read("stand", "1"), read("face", "3"), by="Ada")
    copy.call(None, given("pad", "0.5"))
    copy.call("bracket", *(read(name, "2") for name in WHOSE))
    return copy


@pytest.mark.parametrize("name", WHOSE)
def test_show_says_whose_limit_it_is(name: str, copy: Copy) -> None:
    """Typed by somebody itself, or from what somebody typed, whatever working-out stands between."""
    [line] = [one.strip() for one in job_text(copy.job).splitlines() if one.startswith(f"      {name}: ")]
    assert f" ({WHOSE[name]})." in line


@pytest.mark.parametrize("name", WHOSE)
def test_the_handover_says_whose_limit_it_is(name: str, copy: Copy) -> None:
    """In the same words as `show`, behind the instruments."""
    rows = section(unescaped(handed(copy.job)), "How and with what it was measured")
    assert f"- Limit of {name.replace('-', ' ')}: {WHOSE[name]}" in rows


def test_the_step_page_says_whose_limit_it_is(copy: Copy) -> None:
    """Under the table each limit that isn't the template's own, then that the others are."""
    rows = whose_lines(copy.job, copy.job.steps["bracket"], 78)
    text = " ".join(" ".join(row.plain for row in rows).split())
    theirs = {name: words for name, words in WHOSE.items() if words != OWN_LIMIT and name != "shown"}
    said = [f"Limit of “{name}”: {words}." for name, words in theirs.items()]
    said[1] = said[1].replace("Limit of “through-one”", "Limits of “through-one” and “shown”")
    assert text == " ".join([*said, f"Limits of the others: {OWN_LIMIT}."])


def test_what_was_left_as_begun_is_somebodys_once_they_type_it(copy: Copy) -> None:
    """A default is the template's own figure until somebody enters one, be it the same."""
    copy.call(None, given("usual", "4"), by="Ada")
    assert limit_source(copy.job, copy.job.steps["bracket"], "as-begun") == (
        "limit typed by Ada from “Allowance”, 1 Apr 08:05"
    )


def test_a_limit_that_isnt_known_yet_is_nobodys() -> None:
    """What is still to be typed isn't called a limit of the template."""
    job = begun().job
    planned = job.steps["bracket"]
    assert {name for name in WHOSE if limit_source(job, planned, name) == NOT_KNOWN} == {
        "direct", "through-one", "shown", "through-two", "partly-own", "with-begun",
    }  # fmt: skip
    assert limit_source(job, planned, "mixed") == f"at least: {OWN_LIMIT}; at most: {NOT_KNOWN}"
