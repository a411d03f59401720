"""The jobs of a folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from jobtrack.app.main import JobApp
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.compose import ending
from jobtrack.job.compose.draft import Draft
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import on_top, seen


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
        assert "Open: KEEP THE MARKS (right), AXLE DRY, WHEELS NOT HELD" in text
        assert "No open condition is recorded. That does not say that the vehicle is safe: look." in text
        assert "Begin: Axle exchange (26 steps in the template)" in text


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
        await pilot.press("o", "b")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)


async def test_b_goes_to_the_jobs_from_a_job_opened_alone(on_job: Callable[[str], JobApp]) -> None:
    """An app begun in one job also finds the jobs of its folder."""
    async with on_job("half-done").run_test() as pilot:
        await pilot.press("o", "b")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)
