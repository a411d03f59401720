"""A share that hangs: keys stay alive, what is typed is said as not yet recorded, and ends in the file in order."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pexpect
import pytest

from jobtrack.app.main import JobApp
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.key_page import KeysScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import HELD, half_done, on_top, seen
from tests.support.terminal import ENVIRONMENT

OnJobs = Callable[[str], JobApp]


class Share:
    """A disk that can be held: whoever calls it waits until it is let go."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self._patch = monkeypatch
        self._free = threading.Event()
        self._free.set()

    def hold(self, call: str, only: str = ".job.toml") -> None:
        """From now on a call of the disk hangs, where its path ends so; a synced handle has none."""
        honest = getattr(disk, call)

        def slow(path: object, *rest: object) -> object:
            if str(path).endswith(only) or isinstance(path, int):
                assert self._free.wait(30)
            return honest(path, *rest)

        self._patch.setattr(disk, call, slow)
        self._free.clear()
        HELD.set()

    def let_go(self) -> None:
        """The share answers again."""
        self._free.set()
        HELD.clear()


@pytest.fixture
def share(monkeypatch: pytest.MonkeyPatch) -> Iterator[Share]:
    found = Share(monkeypatch)
    yield found
    found.let_go()


def words(app: JobApp) -> str:
    return " ".join(seen(app).split())


def typed(path: Path) -> list[object]:
    """The readings of the step as they were typed, in the order of the file."""
    acts = [
        act for entry in JobFile(path).job.view.entries for act in entry.did if entry.step == "tack.right"
    ]
    return [act.typed for act in acts if isinstance(act, ReadingAct)]


@pytest.mark.parametrize("call", ["append", "sync"], ids=["before the write", "at the sync"])
async def test_keys_stay_alive_while_a_record_hangs(on_job: OnJobs, share: Share, call: str) -> None:
    """Two readings are typed while the first write hangs; both end in the file, once each, in the order typed."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, StepScreen)
        assert app.file is not None
        app.screen.go("tack.right")
        await pilot.pause()
        share.hold(call)
        await pilot.press(*"0.4", "enter")
        assert "NOT YET RECORDED: Gap under the perch before clamping 0.4." in words(app)
        await pilot.press(*"2.5")
        assert "= 2.5" in seen(app)
        await pilot.press("enter")
        assert (
            "NOT YET RECORDED: Gap under the perch before clamping 0.4; Slope of the OTHER perch as it is now 2.5."
            in words(app)
        )
        assert app.file.job.places.reading("tack.right", "gap").acts == ()
        await pilot.press("question_mark")
        assert isinstance(on_top(app), KeysScreen)
        await pilot.press("escape", "o")
        assert (
            "NOT YET RECORDED: Gap under the perch before clamping 0.4; Slope of the OTHER perch as it is now 2.5."
            in words(app)
        )
        await pilot.press("escape")
        share.let_go()
        await pilot.pause()
        assert "NOT YET RECORDED" not in seen(app)
        assert "Recorded 09:41:" in seen(app)
        assert app.file.job.places.reading("tack.right", "other").acts
    assert typed(app.file.path) == ["0.4", "2.5"]


async def test_what_is_taken_back_may_still_be_on_its_way(on_job: OnJobs, share: Share) -> None:
    """An undo typed while its note hangs takes back that note, and the second key of a check asks nothing twice."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        assert app.file is not None
        share.hold("append")
        await pilot.press("t", *"held", "enter", "u")
        assert "NOT YET RECORDED" in seen(app)
        share.let_go()
        await pilot.pause()
        assert "Undone:" in seen(app)
    job = JobFile(app.file.path).job
    assert NoteAct("held") in [act for entry in job.view.entries for act in entry.did]
    assert NoteAct("held") not in [done.act for done in job.view.of_kind(NoteAct)]


