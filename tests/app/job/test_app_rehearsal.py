"""A rehearsal: the real pages and keys on an invented job, with the disk as it was before."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from jobtrack.app.main import JobApp
from jobtrack.app.rehearsal import REHEARSER, SAID, rehearsed
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.values import GivenAct
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.store.machine.settings import Settings
from tests.support.builders import template_text as bracket
from tests.support.exchange import EXCHANGE
from tests.support.invented_jobs import fill, on_top, seen, type_in
from tests.support.terminal import Bench

OnFolder = Callable[[], JobApp]
RUN = "import sys; from jobtrack.cli.main import main; sys.exit(main(['rehearse', sys.argv[1]]))"


def tree(*roots: Path) -> dict[str, tuple[int, bytes]]:
    """All that lies under some folders: each file's time and content, each folder's name."""
    found = [path for root in roots for path in (root, *root.rglob("*"))]
    return {str(one): (one.stat().st_mtime_ns, one.read_bytes() if one.is_file() else b"") for one in found}


def row(pilot: Pilot[int]) -> str:
    """The row above the keys."""
    shown = pilot.app.screen.query_one("#apart", Static)
    return str(shown.render()) if shown.display else ""


@pytest.fixture
def alone(folder: Path) -> JobApp:
    """The app as the command begins it."""
    file, _, remarks = rehearsed(EXCHANGE)
    return JobApp(folder, None, file, remarks=remarks)


async def test_a_step_is_rehearsed_and_the_disk_is_as_before(
    alone: JobApp, tmp_path: Path, own_state: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Reading, checks, hold, finish: all by the real keys and with nobody's name asked; not a byte is written."""
    home = tmp_path / "home"
    home.mkdir()
    for name in ("HOME", "TMPDIR", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(home))
    monkeypatch.chdir(home)
    before = tree(tmp_path, own_state)
    async with alone.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert isinstance(alone.screen, StepScreen)
        await type_in(pilot, "1350")
        assert "Rehearsed 09:41: Rear axle load" in seen(alone)
        for _ in range(3):
            await pilot.press("y", "enter")
        await pilot.press("f", "enter")
        await pilot.press("r")
        await fill(pilot, "Mara Quill")
        await pilot.press("r")
        assert alone.file is not None
        assert alone.file.job.state("decide") == "finished"
        assert {entry.by for entry in alone.file.job.view.entries} == {REHEARSER, "Mara Quill"}
        await pilot.press("u", "q")
    assert alone.return_code == 0
    assert tree(tmp_path, own_state) == before


async def test_every_page_says_that_it_is_a_rehearsal(alone: JobApp) -> None:
    """On each page that its keys lead to, and while something is typed; only at the step Escape ends it."""
    async with alone.run_test(size=(80, 24)) as pilot:
        assert row(pilot) == f"{SAID} Escape ends it."
        for key in ("t", "e", "j", "o", "p", "h", "s", "x", "d", "question_mark", "2"):
            await pilot.press(key)
            await pilot.pause()
            assert row(pilot) == SAID, key
            await pilot.press("escape")
            await pilot.pause()
        await pilot.press("v")
        assert row(pilot).startswith(SAID)
        await pilot.resize_terminal(40, 12)
        await pilot.pause()
        assert SAID in " ".join(row(pilot).split())


async def test_what_lies_beside_a_job_isn_t_written(alone: JobApp, tmp_path: Path) -> None:
    """A photo and the list to buy with are refused in words; both would stay behind."""
    picture = tmp_path / "weld.jpg"
    picture.write_bytes(b"\xff\xd8\xff\xe0" + bytes(64))
    before = tree(tmp_path)
    async with alone.run_test(size=(80, 40)) as pilot:
        await pilot.press("i")
        await fill(pilot, str(picture))
        await pilot.press("enter")
        await pilot.pause()
        assert "Not recorded: this is a rehearsal" in " ".join(seen(alone).split())
        await pilot.press("p", "p", "w")
        await pilot.pause()
        assert "Not written: this is a rehearsal" in " ".join(seen(alone).split())
    assert tree(tmp_path) == before


async def test_pictures_that_arrive_are_left_alone(folder: Path, tmp_path: Path) -> None:
    """A watched folder is nobody's business in a rehearsal."""
    file, _, _ = rehearsed(EXCHANGE)
    app = JobApp(folder, None, file, Settings(photos=str(tmp_path)))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        (tmp_path / "late.jpg").write_bytes(b"\xff\xd8\xff\xe0" + bytes(64))
        await pilot.pause(2.5)
        assert len(file.job.view.entries) == 1


