"""Calls of the command line in this process, and what they left in the job file."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from jobtrack.cli.main import main

TEMPLATE = Path(__file__).with_name("tow_hook.toml")
AT = "2031-04-02T09:41:07+01:00"


@dataclass(frozen=True)
class Ended:
    """How a call ended."""

    status: int
    out: str
    err: str


class Shop:
    """A folder with one job file, and calls made in it by one person."""

    def __init__(self, folder: Path, capture: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self.job = folder / "hook.job.toml"
        self._capture = capture

    def run(self, *arguments: object) -> Ended:
        """One call, whatever comes of it."""
        self._capture.readouterr()
        status = main([str(one) for one in arguments])
        out, err = self._capture.readouterr()
        return Ended(status, out, err)

    def done(self, *arguments: object) -> Ended:
        """One call that ends with status 0."""
        ended = self.run(*arguments)
        assert ended.status == 0, ended.err
        return ended

    def begin(self, *more: object) -> Ended:
        return self.done("begin", TEMPLATE, "--out", self.job, "--by", "Wim", *more)

    def record(self, *arguments: object, by: str = "Wim") -> list[dict[str, Any]]:
        """One call of `record` on the job: the acts of the entry that it added."""
        before = len(entries(self.job))
        self.done("record", self.job, *arguments, "--by", by)
        after = entries(self.job)
        assert len(after) == before + 1
        acts: list[dict[str, Any]] = after[-1]["did"]
        return acts

    def refused(self, *arguments: object) -> str:
        """One call of `record` that is refused: its one line. The job file stays as it was."""
        before = self.job.read_bytes()
        ended = self.run("record", self.job, *arguments, "--by", "Wim")
        assert ended.status == 2
        assert ended.out == ""
        assert self.job.read_bytes() == before
        return one_line(ended.err)


def entries(path: Path) -> list[dict[str, Any]]:
    """The entries of a job file as any TOML reader sees them."""
    found: list[dict[str, Any]] = tomllib.loads(path.read_text(encoding="utf-8")).get("entry", [])
    return found


def name(path: Path, index: int, entry: int = -1) -> str:
    """The name of an act of an entry, by default the last one."""
    return f"{entries(path)[entry]['id']}/{index}"


def one_line(text: str) -> str:
    """The one line that a text is."""
    assert text.endswith("\n")
    assert text.count("\n") == 1
    return text.removesuffix("\n")


def step(state: Any, id: str) -> Any:
    """One step of what `show --json` prints."""
    return next(one for one in state["steps"] if one["id"] == id)


def texts(found: Sequence[dict[str, Any]], key: str) -> list[Any]:
    return [one[key] for one in found]
