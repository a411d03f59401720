"""The page of a template's next version: seen first, written beside the job by a second key."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from jobtrack.app.main import JobApp
from jobtrack.app.rehearsal import rehearsed
from jobtrack.app.screens.job.next_version import NextVersionScreen
from jobtrack.job.compose import ending, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.store.file.beside import write_template
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import NOW, on_top, seen


def recorded(file: JobFile, *fills: Callable[[Draft], None]) -> JobFile:
    """A job with a call more for each of these."""
    for fill in fills:
        draft = Draft(file.job, "Mara Quill", NOW)
        fill(draft)
        file.append(draft.done(), draft.by, draft.at, id=draft.id)
    return file


def sweep(made: Draft) -> None:
    """A step more."""
    steps.add_step(made, "sweep", "Sweep the floor", after=next(iter(made.job.steps)))


def stop(made: Draft) -> None:
    """The job's end."""
    ending.stop_job(made, "sold")


async def test_it_is_read_first_and_written_by_a_second_key(on_job: Callable[[str], JobApp]) -> None:
    """The words and both versions line by line; w twice writes a file that a job can be begun from."""
    app = on_job("half-done")
    assert app.file is not None
    path = recorded(app.file, sweep, stop).path
    before = path.read_bytes()
    async with app.run_test(size=(80, 60)) as pilot:
        await choose_row(pilot, "next_version")
        assert isinstance(on_top(app), NextVersionScreen)
        text = " ".join(seen(app).split())
        assert (
            "Axle exchange, version 3. 1 step added" in text
            or "Axle exchange, version 2. 1 step added" in text
        )
        assert "“Sweep the floor”" in text
        await pilot.press("w")
        assert not [*path.parent.glob("axle-exchange-*.toml")]
        await pilot.press("escape", "w")
        assert "Press w again to write it" in seen(app)
        await pilot.press("w")
        await pilot.pause()
        assert "Written:" in seen(app)
        assert "Press w again" not in seen(app)
    [written] = path.parent.glob("axle-exchange-*.toml")
    assert tomllib.loads(written.read_text(encoding="utf-8"))["step"]["sweep"]["title"] == "Sweep the floor"
    assert path.read_bytes() == before


async def test_a_job_that_goes_on_has_none(on_job: Callable[[str], JobApp]) -> None:
    """The page says why; so does the key, and nothing is written."""
    app = on_job("half-done")
    assert app.file is not None
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "next_version")
        assert "There is no next version: the job hasn't ended" in " ".join(seen(app).split())
        await pilot.press("w", "w")
        assert "There is no next version" in seen(app)
    assert [one.name for one in app.file.path.parent.iterdir() if one.suffix == ".toml"] == [
        "half-done.job.toml"
    ]


async def test_in_a_rehearsal_nothing_is_written(folder: Path) -> None:
    """There too it can be read, and the key says why nothing comes of it."""
    file, _, _ = rehearsed(shipped("job_templates") / "fuel-tank.toml")
    recorded(file, sweep, stop)
    app = JobApp(folder, None, file)
    async with app.run_test(size=(80, 40)) as pilot:
        await choose_row(pilot, "next_version")
        assert "1 step added" in seen(app)
        await pilot.press("w", "w")
        await pilot.pause()
        assert "Not written: this is a rehearsal" in " ".join(seen(app).split())
    assert [*folder.iterdir()] == []


def test_a_version_makes_a_file_name_and_overwrites_nothing(tmp_path: Path) -> None:
    """Signs become hyphens; where there is one already a number is put behind; a folder that is gone is said."""
    job = tmp_path / "van.job.toml"
    names = [
        write_template(job, "tow-hook", version, "x\n").name for version in ("2", "2", "Spring 7/8", "…")
    ]
    assert names == ["tow-hook-2.toml", "tow-hook-2-2.toml", "tow-hook-spring-7-8.toml", "tow-hook.toml"]
    with pytest.raises(JobFileError, match="can't be written"):
        write_template(tmp_path / "gone" / "van.job.toml", "tow-hook", "2", "x\n")