@pytest.mark.parametrize("keys", [("escape",), ("o", "b")])
async def test_begun_by_the_command_it_ends_the_program(alone: JobApp, keys: tuple[str, ...]) -> None:
    """There are no jobs behind it to go back to: reading a folder would leave what this machine has seen of it."""
    async with alone.run_test(size=(80, 24)) as pilot:
        await pilot.press(*keys)
        await pilot.pause()
    assert alone.return_code == 0
    assert not any(isinstance(one, JobsScreen) for one in alone.screen_stack)


async def test_from_the_jobs_and_back_to_them(folder: Path, own_state: Path) -> None:
    """A key on a marked template begins it; Escape goes back, and who is there is asked again as before."""
    app = JobApp(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "r rehearse" in seen(app)
        await pilot.press("r")
        await pilot.pause()
        assert isinstance(on_top(app), StepScreen)
        assert app.session.by == REHEARSER
        await pilot.press("a", *"jack leaks", "enter")
        await pilot.pause()
        assert "Rehearsed" in seen(app)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)
        assert "The rehearsal is over; nothing of it was recorded." in seen(app)
        assert row(pilot) == ""
        assert not app.session.by
    assert not [*folder.iterdir()]
    assert not [path for path in own_state.rglob("*") if path.is_file()]


async def test_only_a_template_can_be_rehearsed(on_job: Callable[[str], JobApp]) -> None:
    """With a job marked the key isn't there."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("o", "b")
        await pilot.pause()
        await pilot.press("home")
        assert "r rehearse" not in seen(app)
        await pilot.press("r")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)


def test_the_job_is_invented_and_takes_entries_without_a_disk() -> None:
    """Vehicles have invented names, the question that comes first is open, and nothing may be put beside it."""
    file, _, _ = rehearsed(EXCHANGE)
    [first] = file.job.view.entries
    names = {act.given: act.value for act in first.did if isinstance(act, GivenAct)}
    assert names["donor.name"] == "invented donor"
    assert any(isinstance(act, OpensAct) for act in first.did)
    assert not file.refresh()
    assert file.waiting == []
    assert file.take_up() == ()
    with pytest.raises(JobFileError, match="this is a rehearsal"):
        file.beside  # noqa: B018


@pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal")
def test_killed_in_a_real_terminal_it_leaves_nothing(tmp_path: Path) -> None:
    """The command in a terminal of 80 by 24, a reading typed; then the process is killed."""
    place = tmp_path / "mine"
    place.mkdir()
    template = place / "bracket.toml"
    template.write_text(bracket(), encoding="utf-8")
    homes = {
        name: str(place) for name in ("HOME", "TMPDIR", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "JOBTRACK_FOLDER")
    }
    before = tree(place)
    bench = Bench(template, SAID, RUN, homes)
    bench.press("t")
    bench.type("try this\r")
    bench.wait_for("Rehearsed")
    bench.child.kill(signal.SIGKILL)
    bench.child.wait()
    assert tree(place) == before


@pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal")
def test_it_says_at_the_end_that_nothing_was_recorded(tmp_path: Path) -> None:
    """Escape at the step ends the program with 0 and one line."""
    template = tmp_path / "bracket.toml"
    template.write_text(bracket(), encoding="utf-8")
    bench = Bench(template, SAID, RUN)
    bench.child.send("\x1b")
    bench.child.expect("The rehearsal is over; nothing of it was recorded.")
    bench.child.expect(pexpect.EOF)
    bench.child.close()
    assert bench.child.exitstatus == 0


async def test_a_template_with_mistakes_is_said_on_the_jobs_page(folder: Path) -> None:
    """In one line with its place; one with remarks is rehearsed, and says how many there are."""
    for name, text in (("a", bracket().replace("opens = [", 'opens = ["no-such", ')), ("b", bracket())):
        (folder / f"{name}.toml").write_text(text.replace('id = "', f'id = "{name}-'), encoding="utf-8")
    app = JobApp(folder)
    async with app.run_test(size=(120, 30)) as pilot:
        await pilot.pause()
        await pilot.press("r")
        await pilot.pause()
        assert isinstance(on_top(app), JobsScreen)
        assert "a.toml:" in seen(app)
        assert "mistake: " in seen(app)
        await pilot.press("down", "r")
        await pilot.pause()
        assert isinstance(on_top(app), StepScreen)
        assert "remarks on the template: `jobtrack proofread` lists them." in " ".join(seen(app).split())


@pytest.mark.parametrize("path", sorted(shipped("job_templates").glob("*.toml")), ids=lambda path: path.stem)
def test_each_shipped_template_can_be_rehearsed(path: Path) -> None:
    """It stands on some step, and no step is out of order."""
    file, _, _ = rehearsed(path)
    assert file.job.next_steps
