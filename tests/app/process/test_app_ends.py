"""However the app ends: the terminal as it was, the record whole; a crash leaves a report without anybody's words."""

from __future__ import annotations

import os
import re
import signal
import stat
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest

from jobtrack.app.host import SessionApp
from jobtrack.app.main import JobApp, told_of_crash
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.store.copies.intact import intact
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import crash
from jobtrack.store.machine.settings import Settings
from tests.support.invented_jobs import NOW, half_done
from tests.support.terminal import ENVIRONMENT

RUN = """
import os, sys
from pathlib import Path
from jobtrack.app.main import run_job
from jobtrack.app.screens.step.step import StepScreen
Path(sys.argv[1] + ".pid").write_text(str(os.getpid()))
def broken(self):
    secret = "kept to ourselves"
    raise RuntimeError("said by " + secret)
StepScreen.action_hazards = broken
sys.exit(run_job(Path(sys.argv[1]), "Hob"))
"""
IN_A_SHELL = 'echo "before=$(stty -g)"; "$@"; echo "ended=$?"; echo "after=$(stty -g)"'
TURNED_OFF = {
    b"\x1b[?1049h": b"\x1b[?1049l", b"\x1b[?25l": b"\x1b[?25h", b"\x1b[?1000h": b"\x1b[?1000l",
    b"\x1b[?1003h": b"\x1b[?1003l", b"\x1b[?1006h": b"\x1b[?1006l", b"\x1b[?2004h": b"\x1b[?2004l",
    b"\x1b[?1004h": b"\x1b[?1004l",
}  # fmt: skip
"""What turns a mode of the terminal on (or the cursor off), and what undoes it."""
pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals and terminals as POSIX has them")


class Shell:
    """The app run from a shell, which says before and after how the terminal is set."""

    def __init__(self, job: Path) -> None:
        self.job = job
        self.state = job.parent / "state"
        self.painted = b""
        self.child = pexpect.spawn(
            "/bin/sh", ["-c", IN_A_SHELL, "sh", sys.executable, "-c", RUN, str(job)],
            env=ENVIRONMENT | {"XDG_STATE_HOME": str(self.state)}, dimensions=(24, 80), timeout=30,
        )  # fmt: skip
        self.child.delaybeforesend = None
        self.expect(b"Mark the new place")
        time.sleep(0.3)

    def expect(self, text: bytes) -> None:
        self.child.expect(re.escape(text))
        self.painted += (self.child.before or b"") + text

    def number(self) -> int:
        """The app's own process."""
        return int(self.job.with_name(f"{self.job.name}.pid").read_text())

    def record(self, keys: str) -> None:
        """Record a note."""
        self.child.send(f"t{keys}\r")
        self.expect(b"Recorded")

    def end(self) -> tuple[int, bytes]:
        """Read to the end: the exit status, and the last that was painted."""
        self.child.expect(pexpect.EOF)
        self.painted += self.child.before or b""
        self.child.close()
        last = self.painted[self.painted.rindex(b"\x1b[?1049l") :]
        return int(re.findall(rb"ended=(\d+)", last)[0]), last

    def is_clean(self) -> bool:
        """Whether every mode that was turned on was turned off behind, and the line is set as before."""
        modes = all(
            self.painted.rfind(off) > self.painted.rfind(on)
            for on, off in TURNED_OFF.items() if on in self.painted
        )  # fmt: skip
        before, after = (re.findall(rb"%s=([0-9a-f:]+)" % one, self.painted) for one in (b"before", b"after"))
        return modes and before == after and len(before) == 1

    def rung(self) -> int:
        """How often the bell was rung; a BEL that ends another command of the terminal rings nothing."""
        return re.sub(rb"\x1b\][^\x07\x1b]*\x07", b"", self.painted).count(b"\x07")

    def reports(self) -> list[Path]:
        return sorted((self.state / "jobtrack" / "crashes").glob("*"))


@pytest.fixture
def shell(folder: Path) -> Shell:
    return Shell(half_done(folder / "half.job.toml").path)


def notes(job: Path) -> list[object]:
    """The notes that the file holds, and that it is sound from end to end."""
    file = JobFile(job)
    assert intact(job) == []
    return [
        act.as_dict()["note"] for entry in file.job.view.entries for act in entry.did if act.kind == "note"
    ]


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_told_to_end(shell: Shell, number: signal.Signals) -> None:
    """In the middle of typing: what was recorded stays, what was being typed isn't recorded, the terminal is clean."""
    shell.record("rust on the seat")
    shell.child.send("thalf a no")
    shell.expect(b"half a no")
    os.kill(shell.number(), number)
    status, _ = shell.end()
    assert status == 128 + number
    assert shell.is_clean()
    assert notes(shell.job)[-1] == "rust on the seat"
    assert shell.reports() == []


