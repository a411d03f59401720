"""The first walk: by the real keys, in a copy that is nobody's, of which nothing is left."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.pilot import Pilot
from textual.widgets import Static

from jobtrack.app.main import JobApp
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.walk import WalkScreen
from jobtrack.app.walk import Walk
from jobtrack.cli import app as command
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.pages.walk import stages, strip_words
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import practice
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.store.machine.practice import SAMPLE, Practice
from jobtrack.store.machine.settings import Settings
from tests.support.invented_jobs import fill, on_top, seen

OnFolder = Callable[[], JobApp]
IN_KEYS = (
    ("1 of 6: Type 23.6, then press Enter.", [*"23.6", "enter"]),
    ("2 of 6: y answers the check", ["y"]),
    ("3 of 6: u takes your last entry back.", ["u"]),
    ("4 of 6: j shows the job.", ["j", "escape"]),
    ("5 of 6: o shows the outline.", ["o", "escape"]),
    ("6 of 6: ? shows every key.", ["question_mark", "escape"]),
)
"""What the row above the keys says, and the keys that do it."""


def strip(pilot: Pilot[int]) -> str:
    """The row above the keys."""
    shown = pilot.app.screen.query_one("#apart", Static)
    return str(shown.render()) if shown.display else ""


async def begin_walk(pilot: Pilot[int]) -> None:
    """From the jobs into the walk."""
    await pilot.press("w")
    await pilot.pause()
    assert isinstance(pilot.app.screen, WalkScreen)
    await pilot.press("enter")
    await pilot.pause()
    assert isinstance(pilot.app.screen, StepScreen)


@pytest.fixture
def half_done(folder: Path) -> Path:
    """The sample as somebody has it among their own jobs."""
    path = folder / SAMPLE
    path.write_bytes((shipped("sample_jobs") / SAMPLE).read_bytes())
    return path


async def test_the_walk_from_end_to_end(half_done: Path, own_state: Path, on_folder: OnFolder) -> None:
    """Each thing done brings the next; Escape at the end goes to the jobs, and only what was there before is there."""
    before = half_done.read_bytes()
    app = on_folder()
    async with app.run_test(size=(80, 24)) as pilot:
        await begin_walk(pilot)
        walk = app.apart
        assert isinstance(walk, Walk)
        for said, keys in IN_KEYS:
            assert f"Walk {said}" in strip(pilot)
            await pilot.press(*keys)
            await pilot.pause()
        assert strip(pilot).startswith("The walk is done. Escape goes back to your jobs")
        kinds = [type(act) for entry in walk.job.view.entries for act in entry.did][-3:]
        assert kinds == [ReadingAct, TickAct, UndoesAct]
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)
        assert "The walk is over, its copy thrown away; w begins it again." in " ".join(seen(app).split())
        assert strip(pilot) == ""
    assert half_done.read_bytes() == before
    assert [path.name for path in half_done.parent.iterdir() if path.suffix == ".toml"] == [SAMPLE]
    assert not walk.file.path.parent.exists()
    assert not list(own_state.rglob(f"{walk.file.header.hash}*"))
    again = JobFile(half_done)
    assert not again.gone
    assert not again.job.damage


async def test_the_page_before_it_says_what_there_is_to_press(on_folder: OnFolder) -> None:
    """All six stand there at 80 by 24 without scrolling; Escape goes to the jobs."""
    app = on_folder()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("w")
        await pilot.pause()
        text = " ".join(seen(app).split())
        for stage in stages():
            assert f"{stage.do} {stage.why}" in text
        assert app.screen.query_one("Page").max_scroll_y == 0
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)


async def test_escape_cancels_first_and_then_ends_it(on_folder: OnFolder) -> None:
    """In a field it cancels what is typed, and the row doesn't say otherwise; at the step it ends the walk at once."""
    app = on_folder()
    async with app.run_test(size=(80, 24)) as pilot:
        await begin_walk(pilot)
        assert "Escape ends the walk." in strip(pilot)
        await pilot.press("2")
        assert "Escape ends" not in strip(pilot)
        await pilot.press("escape")
        assert "Walk 1 of 6" in strip(pilot)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)
        assert app.apart is None


