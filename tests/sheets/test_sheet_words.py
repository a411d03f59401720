"""The job in words: `show` without a screen."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from jobtrack.cli.main import main
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.words.sentences import OWN_LIMIT
from jobtrack.sheets.words.values.whose import NOT_KNOWN, limit_source
from jobtrack.store.file.writer import JobFile
from tests.support.builders import Copy, given, read
from tests.support.exchange import FINISHED, HALF_DONE
from tests.support.handed import handed, unescaped


@pytest.fixture
def lines(tmp_path: Path) -> list[str]:
    """The words of the half-done sample."""
    return job_text(JobFile(HALF_DONE).job).splitlines()


def test_what_is_known_and_what_isnt(lines: list[str]) -> None:
    """Title, template, then the givens: with their unit, as a word, or *not known*."""
    assert lines[:2] == ["Mail van: axle from the breaker's yard", "Template: Axle exchange"]
    assert {"  clear-wanted: 190.5 mm", "  donor.axle-is: loose", "  drum-discard: not known"} <= set(lines)


def test_stages_are_sentences(lines: list[str]) -> None:
    """Which of how many, what it is about, how far it is."""
    stages = [line for line in lines if line.startswith("Stage ")]
    assert stages[0] == "Stage 1 of 8, decide: 1 of 1 step finished."
    assert stages[4] == "Stage 5 of 8, prepare the axle: the perches: 5 of 10 steps finished."
    assert len(stages) == 8


def test_readings_stand_with_whose_limit(lines: list[str]) -> None:
    """In the template's unit and as typed; within or outside, and whose limit it is."""
    stripped = [line.strip() for line in lines]
    assert "Pin to pin: 963.6 mm (37 15/16 in)." in stripped
    assert "Gearbox output: can't reach." in stripped
    [run_out] = [line for line in stripped if line.startswith("Run-out of the pilot: ")]
    assert run_out.startswith(
        "Run-out of the pilot: 0.1 mm (4 thou). Within the limits given: at most 0.13 mm ("
    )
    assert "service manuals on companion-flange run-out" in run_out


def test_one_person_for_work_and_hold_is_a_problem_in_words(lines: list[str]) -> None:
    """A hold released by the one who finished the step is written out below it."""
    at = next(number for number, line in enumerate(lines) if line.startswith("  decide: finished."))
    assert (
        lines[at + 1] == "      ! hold released by the one who finished the step: not seen by a second person"
    )


def test_an_ended_job_says_how(tmp_path: Path) -> None:
    """Closed or stopped stands beside the title, and a stopped one keeps what is open."""
    path = Path(shutil.copyfile(HALF_DONE, tmp_path / "a.job.toml"))
    assert main(["record", str(path), "--by", "Nell Orrick", "--stop-job=the depot has sold the van"]) == 0
    words = job_text(JobFile(path).job)
    assert words.startswith("Mail van: axle from the breaker's yard (stopped)\n")
    assert "Recorded as open:\n  " in words
    assert "\n  Vehicle on stands · since " in words
    finished = JobFile(FINISHED).job
    assert job_text(finished).startswith("Pell flat-bed gets the Haywain axle (closed)\n")


def test_a_limit_that_somebody_typed_is_theirs() -> None:
    """What was read off a drum or a plate is called by who typed it, from what, and when; never the template's."""
    copy = Copy()
    copy.begin(by="Ada")
    copy.call("height", read("height", "402"))
    planned = copy.job.steps["height"]
    assert limit_source(copy.job, planned, "height") == NOT_KNOWN
    copy.call(None, given("step-height", "400"), by="Orla Quince")
    words = job_text(copy.job)
    typed = "limit typed by Orla Quince from “Height of the step above the ground”, 1 Apr 08:02"
    assert f"height: 402 mm. Within the limits given: 400 ± 5 mm ({typed})." in words
    sheet = unescaped(handed(copy.job))
    assert "| height | 402 mm, steel rule | 400 ± 5 mm | within |" in sheet
    assert f"- Limit of height: {typed}\n" in sheet
    assert limit_source(copy.job, copy.job.steps["height"], "tilt") == OWN_LIMIT


def test_too_close_to_call_invites_no_yes() -> None:
    """Neither `show` nor the handover names a chance: it counts as outside, or is measured finer."""
    copy = Copy()
    copy.call("height", read("gap", "1.1"))
    for text in (job_text(copy.job), unescaped(handed(copy.job, "Wim", "Bo"))):
        assert "count it as outside, or measure with a finer instrument" in text
        assert "chance" not in text
