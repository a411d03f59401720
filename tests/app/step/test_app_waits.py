"""A check that waits: said while it is asked, and a yes that came too soon said right away and on the page."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.store.file.writer import JobFile, create
from jobtrack.store.machine import now
from tests.job.doing.test_waits import run, template
from tests.support.builders import record
from tests.support.invented_jobs import seen

SMALL, LARGE = (80, 24), (100, 50)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[datetime]:
    """The shop's clock, in a list so that a test can turn it on."""
    hands = [datetime.fromisoformat("2031-04-01T08:00:00+01:00")]
    monkeypatch.setattr(now, "local_now", lambda: hands[0])
    return hands


@pytest.fixture
def watched(folder: Path, clock: list[datetime]) -> JobApp:
    """The app in a job of which the left side was welded at eight."""
    folder.mkdir(exist_ok=True)
    file = create(folder / "seam.job.toml", "seam-1", "Seam", template())
    record(file, "weld.left", run(), number=0)
    return JobApp(folder, "Hob Tansley", JobFile(file.path))


def words(app: JobApp) -> str:
    return " ".join(seen(app).split())


async def at(pilot: Pilot[int], app: JobApp, step: str) -> None:
    await pilot.pause()
    assert isinstance(app.screen, StepScreen)
    app.screen.go(step)
    await pilot.pause()


async def test_it_is_said_until_when(watched: JobApp, clock: list[datetime]) -> None:
    """On a small terminal in the row of keys, on a large one with what the template counts from."""
    clock[0] += timedelta(minutes=2)
    async with watched.run_test(size=SMALL) as pilot:
        await at(pilot, watched, "watch.left")
        assert "Not before 09:00, by the entries." in words(watched)
        await pilot.resize_terminal(*LARGE)
        await pilot.pause()
        assert "asks for 60 min after the last entry of Weld it on (left)" in words(watched)
        await pilot.press("v")
        await pilot.pause()
        assert "Not before 09:00, by the entries." in words(watched)


async def test_nothing_is_said_once_it_is_over(watched: JobApp, clock: list[datetime]) -> None:
    clock[0] += timedelta(minutes=60)
    async with watched.run_test(size=SMALL) as pilot:
        await at(pilot, watched, "watch.left")
        assert "Watched for an hour?" in words(watched)
        assert "Not before" not in words(watched)
        await pilot.press("y")
        assert "answered yes" not in words(watched).casefold()


async def test_before_the_weld_it_says_that_nothing_is_recorded(watched: JobApp) -> None:
    async with watched.run_test(size=LARGE) as pilot:
        await at(pilot, watched, "watch.right")
        assert "60 min after Weld it on (right), of which nothing is recorded yet." in words(watched)


async def test_a_yes_too_soon_is_recorded_and_said(watched: JobApp, clock: list[datetime]) -> None:
    """It stays on the screen until the next key, and stands against the step for good."""
    clock[0] += timedelta(minutes=2)
    async with watched.run_test(size=LARGE) as pilot:
        await at(pilot, watched, "watch.left")
        await pilot.press("y")
        said = "nswered yes 2 min after the last entry of Weld it on (left); the template asks for 60 min"
        assert words(watched).count(said) == 2, "right away, and against the step"
        clock[0] += timedelta(minutes=60)
        await pilot.press("y")
        await pilot.press("n")
        await pilot.press("y")
        assert said not in words(watched)
    assert watched.file is not None
    ticks = [entry for entry in JobFile(watched.file.path).job.view.entries if entry.step == "watch.left"]
    assert len(ticks) == 3
