"""Bolts that a given counts, at the keyboard: none is clicked before the number is there, then they are asked."""

from __future__ import annotations

from pathlib import Path

from jobtrack.app.main import JobApp
from jobtrack.job.doing.tightening import tightening
from jobtrack.store.file.writer import JobFile, create
from tests.job.doing.studs import ASKED, NUTS, template
from tests.support.invented_jobs import seen, type_in


async def test_no_click_before_the_number_is_known(folder: Path) -> None:
    """The key is refused, a bolt that is named is taken; once the number is typed the others are asked."""
    folder.mkdir(exist_ok=True)
    path = folder / "studs.job.toml"
    create(path, "studs", "Studs", template())
    app = JobApp(folder, "Hob Tansley", JobFile(path))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("down")
        await pilot.pause()
        assert ASKED in " ".join(seen(app).split())
        await pilot.press("y")
        await pilot.pause()
        assert "name the bolt too: 1 final" in " ".join(seen(app).split())
        await pilot.press("w")
        await type_in(pilot, "3 stage 1")
        await pilot.press("up")
        await type_in(pilot, "5")
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert "B O L T 1 O F 5" in text
    job = JobFile(path).job
    found = tightening(job, job.steps[NUTS], "nuts")
    assert [(bolt.name, bolt.reached) for bolt in found.bolts if bolt.done] == [("3", 1)]
