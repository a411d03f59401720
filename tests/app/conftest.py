"""A fixed place and time for the screens, and the invented jobs as fixtures."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from invented_jobs import JOBS, NOW
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.job.time import absence
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now

Make = Callable[[str], JobFile]


@pytest.fixture(autouse=True)
def fixed_place(monkeypatch: pytest.MonkeyPatch) -> None:
    """Colours, motion, cursor and clock as in every other run."""
    for name in ("NO_COLOR", "TEXTUAL_THEME", "COLORTERM", "JOBTRACK_FOLDER"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setattr(Input, "cursor_blink", False)
    monkeypatch.setattr(now, "local_now", lambda: NOW)
    # The clocks of the invented jobs run for days; what is asked then has tests of its own.
    monkeypatch.setattr(absence, "QUIET", timedelta(days=365))


@cache
def built(name: str) -> bytes:
    """An invented job's file, built once: its entries' ids are random and stand on no screen."""
    with TemporaryDirectory() as place:
        return JOBS[name](Path(place) / "built.job.toml").path.read_bytes()


def copied(name: str, folder: Path) -> JobFile:
    """A copy of an invented job in a folder."""
    path = folder / f"{name}.job.toml"
    path.write_bytes(built(name))
    return JobFile(path)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """An empty folder of jobs."""
    found = tmp_path / "jobs"
    found.mkdir()
    return found


@pytest.fixture
def make(folder: Path) -> Make:
    """Builds one of the invented jobs in the folder."""
    return lambda name: copied(name, folder)


@pytest.fixture
def on_job(make: Make, folder: Path) -> Callable[[str], JobApp]:
    """The app straight in one of the invented jobs, with somebody there."""
    return lambda name: JobApp(folder, "Hob Tansley", make(name))


@pytest.fixture
def on_folder(folder: Path) -> Callable[[], JobApp]:
    """The app on the folder."""
    return lambda: JobApp(folder, "Hob Tansley")