def test_a_closed_terminal(folder: Path) -> None:
    """The window is closed: the app ends by itself within seconds, and the record is whole."""
    job = half_done(folder / "half.job.toml").path
    state = {"XDG_STATE_HOME": str(folder / "state")}
    child = pexpect.spawn(
        sys.executable, ["-c", RUN, str(job)], env=ENVIRONMENT | state, dimensions=(24, 80), timeout=30
    )
    child.expect(b"Mark the new place")
    time.sleep(0.3)
    child.send("trust on the seat\r")
    child.expect(b"Recorded")
    os.close(child.fileno())
    until = time.monotonic() + 15
    while os.waitpid(child.pid, os.WNOHANG) == (0, 0):
        assert time.monotonic() < until, "it still runs"
        time.sleep(0.05)
    assert notes(job)[-1] == "rust on the seat"
    assert not (folder / "state" / "jobtrack" / "crashes").exists()


def test_a_crash(shell: Shell) -> None:
    """The terminal is clean, the record whole, and a report without anybody's words stands where the last line says."""
    shell.record("rust on the seat")
    shell.child.send("z")
    status, last = shell.end()
    assert status == 1
    assert shell.is_clean()
    assert notes(shell.job)[-1] == "rust on the seat"
    (report,) = shell.reports()
    assert str(report).encode() in last.replace(b"\r\n", b"")
    assert stat.S_IMODE(report.stat().st_mode) == 0o600
    text = report.read_text()
    assert f"textual {crash._version('textual')}" in text
    assert "in broken" in text
    assert "RuntimeError" in text
    for said in ("kept to ourselves", "said by", "rust on the seat", "Hob", str(shell.job.parent)):
        assert said not in text
        assert said.encode() not in last.replace(b"\r\n", b"").replace(str(report).encode(), b"")


def test_a_chain_of_errors_is_told_from_its_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Which error led to which; a ring of causes ends; a folder that can't be written is said."""
    try:
        try:
            raise KeyError("Wim's brake")
        except KeyError as first:
            raise ValueError("Wim's drum") from first
    except ValueError as error:
        caught = error
    assert isinstance(caught.__cause__, KeyError)
    caught.__cause__.__context__ = caught
    text = crash.crash_report(caught, NOW)
    assert text.index("KeyError") < text.index("which led to:") < text.index("ValueError")
    assert "Wim" not in text
    assert "tests/app/process/test_app_ends.py:" in text.replace(os.sep, "/")
    blocked = tmp_path / "blocked"
    blocked.write_text("")
    monkeypatch.setenv("XDG_STATE_HOME", str(blocked))
    assert "couldn't be kept in a file" in told_of_crash(caught)


def test_the_bell_is_rung_on_the_terminal(shell: Shell) -> None:
    """One BEL goes out, where a step is finished over its hold; none before."""
    assert shell.rung() == 0
    shell.child.send("f")
    shell.expect(b"leaves this open")
    os.kill(shell.number(), signal.SIGTERM)
    shell.end()
    assert shell.rung() == 1


@pytest.fixture
def rung(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Each time that the bell was rung."""
    times: list[str] = []
    monkeypatch.setattr(SessionApp, "bell", lambda app: times.append("rung"))
    return times


async def test_the_bell_rings_where_a_hold_is_passed_over(
    on_job: Callable[[str], JobApp], rung: list[str]
) -> None:
    """Finishing with the hold not released, going on from there; not for what passes nothing over."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("down", "up", "t", *"rust", "enter", "z", "o", "escape")
        assert rung == []
        await pilot.press("f")
        assert len(rung) == 1


async def test_the_bell_rings_where_one_goes_on_past_a_hold(
    on_job: Callable[[str], JobApp], rung: list[str]
) -> None:
    """Not from a step that was only looked at; from one that is finished, its hold not released."""
    app = on_job("surveyed")
    async with app.run_test() as pilot:
        screen = app.screen
        assert isinstance(screen, StepScreen)
        screen.go("offer-up")
        await pilot.press("g")
        assert rung == []
        screen.go("offer-up")
        await pilot.press("f", "enter")
        assert len(rung) == 1
        assert screen.at.is_finished
        await pilot.press("g")
        assert len(rung) == 2


async def test_the_bell_rings_where_something_unsafe_is_passed_over(
    on_job: Callable[[str], JobApp], rung: list[str]
) -> None:
    """What somebody recorded as unsafe in a step, and left open; and ending a job with open conditions."""
    app = on_job("surveyed")
    async with app.run_test() as pilot:
        await pilot.press("g")
        before = len(rung)
        await pilot.press("left", "a", *"cracked", "enter", "g")
        assert len(rung) == before + 1
        await pilot.press("o", "e", "c")
        assert len(rung) == before + 2


async def test_no_bell_where_the_settings_want_none(folder: Path, rung: list[str]) -> None:
    """`bell = false`."""
    app = JobApp(folder, "Hob Tansley", half_done(folder / "half.job.toml"), settings=Settings(bell=False))
    async with app.run_test() as pilot:
        await pilot.press("f")
    assert rung == []


async def test_no_motion_where_the_settings_want_none(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`motion = false`: nothing glides, and the cursor doesn't blink."""
    monkeypatch.setattr("textual.constants.TEXTUAL_ANIMATIONS", "full")
    for motion, level in ((True, "full"), (False, "none")):
        app = JobApp(folder, "Hob Tansley", half_done(folder / f"{motion}.job.toml"), Settings(motion=motion))
        assert app.animation_level == level
        async with app.run_test():
            assert app.session.motion is motion