async def test_what_was_done_early_counts(on_folder: OnFolder) -> None:
    """Somebody who runs ahead isn't asked for the same again; on the page that is asked for, the row says so."""
    app = on_folder()
    async with app.run_test(size=(80, 24)) as pilot:
        await begin_walk(pilot)
        await pilot.press("down", "y", "u", "o", "escape", "up")
        assert "Walk 1 of 6" in strip(pilot)
        await pilot.press(*"23.6", "enter")
        assert "Walk 4 of 6" in strip(pilot)
        await pilot.press("j")
        assert strip(pilot) == "Walk 4 of 6: here it is. Escape goes back to the step."
        await pilot.press("escape")
        assert "Walk 6 of 6" in strip(pilot)


async def test_it_can_be_begun_again_and_quit_in_the_middle(own_state: Path, on_folder: OnFolder) -> None:
    """A second walk is another copy; ending the program in it leaves nothing of either."""
    app = on_folder()
    async with app.run_test(size=(80, 24)) as pilot:
        await begin_walk(pilot)
        assert isinstance(app.apart, Walk)
        first = app.apart.file.path
        await pilot.press("escape")
        await begin_walk(pilot)
        assert app.apart.file.path != first
        await pilot.press("q")
    assert not first.parent.exists()
    assert not [path for path in own_state.rglob("*") if path.suffix in (".json", ".lock")]


async def test_a_copy_that_cannot_be_made_is_said(
    on_folder: OnFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without the sample the page says why in one line, and what to press."""
    monkeypatch.setattr(practice, "SAMPLE", "none.job.toml")
    app = on_folder()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("w", "enter")
        await pilot.pause()
        assert "no copy of none.job.toml can be made" in seen(app)
        assert "Escape goes to the jobs." in " ".join(seen(app).split())


def test_the_copy_is_another_job_without_its_last_step() -> None:
    """Its header isn't the sample's, its entries are, but for its last step and the handover."""
    samples = Practice()
    try:
        copy, sample = samples.begin(), JobFile(shipped("sample_jobs") / SAMPLE)
        assert copy.header.hash != sample.header.hash
        entries = sample.job.view.entries
        last = [one.step for one in entries if one.step is not None][-1]
        assert last is not None
        kept = [one.id for one in entries if one.step != last
                and not any(isinstance(act, HandoverAct) for act in one.did)]  # fmt: skip
        assert [one.id for one in copy.job.view.entries] == kept
        assert len(kept) < len(entries) - 1
        assert not copy.job.view.in_step(last)
        assert copy.job.state(last) == "next"
        assert not copy.job.damage
    finally:
        samples.throw_away()


def test_every_row_of_the_walk_is_one_row() -> None:
    """At 80 columns none is broken, on whichever page."""
    for at in range(len(stages()) + 1):
        assert all(
            cell_len(strip_words(at, there, busy)) <= 78 for there in (True, False) for busy in (True, False)
        )


@pytest.mark.parametrize("named", [True, False])
def test_only_the_first_start_begins_with_it(
    named: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The user's own folder, made just now, begins with the walk; a second start, or a folder by name, doesn't."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    started: list[bool] = []

    def run(folder: Path, by: str | None, settings: Settings, first: bool) -> int:
        started.append(first)
        return 0

    monkeypatch.setattr(command, "run", run)
    options = Namespace(folder=str(tmp_path / "jobs") if named else None, by=None)
    command.on_folder(options)
    command.on_folder(options)
    assert started == [not named, False]


async def test_first_start_shows_the_walk(folder: Path) -> None:
    """It stands there before the jobs, which are behind it."""
    app = JobApp(folder, first=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, WalkScreen)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)


async def test_who_is_there_is_asked_before_the_walk(folder: Path) -> None:
    """Where nobody is known the name comes first, so that nothing comes between two things of the walk."""
    app = JobApp(folder, first=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("enter")
        assert "Who is there?" in seen(app)
        await fill(pilot, "Hob")
        await pilot.pause()
        assert "Walk 1 of 6" in strip(pilot)
        assert app.session.by == "Hob"
