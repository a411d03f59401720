"""The README's first command, in a real terminal of 80 by 24, from its text to the file."""

from __future__ import annotations

import os
import re
import shlex
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pexpect
import pyte
import pytest

from jobtrack.app.parts.taking_keys import SAME_PRESS
from jobtrack.store.copies.intact import intact
from jobtrack.store.file.writer import JobFile
from tests.support.cli_calls import entries

README = Path(__file__).parents[2] / "README.md"
PATIENCE = 30.0
"""Seconds that a screen may take on a busy machine."""
UP, ENTER, ESCAPE = "\x1b[A", "\r", "\x1b"


def first_command() -> list[str]:
    """The parts of the README's first command, as they stand there."""
    found = re.search(r"^```sh\n(.*?)\n```$", README.read_text(encoding="utf-8"), re.M | re.S)
    assert found
    return [part.strip() for part in found[1].split("&&")]


class Terminal:
    """A program in a pseudo-terminal, and what its screen shows."""

    def __init__(self, command: list[str], environment: dict[str, str]) -> None:
        self.screen = pyte.Screen(80, 24)
        self.raw = ""
        self._stream = pyte.Stream(self.screen)
        self._child = pexpect.spawn(
            command[0], command[1:], dimensions=(24, 80), encoding="utf-8", env=environment, timeout=PATIENCE
        )

    @property
    def shown(self) -> str:
        return "\n".join(self.screen.display)

    def press(self, keys: str) -> None:
        self._child.send(keys)

    def until(self, *wanted: str) -> str:
        """Which of the texts the screen comes to show first."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = next((one for one in wanted if one in self.shown), None)
            if found is not None:
                return found
            self._take(0.1)
        raise AssertionError(f"{wanted} never came:\n{self.shown}")

    def ended(self) -> int:
        """Its exit status, once it has ended."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end and self._take(0.1):
            pass
        self._child.close()
        status: int = self._child.exitstatus
        return status

    def stop(self) -> None:
        self._child.close(force=True)

    def _take(self, seconds: float) -> bool:
        """Take in what it has written; False where it has ended."""
        try:
            data = self._child.read_nonblocking(65536, seconds)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.raw += data
        self._stream.feed(data)
        return True


@pytest.fixture
def terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Terminal]:
    """The last part of the README's first command, by the program of this environment, with a new data folder."""
    monkeypatch.delenv("JOBTRACK_FOLDER", raising=False)
    monkeypatch.chdir(tmp_path)
    program, *arguments = shlex.split(first_command()[-1])
    assert Path(program).name == "jobtrack"
    environment = {
        **os.environ,
        "TERM": "xterm-256color",
        "LC_ALL": "C.UTF-8",
        "XDG_DATA_HOME": str(tmp_path),
    }
    started = Terminal([str(Path(sys.executable).parent / "jobtrack"), *arguments], environment)
    yield started
    started.stop()


def test_the_first_command_installs_and_opens_a_sample() -> None:
    """A new environment, the program into it, then the app on a sample job: nothing else is needed."""
    make, install, run = first_command()
    assert make == "python3 -m venv .venv"
    assert re.fullmatch(r"\.venv/bin/python -m pip install (--quiet )?\.", install)
    assert shlex.split(run)[:2] == [".venv/bin/jobtrack", "open"]


@pytest.mark.skipif(os.name != "posix", reason="there are pseudo-terminals on POSIX only")
def test_a_stranger_takes_over_from_the_readme(terminal: Terminal, tmp_path: Path) -> None:
    """From the first command: a reading, a check, a finished step, and all of it is in the file after quitting."""
    terminal.until("Handed over by Teo Banfield to Ada Prosser")
    assert "First use: copies of 2 sample jobs were put into" in terminal.raw
    path = tmp_path / "jobtrack" / "axle-exchange-half-done.job.toml"
    before = len(entries(path))

    terminal.press(ESCAPE)
    terminal.until("Mark the new place (right): in hand")
    terminal.press(UP)
    terminal.until("I N B O A R D")
    terminal.press("24.3")
    terminal.until("24.3 mm =")
    terminal.press(ENTER)
    terminal.until("Who is there?")
    terminal.press("Mara Quill" + ENTER)
    terminal.until("Measured again, or was the number before typed wrong?")
    time.sleep(SAME_PRESS)  # a second Enter within it is the first, tapped twice
    terminal.press(ENTER)
    terminal.until("Recorded ")
    terminal.press("y")
    terminal.until("y or n answers it anew; Enter goes on.")
    terminal.press("f")
    terminal.until("Press Enter to finish it")
    terminal.press(ENTER)
    terminal.until("Recorded as closed: Marks on the tube not")
    terminal.press("q")
    assert terminal.ended() == 0

    new = entries(path)[before:]
    acts = [(one["step"], act) for one in new for act in one["did"]]
    assert {one["by"] for one in new} == {"Mara Quill"}
    assert {step for step, _ in acts} == {"mark.right"}
    [reading] = [act for _, act in acts if "reading" in act]
    assert (reading["reading"], reading["value"], reading["typed"]) == ("moved", 24.3, "24.3")
    assert [act["yes"] for _, act in acts if "tick" in act] == [True]
    assert [act["on"]["mark.right.moved"] for _, act in acts if "finished" in act] == [24.3]
    job = JobFile(path).job
    assert job.state("mark.right") == "finished"
    assert job.now.verdict("mark.right", "moved") == "within"
    assert intact(path) == []
