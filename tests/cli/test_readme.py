"""The README's commands: the first in a real terminal of 80 by 24, from its text to the file; its shelf."""

from __future__ import annotations

import json
import os
import re
import shlex
import shutil
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
from tests.support.cli_calls import Shop, entries
from tests.support.mistakes import SOUND

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
    terminal.until("Metal warm, rods dry, clamp on (left): in hand")
    terminal.press(UP)
    terminal.until("recorded now: 17 °C")
    terminal.press("22.8")
    terminal.until("22.8 °C =")
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
    terminal.until(": finished. ─")
    terminal.press("q")
    assert terminal.ended() == 0

    new = entries(path)[before:]
    acts = [(one["step"], act) for one in new for act in one["did"]]
    assert {one["by"] for one in new} == {"Mara Quill"}
    assert {step for step, _ in acts} == {"warm.left"}
    [reading] = [act for _, act in acts if "reading" in act]
    assert (reading["reading"], reading["value"], reading["typed"]) == ("metal", 22.8, "22.8")
    assert [act["yes"] for _, act in acts if "tick" in act] == [True]
    assert [act["on"]["warm.left.metal"] for _, act in acts if "finished" in act] == [22.8]
    job = JobFile(path).job
    assert job.state("warm.left") == "finished"
    assert job.now.verdict("warm.left", "metal") == "within"
    assert intact(path) == []


def test_the_shelf_is_what_is_shipped(empty_shop: Shop) -> None:
    """Each template that travels with the program stands in the README's table, as `templates` lists it."""
    text = README.read_text(encoding="utf-8")
    rows = re.findall(r"^\| `([a-z-]+)` \| ([^|]+) \| (\d+) \| [^|]+ \|$", text, re.M)
    listed = json.loads(empty_shop.done("templates", "--json").out)
    assert rows == sorted((one["id"], one["title"], str(one["steps"])) for one in listed)


def commands() -> list[list[str]]:
    """The README's commands, with an example each, in the order in which they stand there."""
    text = README.read_text(encoding="utf-8")
    block = re.search(r"^The commands, with an example each:\n\n```\n(.*?)\n```$", text, re.M | re.S)
    assert block
    return [shlex.split(one, comments=True)[1:] for one in block[1].splitlines()]


def test_each_command_runs_behind_the_one_before(
    empty_shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As they stand there, in one folder with a stick and a template of one's own; what asks isn't answered here."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "stick").mkdir()
    shutil.copy(SOUND, tmp_path / "my-template.toml")
    asking = ["rehearse", "new-template", "vehicle-record"]
    run = [one for one in commands() if one[0] not in asking]
    assert len(run) > 10
    for one in run:
        if one[0] == "merge":
            shutil.copy("flatbed.job.toml", "stick/flatbed.job.toml")
        empty_shop.done(*one)
