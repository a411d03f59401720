"""In which units values are said first: the template's, unless somebody has said otherwise."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.app.disk.open_job import first_look
from jobtrack.app.main import JobApp
from jobtrack.store.file.beginning import begin
from jobtrack.store.machine.settings import Settings
from tests.support.mistakes import SOUND

NONE_SET, METRIC_SET = Settings(), Settings(units="metric")


@pytest.mark.parametrize(
    ("unit", "settings", "keys", "first"),
    [
        ("in", NONE_SET, [], "US"),
        ("mm", NONE_SET, [], "metric"),
        ("in", METRIC_SET, [], "metric"),
        ("in", NONE_SET, ["comma"], "metric"),
        ("mm", NONE_SET, ["comma"], "US"),
    ],
)
async def test_a_job_is_said_in_the_units_of_its_template(
    folder: Path, unit: str, settings: Settings, keys: list[str], first: str
) -> None:
    """Where neither the settings nor the key say otherwise; what the key said holds in the next job too."""
    template = folder / "bracket.toml"
    template.write_text(SOUND.read_text(encoding="utf-8").replace('"mm"', f'"{unit}"'), encoding="utf-8")
    job = begin(template, folder / "bracket.job.toml", "Hob Tansley", None, [])
    app = JobApp(folder, "Hob Tansley", job, settings)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press(*keys)
        app.opening.job(job, first_look(job))
        await pilot.pause()
        assert app.session.units == first
