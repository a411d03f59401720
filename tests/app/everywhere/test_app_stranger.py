"""A stranger's job with hostile text in every text of its template: no screen carries any of it raw."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from jobtrack.app.main import JobApp
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.compose import conditions
from jobtrack.store.file.writer import JobFile, create
from jobtrack.template.load import load
from tests.app.everywhere.test_app_everywhere import every_screen
from tests.support.exchange import EXCHANGE
from tests.support.invented_jobs import Builder, seen
from tests.support.spiteful import RAW, SPITE, spiteful


@pytest.fixture
def hostile(folder: Path) -> JobFile:
    """A template with hostile text behind every text, begun and noted in by somebody of such a name."""
    job = Builder(folder / "spite.job.toml", "x")
    _, data = load(EXCHANGE)
    job.file.path.unlink()
    job.file = create(job.file.path, "invented", f"T {SPITE}", spiteful(data))
    job.by = f"W {SPITE}"
    job.begin(recipient__name=SPITE, donor__name=SPITE)
    job.call(
        "decide",
        lambda d: d.add(NoteAct(SPITE)),
        lambda d: d.add(MarkAct(SPITE)),
        lambda d: conditions.opens(d, SPITE),
    )
    return job.file


async def test_no_screen_carries_it_raw(hostile: JobFile) -> None:
    """Stand-ins in the place of every control and hidden sign, brackets as they are."""
    app = JobApp(hostile.path.parent, "Hob Tansley", hostile)
    shown = 0
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        async for _ in every_screen(app, pilot):
            text = seen(app)
            assert not RAW.search(text)
            shown += bool(re.search(r"\[b\]x\[/b\]", text))
    assert shown >= 3
