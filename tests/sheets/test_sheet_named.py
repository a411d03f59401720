"""What stands against a step is said with titles on the sheets; scripts keep the ids."""

from __future__ import annotations

import re

import pytest

from jobtrack.job.remarks.of_job import BesideClosing, GivenApart, LeftInClosed, OfJob
from jobtrack.job.remarks.of_step import NOT_RELEASED, Hold, LookAgain, NoReading, OfStep
from jobtrack.job.remarks.of_time import TypedAmount
from jobtrack.job.state.job import Job
from jobtrack.job.state.look_again import NoLimits, NoValue, NowDiffers
from jobtrack.job.state.order import TooEarly
from jobtrack.job.time.typed_hours import Amount
from jobtrack.pages.job.outline import job_lines
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.words.hours import time_words
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import with_names
from tests.support.builders import DONOR, Copy, finish, given, marked, read, surveyed, tick
from tests.support.handed import handed
from tests.support.said import job_problems, step_problems


def sheets(job: Job) -> tuple[str, str]:
    """`show`, and the handover without the backslashes of Markdown."""
    return job_text(job), handed(job, "Wim", "Bo").replace("\\", "")


def test_what_came_too_early_is_named_by_title_and_side() -> None:
    """In `show` and in the handover; in JSON by id."""
    copy = surveyed()
    copy.call("tack.left", read("other", "1.2"))
    for sheet in sheets(copy.job):
        assert "done before this was finished: Mark the new place (left)\n" in sheet
        assert "done before this was finished: mark.left" not in sheet
    [left] = [step for step in job_json(copy.job)["steps"] if step["id"] == "tack.left"]
    assert "done before this was finished: mark.left" in left["problems"]


def test_a_hold_that_was_not_released_is_named_by_its_step() -> None:
    """The step whose hold it is, not its id."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23.4"), tick("scribed"), finish)
    copy.call("tack.left", read("other", "1.2"))
    for sheet in sheets(copy.job):
        assert "done before the hold was released after: Mark the new place (left)\n" in sheet


def test_what_is_to_be_looked_at_again_names_the_value() -> None:
    """A reading of the step itself by its own name, one of another step with its title and vehicle."""
    copy = marked()
    copy.call(DONOR, read("spacing", "1020"))
    job = copy.job
    again = [text for step in job.steps for text in step_problems(job, step) if "look again: " in text]
    assert any("look again: pin-spacing.donor.spacing was" in text or "moved" in text for text in again)
    for sheet in sheets(job):
        assert "look again: pin-spacing" not in sheet
    ref = job.plan.resolve("pin-spacing.donor.spacing")
    assert ref is not None
    differs = LookAgain("mark.left", NowDiffers(ref, 1012.0, 1020.0, "mm"))
    assert with_names(job, [differs]) == [
        "look again: “spacing, Spacing of the bracket pins (donor)” was 1012 mm and is now 1020 mm"
    ]
    assert with_names(job, [LookAgain(DONOR, differs.why)]) == [
        "look again: spacing was 1012 mm and is now 1020 mm"
    ]
    no_limits = LookAgain("mark.left", NoLimits("moved"))
    assert with_names(job, [no_limits]) == ["look again: the limits of moved can't be worked out any more"]


def test_a_reading_called_like_its_step_keeps_its_own_name() -> None:
    """The reading `height` of the step `height` is the reading, not the step."""
    found = with_names(surveyed().job, [LookAgain("height", NoValue("height"))])
    assert found == ["look again: height has no value that counts any more"]


@pytest.mark.parametrize(
    ("problem", "said"),
    [
        (LeftInClosed("nuts", "in hand"), "closed, but Nuts on is in hand"),
        (BesideClosing("mark.right", "Ada"), "recorded beside the closing: Mark the new place (right), by Ada"),
        (BesideClosing(None, "Ada"), "recorded beside the closing: job, by Ada"),
        (GivenApart("step-height"),
         "“Height of the step above the ground”: a disagreement; it counts as not known"),
        (GivenApart("donor.plate"),
         "“Load on the step's plate (donor)”: a disagreement; it counts as not known"),
        (TooEarly("tack.left", "step", ("mark.left", "nuts")),
         "done before this was finished: “Mark the new place (left)” and “Nuts on”"),
        (TooEarly("tack.left", "step", ("mark.left", "gone")), "done before this was finished: mark.left, gone"),
        (NoReading("height", "gap"), "gap: no reading"),
        (Hold("mark.left", "Cut release: side and figure read back aloud?", NOT_RELEASED),
         "hold not released: Cut release: side and figure read back aloud?"),
    ],
)  # fmt: skip
def test_problems_are_said_with_names(problem: OfStep | OfJob, said: str) -> None:
    """Each sentence that holds an id, and some that hold none; a step that is gone leaves all in their row by id."""
    assert with_names(surveyed().job, [problem]) == [said]


@pytest.mark.parametrize(
    ("amount", "clock_on", "said"),
    [
        (Amount("", "Wim", "Wim", 2, "2031-04-02", "nuts"), False,
         "2 h typed afterwards by Wim for 2031-04-02 are counted in Nuts on, where they were typed"),
        (Amount("", "Wim", "Wim", 2, "2031-04-02", None, ("nuts", "clips")), True,
         "2 h typed afterwards by Wim for 2031-04-02 are spread equally over 2 steps: “Nuts on” and “Clips on”; "
         "a clock was on that day as well, and both are counted"),
    ],
)  # fmt: skip
def test_hours_typed_afterwards_are_said_with_names(amount: Amount, clock_on: bool, said: str) -> None:
    """The steps over which they are spread, by their titles."""
    assert time_words(TypedAmount(amount, clock_on), Names(surveyed().job)) == said


def test_a_given_in_disagreement_is_named_on_every_sheet() -> None:
    """As it was asked; in JSON by its id."""
    copy = Copy()
    copy.begin()
    other = copy.split("b")
    copy.call(None, given("step-height", "400"))
    other.call(None, given("step-height", "410"), by="Ada")
    job = copy.take(other).job
    wanted = "“Height of the step above the ground”: a disagreement; it counts as not known"
    assert all(wanted in sheet for sheet in sheets(job))
    assert f"- {wanted}" in job_lines(job)
    assert job_problems(job) == ["step-height: a disagreement; it counts as not known"]


def test_a_question_has_one_mark_behind_it() -> None:
    """A check that asks ends in its own mark; no colon comes behind it."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23.4"), finish)
    for sheet in sheets(copy.job):
        assert re.search(r"Scribed line past the old and the new place\? not answered[;\n]", sheet)
        assert "?:" not in sheet
