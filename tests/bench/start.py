"""How soon the program answers, beside a bare program of the same kind in the same run.

    PYTHONPATH=. python tests/bench/start.py [PAIRS]

Each figure is the median over PAIRS (15) runs, taken in turn with its baseline's: process start to a text, or
to digits typed before the program could take them, on the screen of a terminal emulator of 100 by 30; for
commands, process start to end. Ratios count, not seconds: they belong to one machine and one moment.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

import pexpect
import pyte

from tests.support.exchange import HALF_DONE

WIDE, HIGH = 100, 30
PATIENCE = 30.0
"""Seconds after which a run that never shows what is waited for ends the program."""

BARE = """
from textual.app import App
from textual.widgets import {widget}
class A(App):
    def compose(self):
        yield {widget}({text})
A().run()
"""

Run = Callable[[], float]


def command(*words: str) -> Run:
    """Process start to its end."""

    def run() -> float:
        begun = time.perf_counter()
        pid = os.posix_spawn(
            words[0], words, ENV, file_actions=[(os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)]
        )
        if os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]):
            raise SystemExit(f"failed: {' '.join(words)}")
        return time.perf_counter() - begun

    return run


def screen(*words: str, shows: str, typed: str = "") -> Run:
    """Process start until a text stands on the screen; `typed` is in the terminal's buffer from the start."""

    def run() -> float:
        sight = pyte.Screen(WIDE, HIGH)
        stream = pyte.ByteStream(sight)
        begun = time.perf_counter()
        child = pexpect.spawn(words[0], list(words[1:]), env=ENV, dimensions=(HIGH, WIDE), echo=False)
        child.send(typed)
        try:
            while not any(shows in line for line in sight.display):
                stream.feed(child.read_nonblocking(1 << 16, PATIENCE))
            return time.perf_counter() - begun
        finally:
            child.close(force=True)

    return run


def pairs(label: str, ours: Run, base: Run, beside: str, count: int) -> None:
    """Both in turn, and the ratio of their medians."""
    ours(), base()  # once without counting: files are read from the disk, bytecode is written
    took = [(ours(), base()) for _ in range(count)]
    here, there = (median(column) for column in zip(*took, strict=True))
    print(f"{label:24} {here * 1000:6.0f} ms   {beside:34} {there * 1000:6.0f} ms   ratio {here / there:.2f}")


def main(count: int) -> None:
    """Print every ratio."""
    python = sys.executable
    jobtrack = (python, "-m", "jobtrack")
    with tempfile.TemporaryDirectory() as place:
        job = Path(place) / "bench.job.toml"
        job.write_bytes(HALF_DONE.read_bytes())
        command(*jobtrack, "record", str(job), "--by", "Hob Tansley", "--take-over")()
        bare, field = Path(place) / "bare.py", Path(place) / "field.py"
        bare.write_text(BARE.format(widget="Static", text='"x marks it"'))
        field.write_text(BARE.format(widget="Input", text=""))
        app = (*jobtrack, "open", str(job), "--by", "Hob Tansley")
        pairs(
            "imports of the app",
            command(python, "-c", APP_IMPORTS),
            command(python, "-c", TEXTUAL),
            "Textual's",
            count,
        )
        pairs(
            "first paint",
            screen(*app, shows="Mark the new place"),
            screen(python, str(bare), shows="x marks it"),
            "a bare app's",
            count,
        )
        pairs(
            "first key",
            screen(*app, shows="9876", typed="9876"),
            screen(python, str(field), shows="9876", typed="9876"),
            "a bare Input's",
            count,
        )
        pairs(
            "--help",
            command(*jobtrack, "--help"),
            command(python, "-c", "import argparse"),
            "import argparse",
            count,
        )
        read = f"import argparse, tomli; tomli.load(open({str(job)!r}, 'rb'))"
        pairs(
            "show --json",
            command(*jobtrack, "show", str(job), "--json"),
            command(python, "-c", read),
            "argparse and tomli on the file",
            count,
        )
        note = command(*jobtrack, "record", str(job), "--by", "Wim", "--note", "timed")
        pairs("record --note", note, command(python, "-c", read), "argparse and tomli on the file", count)


TEXTUAL = "from textual.app import App; from textual.widgets import Static"
APP_IMPORTS = "import jobtrack.app.main, jobtrack.app.screens.step.step"
"""What stands in memory when the first page of a job is drawn."""
ENV = {**os.environ, "TERM": "xterm-256color", "PYTHONPATH": os.getcwd()}
ENV.pop("PYTHONDONTWRITEBYTECODE", None)  # as installed: with its bytecode

if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
