"""Fixtures of those who look at the invented jobs: a folder, a job copied into it, and the time of day there."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from jobtrack.job.time import absence
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now, template_folders
from tests.support.exchange import EXCHANGE
from tests.support.invented_jobs import JOBS, NOW

Make = Callable[[str], JobFile]


@pytest.fixture
def fixed_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """The clock as in every other run."""
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setattr(now, "local_now", lambda: NOW)
    # The clocks of the invented jobs run for days; what is asked then has tests of its own.
    monkeypatch.setattr(absence, "QUIET", timedelta(days=365))


@pytest.fixture
def exchange_shipped(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first version of the axle exchange is the only template that travels with the program."""
    monkeypatch.setattr(template_folders, "shipped", lambda what: EXCHANGE.parent)


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
