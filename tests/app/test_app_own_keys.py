"""Keys as somebody has set them: pressed, named on every page, and read back from the file."""

from __future__ import annotations

from pathlib import Path

from jobtrack.app.main import JobApp
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.said import NoteAct
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.settings import Settings
from tests.support.invented_jobs import half_done

SWAPPED = {"note": "m", "mark-place": "t", "answer-yes": "n", "answer-no": "y"}


def app_with(folder: Path, keys: dict[str, str]) -> JobApp:
    return JobApp(folder, "Hob Tansley", half_done(folder / "half.job.toml"), Settings(keys=keys))


def last(path: Path) -> Act:
    return JobFile(path).job.view.entries[-1].did[-1]


async def test_two_keys_have_changed_places(folder: Path) -> None:
    """m writes a note and t a mark; the file says so."""
    app = app_with(folder, SWAPPED)
    assert app.file is not None
    async with app.run_test() as pilot:
        await pilot.press("m", *"rust", "enter")
        noted = last(app.file.path)
        await pilot.press("t", *"here", "enter")
    assert isinstance(noted, NoteAct)
    assert noted.note == "rust"
    assert last(app.file.path).as_dict()["mark"] == "here"