async def test_a_share_that_stays_away_keeps_both(
    on_job: OnJobs, share: Share, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The write hangs and then fails: what is on its way behind it is kept too, and recorded when it can be."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        assert app.file is not None
        honest, gone = disk.append, True

        def append(path: Path, data: bytes, known: disk.Known) -> None:
            if gone and path.name.endswith(".job.toml"):
                raise OSError(5, "Input/output error")
            honest(path, data, known)

        monkeypatch.setattr(disk, "append", append)
        share.hold("append")
        await pilot.press("t", *"one", "enter", "t", *"two", "enter")
        share.let_go()
        await pilot.pause()
        assert "NOT YET RECORDED: 2 entries" in words(app)
        gone = False
        await pilot.pause(1.6)
        assert "Recorded now what had waited: 2 entries." in words(app)
    notes = [done.act for done in JobFile(app.file.path).job.view.of_kind(NoteAct)]
    assert notes[-2:] == [NoteAct("one"), NoteAct("two")]


async def test_no_page_goes_on_saying_that_something_waits(
    on_job: OnJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What waited is taken while another page is on top: the page below says so when it is back."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        honest, gone = disk.append, True

        def append(path: Path, data: bytes, known: disk.Known) -> None:
            if gone and path.name.endswith(".job.toml"):
                raise OSError(5, "Input/output error")
            honest(path, data, known)

        monkeypatch.setattr(disk, "append", append)
        await pilot.press("t", *"one", "enter")
        await pilot.pause()
        await pilot.press("j")
        gone = False
        await pilot.pause(1.6)
        assert "Recorded now what had waited: 1 entry." in words(app)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, StepScreen)
        assert "NOT YET RECORDED" not in words(app)
        assert "What had waited is recorded now." in words(app)


async def test_what_is_said_of_a_file_that_is_gone_goes_when_it_is_back(on_job: OnJobs) -> None:
    """A stick pulled and put back: the line that asks for it goes."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        assert app.file is not None
        aside = app.file.path.with_suffix(".away")
        app.file.path.rename(aside)
        await pilot.pause(1.6)
        assert "put it back" in words(app)
        aside.rename(app.file.path)
        await pilot.pause(1.6)
        assert "put it back" not in words(app)


async def test_leaving_waits_for_what_is_being_written(on_job: OnJobs, share: Share) -> None:
    """q while a record hangs: the app ends when the record is on the disk, not before."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        share.hold("append")
        await pilot.press("t", *"last words", "enter", "q")
        threading.Timer(0.5, share.let_go).start()
        began = time.monotonic()
        await pilot.press("l")
    assert time.monotonic() - began > 0.4
    assert app.file is not None
    assert JobFile(app.file.path).job.view.entries[-1].did == (NoteAct("last words"),)


async def test_keys_stay_alive_while_the_file_is_looked_at(on_job: OnJobs, share: Share) -> None:
    """Where following the file hangs, a number can be typed and is shown back."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        share.hold("read_behind")
        await pilot.pause(1.3)
        await pilot.press("down", *"23.1")
        assert "= 23.1 mm" in seen(app)
        share.let_go()


async def test_a_look_that_hangs_holds_nobody_back(on_job: OnJobs, share: Share) -> None:
    """q while following the file hangs, with nothing to write: the app ends at once."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        share.hold("read_behind")
        await pilot.pause(1.3)
        began = time.monotonic()
        await pilot.press("q", "l")
    assert time.monotonic() - began < 5
    assert app.return_code == 0


async def test_jobs_stand_in_the_list_as_they_are_read(
    make: Callable[[str], JobFile], on_folder: Callable[[], JobApp], share: Share
) -> None:
    """One job's file hangs: the other stands there, keys answer, and the rest comes when it can be read."""
    make("half-done")
    make("surveyed")
    share.hold("read", "surveyed.job.toml")
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.pause(0.5)
        assert "21 of 35 steps finished" in words(pilot.app)  # type: ignore[arg-type]
        assert "9 of 35" not in seen(pilot.app)
        await pilot.press("question_mark")
        assert isinstance(on_top(pilot.app), KeysScreen)
        await pilot.press("escape")
        share.let_go()
        await pilot.pause()
        assert "9 of 35" in seen(pilot.app)
        assert "Begin: Axle exchange" in seen(pilot.app)


async def test_keys_typed_while_a_job_is_opened_are_the_jobs(
    make: Callable[[str], JobFile], on_folder: Callable[[], JobApp], share: Share
) -> None:
    """Enter on a job whose file hangs, and a number: it stands in the job's field when the job is open."""
    make("half-done")
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        share.hold("read")
        await pilot.press("enter", "down", *"23.1")
        assert isinstance(on_top(pilot.app), JobsScreen)
        share.let_go()
        await pilot.pause()
        assert isinstance(on_top(pilot.app), StepScreen)
        assert "= 23.1 mm" in seen(pilot.app)


SLOW = """
import sys, time
from pathlib import Path
from jobtrack.store.file import disk
honest = disk.append
def slow(path, data, known):
    if path.name.endswith(".job.toml"):
        time.sleep(5)
    honest(path, data, known)
disk.append = slow
from jobtrack.app.main import run_job
sys.exit(run_job(Path(sys.argv[1]), "Hob"))
"""


@pytest.mark.whole
def test_five_seconds_on_a_real_terminal(folder: Path) -> None:
    """A write that takes five seconds: what is typed meanwhile is shown back within one, and recorded behind it."""
    path = half_done(folder / "half.job.toml").path
    child = pexpect.spawn(
        sys.executable, ["-c", SLOW, str(path)], env=ENVIRONMENT, dimensions=(24, 80), timeout=30
    )
    child.expect(b"Mark the new place")
    time.sleep(0.5)
    child.send(b"23.1\r")
    child.expect(b"NOT YET RECORDED")
    sent = time.monotonic()
    child.send(b"thanging")
    child.expect(b"hanging")
    answered = time.monotonic() - sent
    print(f"\nshown back after {1000 * answered:.0f} ms while a write of 5 s runs")
    assert answered < 1
    child.send(b"\rql")
    child.expect(pexpect.EOF)
    child.close()
    reading, note = JobFile(path).job.view.entries[-2:]
    assert [type(one.did[0]) for one in (reading, note)] == [ReadingAct, NoteAct]
