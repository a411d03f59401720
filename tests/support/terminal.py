"""The app in a real terminal of 80 by 24, worked key by key; the job file tells what the keys did."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pexpect
import pyte
import pytest

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.store.file.writer import JobFile

ENVIRONMENT = {**os.environ, "TERM": "xterm-256color", "TEXTUAL_ANIMATIONS": "none"}
RUN = "import sys; from pathlib import Path; from jobtrack.app.main import run_job; sys.exit(run_job(Path(sys.argv[1]), 'Hob'))"  # noqa: E501
DOWN, UP, ESCAPE = "\x1b[B", "\x1b[A", "\x1b"


class Bench:
    """The app in a pseudo-terminal, and the screen that it paints."""

    def __init__(
        self, path: Path, first: str, code: str = RUN, environment: Mapping[str, str] | None = None
    ) -> None:
        self.path = path
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.screen)
        self.child = pexpect.spawn(
            sys.executable,
            ["-c", code, str(path)],
            env=ENVIRONMENT | {"XDG_STATE_HOME": str(path.parent / "state")} | dict(environment or {}),
            dimensions=(24, 80),
            timeout=30,
        )
        self.child.delaybeforesend = None
        self.wait_for(first)

    @property
    def shown(self) -> str:
        return " ".join(" ".join(self.screen.display).split())

    def read(self, quiet: float = 0.2) -> None:
        """Take in what is painted until nothing more comes."""
        while True:
            try:
                self.stream.feed(self.child.read_nonblocking(65536, timeout=quiet))
            except (pexpect.TIMEOUT, pexpect.EOF):
                return

    def wait_for(self, text: str, seconds: float = 20) -> None:
        """Read until a text stands on the screen."""
        until = time.monotonic() + seconds
        while text not in self.shown:
            assert time.monotonic() < until, f"{text!r} never stood on the screen:\n{self.shown}"
            self.read(0.05)

    def type(self, keys: str, gap: float = 0.03) -> None:
        """One key after the other, so many seconds apart."""
        for key in keys:
            self.child.send(key)
            time.sleep(gap)
        self.read()

    def type_ahead(self, keys: str) -> None:
        """All keys in one go, before anything can be painted."""
        self.child.send(keys)
        self.read()

    def press(self, *keys: str) -> None:
        """Whole keys, each read to its end."""
        for key in keys:
            self.child.send(key)
            self.read()

    def to(self, text: str) -> None:
        """Choose, with Down, the line that the screen then asks for."""
        for _ in range(12):
            if text in self.asked:
                return
            self.press(DOWN)
        pytest.fail(f"{text} can't be chosen:\n{self.shown}")

    @property
    def asked(self) -> str:
        """The rows below the page."""
        rules = [row for row, text in enumerate(self.screen.display) if text.strip().startswith("──")]
        rows = self.screen.display[rules[-1] : -1] if rules else []
        return " ".join(" ".join(rows).split())

    @property
    def keys(self) -> str:
        """The row of keys."""
        return self.screen.display[-1].strip()

    def acts(self) -> list[Act]:
        """All that the file holds."""
        return [act for entry in JobFile(self.path).job.view.entries for act in entry.did]

    def holds(self, what: Callable[[], Sequence[object]], wanted: Sequence[object]) -> None:
        """What the file holds, once all that was typed has arrived."""
        until = time.monotonic() + 5
        while what() != wanted and time.monotonic() < until:
            self.read(0.05)
        assert what() == wanted, self.shown

    def ticks(self) -> list[tuple[str, bool]]:
        return [(act.tick, act.yes) for act in self.acts() if isinstance(act, TickAct)]

    def readings(self) -> list[tuple[str, object]]:
        return [(act.reading, act.typed) for act in self.acts() if isinstance(act, ReadingAct)]

    def ended(self) -> None:
        """Read to the end of the program."""
        self.child.expect(pexpect.EOF)
