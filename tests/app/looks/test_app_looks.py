"""One step in each look, as people see it, on a small, a middling and a large terminal."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from jobtrack.app.main import JobApp
from jobtrack.store.machine.settings import LOOKS, Settings
from tests.support.invented_jobs import half_done

SIZES = {"small": (80, 24), "middling": (120, 40), "large": (200, 60)}


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("look", LOOKS)
def test_step(folder: Path, snap_compare: Callable[..., bool], look: str, size: str) -> None:
    """The hazards whole, what to do, the ruled table, a number being typed."""
    settings = Settings(looks=look)  # type: ignore[arg-type]
    app = JobApp(folder, "Hob Tansley", half_done(folder / "half.job.toml"), settings)
    assert snap_compare(app, press=["z", "down", "2", "3"], terminal_size=SIZES[size])


PAGES = {"far": ["down", "v", "2", "3"], "index": ["e"], "parts": ["p"], "outline": ["o"], "job": ["j"]}
"""By its name, the keys that lead to a page from the step of the half-done job."""


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("look", LOOKS)
def test_page(folder: Path, snap_compare: Callable[..., bool], look: str, page: str) -> None:
    """The far view, and the pages behind one key, on a small terminal."""
    settings = Settings(looks=look)  # type: ignore[arg-type]
    app = JobApp(folder, "Hob Tansley", half_done(folder / "half.job.toml"), settings)
    assert snap_compare(app, press=PAGES[page], terminal_size=SIZES["small"])


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("size", ["middling", "large"])
def test_page_with_more_room(folder: Path, snap_compare: Callable[..., bool], size: str, page: str) -> None:
    """The same with more room, in the look that most will have."""
    app = JobApp(folder, "Hob Tansley", half_done(folder / "half.job.toml"))
    assert snap_compare(app, press=PAGES[page], terminal_size=SIZES[size])
