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
