"""A damaged sample job on the real screen: what can't be read stands on top, in the place of the tags lost with it."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.app.main import JobApp
from jobtrack.job.state.damage import UNKNOWN
from jobtrack.sheets.words.sentences import tags
from jobtrack.store.file.writer import JobFile
from tests.support.damaged_samples import case
from tests.support.invented_jobs import seen


@pytest.mark.parametrize("seed", [3018, 3020, 3026, 3034, 3053, 3062, 3090, 3097])
async def test_a_damaged_job_says_so_on_top(tmp_path: Path, seed: int) -> None:
    """Where tags of the sound job are gone something unknown is on the screen, whatever else is shortened there."""
    one = case(seed, tmp_path)
    one.path.write_bytes(one.data)
    file = JobFile(one.path)
    assert set(tags(one.before)) - set(tags(file.job))
    app = JobApp(tmp_path, "Hob Tansley", file)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert UNKNOWN in seen(app)
