"""A folder of its own for each test that calls the command line."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from tests.support.cli_calls import Shop
from tests.support.quick import pytest_addoption, pytest_collection_modifyitems, pytest_configure
from tests.support.vocabulary import promises

__all__ = ["pytest_addoption", "pytest_collection_modifyitems", "pytest_configure"]

# A program that a test starts imports the package that is tested, not what lies in the folder it is started in.
os.environ["PYTHONSAFEPATH"] = "1"

# A test that measures how fast a shared machine is would fail for no fault of ours.
settings.register_profile("shop", deadline=None)
settings.load_profile("shop")


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Two workers a core: half of the time a test of the app waits for a screen to come to rest."""
    return 2 * (os.cpu_count() or 1)


def pytest_collection_finish() -> None:
    """What was collected stays: looking through it for rubbish again and again took an eighth of the time."""
    gc.freeze()
    gc.set_threshold(10_000, 20, 50)


@pytest.fixture(autouse=True)
def own_state(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """What this machine has seen, what waits to be recorded, and the settings are each test's own."""
    state = tmp_path_factory.mktemp("state")
    monkeypatch.setenv("XDG_STATE_HOME", str(state))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(state / "config"))
    return state


@pytest.fixture(autouse=True)
def honest_words_printed(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Whatever a test makes a command print holds no promise outside the sentences that take it back."""
    read, printed = pytest.CaptureFixture.readouterr, list[str]()

    def readouterr(capture: pytest.CaptureFixture[str]) -> Any:
        found = read(capture)
        printed.extend(str(text).replace("\\", "") for text in found)
        return found

    monkeypatch.setattr(pytest.CaptureFixture, "readouterr", readouterr)
    yield
    assert {text: found for text in printed if (found := promises(text))} == {}


@pytest.fixture
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing of the person who runs the tests is read or written."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("JOBTRACK_FOLDER", str(tmp_path / "jobs"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("TZ", "UTC")


@pytest.fixture
def empty_shop(own_folders: None, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Shop:
    """A folder without a job."""
    return Shop(tmp_path, capsys)


@pytest.fixture
def shop(empty_shop: Shop) -> Shop:
    """A folder with a job that was just begun."""
    empty_shop.begin()
    return empty_shop
