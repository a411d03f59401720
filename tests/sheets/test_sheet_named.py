"""What stands against a step is said with titles on the sheets; scripts keep the ids."""

from __future__ import annotations

import pytest

from jobtrack.job.remarks.problems import job_problems, step_problems
from jobtrack.job.state.job import Job
from jobtrack.pages.job.outline import job_lines
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.handover.page import handover_markdown
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.words.named import steps_named
from tests.support.builders import DONOR, Copy, finish, given, marked, read, surveyed, tick


def sheets(job: Job) -> tuple[str, str]:
    """`show`, and the handover without the backslashes of Markdown."""
    return job_text(job), handover_markdown(job, "Wim", "Bo").replace("\\", "")


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
    planned = job.steps["mark.left"]
    assert (
        steps_named(job, "look again: pin-spacing.donor.spacing was 1012 mm and is now 1020 mm", planned)
        == "look again: “spacing, Spacing of the bracket pins (donor)” was 1012 mm and is now 1020 mm"
    )
    assert (
        steps_named(job, "look again: the limits of moved can't be worked out any more", planned)
        == "look again: the limits of moved can't be worked out any more"
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("closed, but nuts is in hand", "closed, but Nuts on is in hand"),
        ("recorded beside the closing: mark.right, by Ada",
         "recorded beside the closing: Mark the new place (right), by Ada"),
        ("recorded beside the closing: job, by Ada", "recorded beside the closing: job, by Ada"),
        ("step-height: a disagreement; it counts as not known",
         "“Height of the step above the ground”: a disagreement; it counts as not known"),
        ("donor.plate: a disagreement; it counts as not known",
         "“Load on the step's plate (donor)”: a disagreement; it counts as not known"),
        ("done before this was finished: mark.left, nuts",
         "done before this was finished: “Mark the new place (left)” and “Nuts on”"),
        ("2 h typed afterwards by Wim for 2031-04-02 are counted in nuts, where they were typed",
         "2 h typed afterwards by Wim for 2031-04-02 are counted in Nuts on, where they were typed"),
        ("2 h typed afterwards by Wim for 2031-04-02 are spread equally over 2 steps: nuts, clips; "
         "a clock was on that day as well, and both are counted",
         "2 h typed afterwards by Wim for 2031-04-02 are spread equally over 2 steps: “Nuts on” and “Clips on”; "
         "a clock was on that day as well, and both are counted"),
        ("gap: no reading", "gap: no reading"),
        ("hold not released: Cut release: side and figure read back aloud?",
         "hold not released: Cut release: side and figure read back aloud?"),
    ],
)  # fmt: skip
def test_ids_become_names(text: str, said: str) -> None:
    """Each sentence of the record that holds an id, and some that hold none."""
    assert steps_named(surveyed().job, text) == said


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
        assert "Scribed line past the old and the new place? not answered\n" in sheet
        assert "?:" not in sheet
