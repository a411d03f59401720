"""The screens say things as a person in the shop says them."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from rich.cells import cell_len

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.pages.typeset import spaced_rows
from tests.support.invented_jobs import seen, type_in

OnJobs = Callable[[str], JobApp]

NOT_SAID = re.compile(
    r"\bdrops? it\b|\bDropped\b|shall stand|one thing that is wanted|\bit wants\b|holds these letters|\bany to\b"
    r"|stands against this|Wanted here"
)
"""Turns of phrase that nobody uses beside a vehicle; dropping is what a jack does."""

WAYS = {
    "step": [], "typing": ["2"], "cancelled": ["2", "escape"], "note": ["t"], "mark": ["m"],
    "unsafe": ["exclamation_mark"],
    "finish": ["f"], "release": ["r"], "outline": ["o"], "end": ["o", "e"], "stop": ["o", "e", "s"], "hand over": ["h"],
    "to whom": ["h", "h"], "job": ["j"], "hazards": ["z"], "keys": ["question_mark"], "reckoner": ["x"],
    "nothing found": ["x", *"qqzz"], "close": ["c"],
}  # fmt: skip
"""Screens by the keys that lead to them."""


@pytest.mark.parametrize("way", WAYS)
async def test_nothing_is_dropped_or_wanted(way: str, on_job: OnJobs) -> None:
    """No screen drops what is typed, wants what it asks for, or hangs a side on a title with a comma."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 50)) as pilot:
        await pilot.press(*WAYS[way])
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert len(text.split()) > 20
        assert app.file is not None
        steps = app.file.job.steps.values()
        assert [one.id for one in steps if one.member and f"{one.step.title}, {one.member}" in text] == []
        assert NOT_SAID.findall(text) == []


@pytest.mark.parametrize(
    ("pressed", "said"),
    [
        ([*"2.", "escape"], "Cancelled: what was asked or typed there isn't recorded."),
        (["t"], "Enter records it, Escape cancels."),
        (["x", *"qqzz"], "No working-out has these letters in it; Backspace takes one off."),
        (["c"], "KEEP THE MARKS: Marks on the tube not finished: grind nothing, cut nothing (right)"),
        (["o"], "Mark the new place (right) - in hand"),
        (["o"], "Mark the new place (left) - finished"),
        ([], "Have at hand: steel rule; scriber; punch."),
        ([], "Finishing it closes: Marks on the tube not finished: grind nothing, cut nothing (right)."),
    ],
)
async def test_it_says(pressed: list[str], said: str, on_job: OnJobs) -> None:
    """What the keys do, what to have at hand and where one is stand in plain words."""
    app = on_job("half-done")
    async with app.run_test(size=(110, 60)) as pilot:
        await pilot.press(*pressed)
        await pilot.pause()
        assert said in " ".join(seen(app).split())


async def test_a_limit_on_one_side_is_said_as_one(on_job: OnJobs) -> None:
    """What is outside at most 0.5 mm says so, under what is wrong or missing, with steps by title and side."""
    app = on_job("half-done")
    async with app.run_test(size=(110, 60)) as pilot:
        assert isinstance(app.screen, StepScreen)
        app.screen.go("cut.right")
        await type_in(pilot, "0.7")
        await pilot.press("end")
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert "Wrong or missing in this step:" in text
        assert "0.7 mm is outside (at most 0.5 mm)" in text
        assert "done before this was finished: Mark the new place (right)" in text


async def test_beginning_a_job_asks_as_a_person_would(on_folder: Callable[[], JobApp]) -> None:
    """The first question asks what the job is called, and the page says that this is enough."""
    app = on_folder()
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert "What is this job called?" in text
        assert "A title is enough to begin." in text
        await pilot.press("tab")
        assert "Who begins it? Type your name as it should stand in the record." in seen(app)
        assert NOT_SAID.findall(seen(app)) == []


@pytest.mark.parametrize("width", [12, 20, 40])
def test_a_long_word_in_capitals_is_broken_not_cut(width: int) -> None:
    """The name of what is measured stands whole in spaced capitals, a word too long for a row on several."""
    rows = spaced_rows("left: Differentialsperre axle", width)
    assert all(cell_len(row) <= width for row in rows)
    assert "".join("".join(rows).split()) == "LEFT:DIFFERENTIALSPERREAXLE"
