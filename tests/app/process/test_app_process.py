"""The app as a process: how it ends when it is told to, how it crashes, and what it imports."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest

from jobtrack.app import main
from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.said import NoteAct
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile, NotRecorded
from tests.support.invented_jobs import NOW, half_done
from tests.support.terminal import ENVIRONMENT, RUN

LEAVE_SCREEN = b"\x1b[?1049l"
"""What gives the terminal its own screen back."""


@pytest.fixture
def job(folder: Path) -> Path:
    return half_done(folder / "half.job.toml").path


def begun(job: Path) -> pexpect.spawn[bytes]:
    """The app in a pseudo-terminal, its first frame painted."""
    child = pexpect.spawn(
        sys.executable, ["-c", RUN, str(job)], env=ENVIRONMENT, dimensions=(24, 80), timeout=30
    )
    child.expect(b"Mark the new place")
    time.sleep(0.3)
    return child


@pytest.mark.skipif(os.name != "posix", reason="signals as POSIX has them")
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_signal_ends_it_cleanly(job: Path, number: signal.Signals) -> None:
    """Told to end, or its terminal closed, the app gives the screen back and exits with 128 and the signal."""
    child = begun(job)
    os.kill(child.pid, number)
    child.expect(pexpect.EOF)
    child.close()
    assert LEAVE_SCREEN in (child.before or b"")
    assert child.exitstatus == 128 + number


def test_recorded_before_a_kill_stays(job: Path) -> None:
    """What the screen has shown as recorded is in the file, even where the process is killed at once."""
    child = begun(job)
    child.send(b"\x1b[B")
    child.expect(b"N E W")
    child.send(b"23.1\r")
    child.expect(b"typed wrong")
    time.sleep(0.3)
    child.send(b"\r")
    child.expect(b"Recorded")
    child.kill(signal.SIGKILL)
    child.wait()
    reading = JobFile(job).job.places.reading("mark.right", "moved").reading
    assert reading is not None
    assert reading.typed == "23.1"


def test_q_ends_with_nought(job: Path) -> None:
    """q ends the app with exit code 0."""
    child = begun(job)
    child.send(b"q")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


def test_no_color_paints_none(job: Path) -> None:
    """With NO_COLOR set no colour is sent, and the words are there all the same."""
    child = pexpect.spawn(sys.executable, ["-c", RUN, str(job)], env={**ENVIRONMENT, "NO_COLOR": "1"},
                          dimensions=(24, 80), timeout=30)  # fmt: skip
    child.expect(b"Mark the new place")
    child.send(b"\x1b[C")
    child.expect(b"DANGER")
    painted = (child.before or b"") + child.read_nonblocking(20000, timeout=5)
    child.send(b"q")
    child.expect(pexpect.EOF)
    child.close()
    assert b"38;2;" not in painted
    assert b"48;2;" not in painted
    assert b"38;5;" not in painted


async def test_crash_shows_no_values(
    on_job: Callable[[str], JobApp], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A crash tells where it happened and holds no local variable, since those hold the record."""
    app = on_job("half-done")

    def broken(self: StepScreen) -> None:
        secret = "private-to-the-shop"
        raise RuntimeError(f"{len(secret)} and broken")

    monkeypatch.setattr(StepScreen, "action_undo", broken)
    with pytest.raises(RuntimeError, match="and broken"):
        await _press_u(app)
    told = " ".join(capsys.readouterr().err.split())
    assert "builtins.RuntimeError (its message is left out" in told
    assert "in broken" in told
    assert "19 and broken" not in told
    assert "private-to-the-shop" not in told
    assert "half-done.job.toml" not in told


async def _press_u(app: JobApp) -> None:
    async with app.run_test() as pilot:
        await pilot.press("u")


def test_file_that_cannot_be_opened_ends_with_two(tmp_path: Path) -> None:
    """A job that can't be opened is one line on stderr and exit code 2, with no screen taken."""
    arguments = [sys.executable, "-m", "jobtrack", "--folder", str(tmp_path), "open", "none.job.toml"]
    done = subprocess.run(arguments, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stdout == ""
    assert len(done.stderr.splitlines()) == 1


def test_first_frame_imports_nothing_heavy() -> None:
    """The first screen is imported without pydantic, the template checker or the screens behind it."""
    code = (
        "import sys, jobtrack.app.main, jobtrack.app.screens.step.step, jobtrack.app.opening; "
        "print([name for name in sys.modules if name.split('.')[0] in ('pydantic', 'sqlite3', 'jinja2', 'zoneinfo')"
        " or name.startswith(('jobtrack.template.proofread', 'jobtrack.app.screens.begin',"
        " 'jobtrack.app.screens.job.outline'))])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_what_waits_is_said_when_the_app_has_ended(
    make: Callable[[str], JobFile],
    folder: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Somebody who quits is told what isn't in the file yet and where it is kept; the exit status says it too."""
    file = make("half-done")
    with disk.locked(file.path), pytest.raises(NotRecorded):
        file.append((NoteAct("waits"),), "Hob Tansley", NOW, id="a" * 16, wait=0)
    app = JobApp(folder, "Hob Tansley", file)
    app.files.append(file)
    monkeypatch.setattr(app, "run", lambda: None)
    assert main._run(app) == 3
    assert capsys.readouterr().err.startswith("NOT YET RECORDED: 1 entry, the first of ")
