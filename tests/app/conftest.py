"""A fixed place and time for the screens, and the app on the invented jobs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, Static

from jobtrack.app.main import JobApp
from jobtrack.app.parts.step import asking_twice
from jobtrack.store.machine import viewer
from tests.support.invented_jobs import at_rest
from tests.support.job_fixtures import Make, exchange_shipped, fixed_time, folder, make
from tests.support.vocabulary import promises

__all__ = ["exchange_shipped", "fixed_time", "folder", "make"]


@pytest.fixture(autouse=True)
def fixed_place(fixed_time: None, exchange_shipped: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Colours, motion, cursor, clock and the one template to begin from as in every other run."""
    for name in ("NO_COLOR", "TEXTUAL_THEME", "COLORTERM", "JOBTRACK_FOLDER"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr(Input, "cursor_blink", False)
    monkeypatch.setattr(
        viewer, "_program", lambda: None
    )  # nothing is opened on the screen of whoever runs the tests
    for part in ("parts.taking_keys", "parts.step.turning"):  # a test's keys come as fast as a held one
        monkeypatch.setattr(f"jobtrack.app.{part}.SAME_PRESS", 0.0)


@pytest.fixture(autouse=True)
def disk_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """After each key, and before anything is looked at, what is on its way to the disk has arrived.

    Keys come as fast as they can, and each is a press of its own.
    """
    press, pause = Pilot.press, Pilot.pause

    async def pressed(pilot: Pilot[int], *keys: str) -> None:
        for key in keys:
            await press(pilot, key)
            await at_rest(pilot, pause)

    async def paused(pilot: Pilot[int], delay: float | None = None) -> None:
        await pause(pilot, delay)
        await at_rest(pilot, pause)

    monkeypatch.setattr(asking_twice, "SAME_PRESS", 0.0)
    monkeypatch.setattr(Pilot, "press", pressed)
    monkeypatch.setattr(Pilot, "pause", paused)


@pytest.fixture(autouse=True)
def honest_words(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Whatever a test makes the app show holds no promise outside the sentences that take it back."""
    update, shown = Static.update, set[str]()

    def updated(static: Static, content: object = "", *, layout: bool = True) -> None:
        shown.add(str(content))
        update(static, content, layout=layout)  # type: ignore[arg-type]

    monkeypatch.setattr(Static, "update", updated)
    yield
    assert {text: found for text in shown if (found := promises(text))} == {}


@pytest.fixture
def on_job(make: Make, folder: Path) -> Callable[[str], JobApp]:
    """The app straight in one of the invented jobs, with somebody there."""
    return lambda name: JobApp(folder, "Hob Tansley", make(name))


@pytest.fixture
def on_folder(folder: Path) -> Callable[[], JobApp]:
    """The app on the folder."""
    return lambda: JobApp(folder, "Hob Tansley")
