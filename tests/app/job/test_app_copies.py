"""Copies of a job on the screen: an older one put back by mistake, and the newer one that mends it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from jobtrack.app.main import JobApp
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.cli.main import main
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose.draft import Draft
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now
from tests.support.invented_jobs import fill, seen

GONE = (
    "Entries are gone that this machine has seen, the last of 2031-05-14 09:41 by Ada Prosser, in this file. "
    "If an older copy was put back, join it with the newer one: jobtrack merge."
)


def note(file: JobFile, text: str) -> None:
    """One more entry, by somebody else."""
    draft = Draft(file.job, "Ada Prosser", now.local_now(), None)
    draft.add(NoteAct(text))
    file.append(draft.done(), draft.by, draft.at, id=draft.id)


@pytest.fixture
def put_back(make: Callable[[str], JobFile]) -> tuple[Path, Path]:
    """A job of which an older copy was put back, and the newer one under another name."""
    file = make("half-done")
    older = file.path.read_bytes()
    note(file, "the last but one")
    note(file, "the last")
    newer = file.path.with_name("newer.copy")
    newer.write_bytes(file.path.read_bytes())
    file.path.write_bytes(older)
    return file.path, newer


def head(app: JobApp) -> str:
    """The rows on top as one line."""
    return " ".join(str(app.screen.query_one("#head", Static).render()).split())


async def looked(app: JobApp, pilot: Pilot[int]) -> None:
    """The app has looked at its file once more."""
    assert isinstance(app.screen, PageScreen)
    assert isinstance(app.screen.desk, JobDesk)
    app.screen.desk.follow()
    await pilot.pause()


async def test_an_older_copy_is_said_on_top(put_back: tuple[Path, Path], folder: Path) -> None:
    """On 80 by 24 one row says it, and which key shows all of it; what is open and the keys are still there."""
    path, _ = put_back
    app = JobApp(folder, "Hob Tansley", JobFile(path))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        rows = seen(app).splitlines()
        assert rows[0].startswith(" Entries are gone that this machine has seen")
        assert rows[0].endswith("j shows it")
        assert "open: UNKNOWN: ENTRY MISSING, KEEP THE MARKS (right)" in rows[1]
        assert rows[-1].startswith(" f finish")
        await pilot.press("j")
        await pilot.pause()
        assert GONE in " ".join(seen(app).split())


async def test_it_is_noticed_while_the_job_is_open(put_back: tuple[Path, Path], folder: Path) -> None:
    """The file is replaced by an older copy under the app's hands: at its next look the warning stands there."""
    path, newer = put_back
    older = path.read_bytes()
    path.write_bytes(newer.read_bytes())
    app = JobApp(folder, "Hob Tansley", JobFile(path))
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        assert "Entries are gone" not in seen(app)
        path.write_bytes(older)
        await looked(app, pilot)
        assert head(app).startswith(GONE)


async def test_merging_with_the_newer_copy_clears_it(put_back: tuple[Path, Path], folder: Path) -> None:
    """Work goes on in the older copy, the newer one is merged in place: the warning goes, every entry stays."""
    path, newer = put_back
    app = JobApp(folder, "Hob Tansley", JobFile(path))
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("t")
        await fill(pilot, "went on")
        assert head(app).startswith(GONE)
        assert main(["merge", str(path), str(newer), "--in-place"]) == 0
        await looked(app, pilot)
        assert "Entries are gone" not in seen(app)
        assert head(app).startswith("Open: KEEP THE MARKS")
    texts = {
        done.act.note for done in JobFile(path).job.view.of_kind(NoteAct) if isinstance(done.act, NoteAct)
    }
    assert {"the last but one", "the last", "went on"} <= texts


async def test_the_list_of_jobs_says_it(put_back: tuple[Path, Path], folder: Path) -> None:
    """Before the job is opened, too."""
    app = JobApp(folder, "Hob Tansley")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert GONE in " ".join(seen(app).split())


async def test_a_broken_memory_is_no_trouble(
    put_back: tuple[Path, Path], folder: Path, own_state: Path
) -> None:
    """What this machine remembers was spoilt: the job opens as ever."""
    [memory] = (own_state / "jobtrack" / "seen").glob("*.json")
    memory.write_bytes(b"\x00")
    app = JobApp(folder, "Hob Tansley", JobFile(put_back[0]))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert head(app).startswith("9 open: KEEP THE MARKS")
