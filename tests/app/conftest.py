"""A fixed place and time for the screens, and the app on the invented jobs."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.widgets import Input

from jobtrack.app.main import JobApp
from tests.support.job_fixtures import Make, fixed_time, folder, make

__all__ = ["fixed_time", "folder", "make"]


@pytest.fixture(autouse=True)
def fixed_place(fixed_time: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Colours, motion, cursor and clock as in every other run."""
    for name in ("NO_COLOR", "TEXTUAL_THEME", "COLORTERM", "JOBTRACK_FOLDER"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr(Input, "cursor_blink", False)


@pytest.fixture
def on_job(make: Make, folder: Path) -> Callable[[str], JobApp]:
    """The app straight in one of the invented jobs, with somebody there."""
    return lambda name: JobApp(folder, "Hob Tansley", make(name))


@pytest.fixture
def on_folder(folder: Path) -> Callable[[], JobApp]:
    """The app on the folder."""
    return lambda: JobApp(folder, "Hob Tansley")
