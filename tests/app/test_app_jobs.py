"""The jobs of a folder, and beginning one."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.job.step import StepScreen
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.job.compose import ending
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.wording import FIRST_WORD
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import fill, on_top, seen


async def test_jobs_stand_with_what_is_open(
    make: Callable[[str], JobFile], on_folder: Callable[[], JobApp]
) -> None:
    """Each job stands with where it is and what is recorded as open, an empty list with its honest words."""
    make("half-done")
    make("surveyed")
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        text = " ".join(seen(pilot.app).split())
        assert "21 of 35 steps finished, 1 not needed." in text
        assert "Open: ON STANDS, BATTERY OFF" in text
        assert "No open condition is recorded. That does not say that the vehicle is safe: look." in text
        assert "Begin: Axle exchange" in text


async def test_ended_jobs_come_last(make: Callable[[str], JobFile], on_folder: Callable[[], JobApp]) -> None:
    """A stopped job stands behind the half-finished, whatever its name."""
    stopped = make("half-done")
    draft = Draft(stopped.job, "Hob Tansley", stopped.job.view.entries[-1].at)
    ending.stop_job(draft, "crack at the old weld")
    stopped.append(draft.done(), draft.by, draft.at, id=draft.id)
    make("surveyed")
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        text = seen(pilot.app)
        assert text.index("9 of 35") < text.index("Stopped, not finished: 21 of 35")


async def test_unreadable_file_is_listed_with_its_reason(
    folder: Path, on_folder: Callable[[], JobApp]
) -> None:
    """A file that can't be opened stands in the list, and Enter on it says why in one line."""
    (folder / "spoilt.job.toml").write_text("not a job at all\n")
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        assert "Can't be opened:" in seen(pilot.app)
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)


async def test_enter_opens_and_b_goes_back(
    make: Callable[[str], JobFile], on_folder: Callable[[], JobApp]
) -> None:
    """Enter opens the marked job at the step in hand; b goes back to the jobs."""
    make("half-done")
    async with on_folder().run_test() as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
        assert pilot.app.screen.step == "mark.right"
        await pilot.press("b")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)


async def test_b_goes_to_the_jobs_from_a_job_opened_alone(on_job: Callable[[str], JobApp]) -> None:
    """An app begun in one job also finds the jobs of its folder."""
    async with on_job("half-done").run_test() as pilot:
        await pilot.press("b")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)


async def test_begin_wants_a_title_and_nothing_else(folder: Path, on_folder: Callable[[], JobApp]) -> None:
    """A job begins with a title, a name and Enter to everything else; the defaults are written down."""
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert FIRST_WORD in " ".join(seen(pilot.app).split())
        await fill(pilot, "  ")
        assert "Type a title" in seen(pilot.app)
        await fill(pilot, "Hay trailer / axle")
        await fill(pilot, "Mara Quill")
        while pilot.app.screen.query_one(EntryLine).asking is not None:
            await pilot.press("enter")
        assert not list(folder.glob("*.job.toml"))
        await pilot.press("b")
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
    job = JobFile(folder / "hay-trailer-axle.job.toml").job
    assert job.about.title == "Hay trailer / axle"
    assert job.view.entries[0].by == "Mara Quill"
    assert job.places.given("donor.axle-is").value == "under the donor"
    assert job.places.given("clear-wanted").value is None
    assert [one.id for one in job.open_conditions] == ["ask-first"]


async def test_begin_now_leaves_the_rest_for_later(folder: Path, on_folder: Callable[[], JobApp]) -> None:
    """Each question says how many there are; Tab begins with what is known, the rest not known yet."""
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert re.search(r"Question 1 of \d\d", seen(pilot.app))
        await pilot.press("tab")
        assert "Type this first" in seen(pilot.app)
        await fill(pilot, "Hay trailer")
        await fill(pilot, "Mara Quill")
        await fill(pilot, "Tarn hay trailer")
        assert "Question 4 of" in seen(pilot.app)
        await pilot.press("tab")
        assert "to be answered in the step that needs it" in " ".join(seen(pilot.app).split())
        assert "b begin the job   Escape one question back" in seen(pilot.app)
        assert "Enter go on" not in seen(pilot.app)
        await pilot.press("escape")
        assert "Question 4 of" in seen(pilot.app)
        await pilot.press("tab", "b")
        await pilot.pause()
    job = JobFile(folder / "hay-trailer.job.toml").job
    assert job.places.given("recipient.name").value == "Tarn hay trailer"
    assert job.places.given("donor.name").value is None


async def test_what_follows_is_not_asked_before_it_is_measured(on_folder: Callable[[], JobApp]) -> None:
    """A decision that stands on what the job measures is no question at its beginning."""
    async with on_folder().run_test(size=(100, 60)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        await fill(pilot, "Hay trailer")
        await fill(pilot, "Mara Quill")
        shown = ""
        while pilot.app.screen.query_one(EntryLine).asking is not None:
            shown += seen(pilot.app)
            await pilot.press("enter")
        assert "what follows" not in shown
        assert "will be asked after measuring" in seen(pilot.app)


async def test_given_is_refused_in_one_line_and_asked_again(on_folder: Callable[[], JobApp]) -> None:
    """A wrong unit keeps its text and its question; Escape goes one question back."""
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        await fill(pilot, "Hay trailer")
        await fill(pilot, "Mara Quill")
        await fill(pilot, "Tarn hay trailer")
        await fill(pilot, "Bexley flat-bed")
        assert "Rear axle load on its plate" in seen(pilot.app)
        await fill(pilot, "900 mm")
        assert pilot.app.screen.query_one(Input).value == "900 mm"
        assert "mm is a length" in seen(pilot.app)
        await pilot.press("escape")
        await pilot.pause()
        assert "Name of the donor" in seen(pilot.app)


async def test_an_answer_left_out_is_never_an_empty_default(on_folder: Callable[[], JobApp]) -> None:
    """The last page has no ", as the template has it" behind nothing; what is asked later says so."""
    async with on_folder().run_test(size=(100, 80)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        await fill(pilot, "Hay trailer")
        await fill(pilot, "Mara Quill")
        await pilot.press("tab")
        await pilot.pause()
        text = seen(pilot.app)
        assert ": , as the template has it" not in text
        assert "Name of the recipient: don't know yet" in " ".join(text.split())
        assert ": asked after measuring" in text


async def test_escape_keeps_what_was_typed(on_folder: Callable[[], JobApp]) -> None:
    """A name or an answer typed without Enter stands there again after one question back; Tab doesn't lose it."""
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        await fill(pilot, "Hay trailer")
        pilot.app.screen.query_one(Input).value = "Mara Quill"
        await pilot.press("escape")
        assert pilot.app.screen.query_one(Input).value == "Hay trailer"
        await pilot.press("enter")
        assert pilot.app.screen.query_one(Input).value == "Mara Quill"
        await pilot.press("enter")
        await fill(pilot, "Tarn hay trailer")
        pilot.app.screen.query_one(Input).value = "Bexley"
        await pilot.press("tab")
        assert "Enter takes what is typed here" in seen(pilot.app)
        await pilot.press("escape")
        assert pilot.app.screen.query_one(Input).value == "Tarn hay trailer"
        await pilot.press("enter")
        assert pilot.app.screen.query_one(Input).value == "Bexley"
