"""Plant changes in the shop mathematics, one at a time, and see which of them the tests catch.

    python tests/mutants/plant.py [MODULE ...]

A developer's tool, run by hand from the root of the repository; without names it takes every module of
`jobtrack/shopmath`. The tests of `tests/shopmath` are collected once and run once without a change, traced
line by line. Each change is then planted in a forked child, which runs the tests that came by its function
(for a table: by the functions that name it), quickest first, until one fails. Nothing is written to disk.
Survivors that can't be caught stand with the reason in `equivalent.toml`.
"""

from __future__ import annotations

import gc
import os
import resource
import signal
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import pytest
import tomli
from _pytest.runner import runtestprotocol
from coverage import Coverage
from hypothesis import HealthCheck, Phase, settings

from tests.mutants.mutant_changes import Change, changes
from tests.mutants.mutant_reload import Room

ROOT = Path(__file__).resolve().parents[2]
TESTS = ROOT / "tests" / "shopmath"
LIST = Path(__file__).parent / "equivalent.toml"

Known = tuple[str, str, str]
"""A change by the file's name, the line's text and what is changed."""


def equivalents() -> dict[Known, str]:
    """The changes that no test can see, with the reason."""
    rows = tomli.loads(LIST.read_text(encoding="utf-8"))["equivalent"]
    return {(row["file"], row["line"], row["change"]): row["why"] for row in rows}


def file_of(name: str) -> str:
    """A module of the shop mathematics by its file: `fit.angles` is fit/angles.py."""
    return f"{name.replace('.', '/')}.py"


def known_as(file: str, lines: Sequence[str], change: Change) -> Known:
    """How this change is written in the list of equivalents."""
    return file, lines[change.line - 1].strip(), change.what


@dataclass(eq=False)
class Traced:
    """A plugin that runs every test once, traced, and then hands the collected tests to the planting."""

    coverage: Coverage
    modules: list[str]
    seconds: dict[str, float] = field(default_factory=dict)
    failed: list[str] = field(default_factory=list)
    survived: int = 0

    def pytest_configure(self, config: pytest.Config) -> None:
        """Failures are counted, not shown: the quickest report is enough."""
        config.option.tbstyle = "native"

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run the tests, then plant."""
        for item, after in pairwise([*session.items, None]):
            assert item is not None
            self.coverage.switch_context(item.nodeid)
            begun = time.process_time()
            reports = runtestprotocol(item, nextitem=after, log=False)
            self.seconds[item.nodeid] = time.process_time() - begun
            self.failed += [item.nodeid for report in reports if report.failed]
        self.coverage.stop()
        gc.collect()
        gc.freeze()
        total = sum(self.seconds.values())
        print(
            f"\nunchanged: {len(session.items)} tests, {len(self.failed)} failed, {total:.0f} s", flush=True
        )
        if not self.failed:
            self._plant(session)
        return True

    def _plant(self, session: pytest.Session) -> None:
        room = Room(ROOT / "jobtrack" / "shopmath", self.coverage.get_data(), session.items)
        bed = Bed(room, self.seconds, equivalents())
        for name in self.modules or room.names():
            bed.module(name)
        bed.told()
        self.survived = len(bed.survivors)


@dataclass(eq=False)
class Bed:
    """Where changes are planted, and the count of what became of them."""

    room: Room
    seconds: dict[str, float]
    known: dict[Known, str]
    survivors: list[str] = field(default_factory=list)
    total: Counter[str] = field(default_factory=Counter)
    met: set[Known] = field(default_factory=set)
    _killers: list[pytest.Item] = field(default_factory=list)

    def module(self, name: str) -> None:
        """Plant every change of one module and print what came of it."""
        begun, count = time.monotonic(), Counter[str]()
        tree, lines = self.room.source(name)
        self.room.reload(name, tree)
        if self._run(self._ordered(self.room.tests_of_module(name)), name) != "survived":
            raise SystemExit(f"{name}: its tests fail on the unchanged module after a reload")
        for change in changes(tree):
            fate = self._fate(name, change)
            known = known_as(file_of(name), lines, change)
            if fate == "survived" and known in self.known:
                fate = "equivalent"
                self.met.add(known)
            if fate in ("survived", "hung"):
                print(f"  {fate} {file_of(name)}:{change.line}: {known[1]}\n    {change.what}", flush=True)
            if fate == "survived":
                self.survivors.append(f"{file_of(name)}:{change.line}")
            count[fate] += 1
        self.total += count
        print(f"{name}: {_counted(count)} ({time.monotonic() - begun:.0f} s)", flush=True)
        self._complain(name)

    def _complain(self, name: str) -> None:
        for known in self.known:
            if known[0] == file_of(name) and known not in self.met:
                print(f"  equivalent.toml: no survivor is {known[1]} | {known[2]}", flush=True)

    def told(self) -> None:
        """Print the sum of all modules."""
        print(f"all: {_counted(self.total)}", flush=True)

    def _fate(self, name: str, change: Change) -> str:
        tests = self._ordered(self.room.tests(name, change))
        change.plant()
        try:
            fate = self._run(tests, name)
            return self._run(tests, name, 4) if fate == "hung" else fate
        finally:
            change.take_out()

    def _ordered(self, tests: set[str]) -> list[pytest.Item]:
        chosen = [item for item in self.room.items if item.nodeid in tests]
        chosen.sort(key=lambda item: self.seconds[item.nodeid])
        first = [item for item in self._killers[-5:] if item.nodeid in tests]
        return [*reversed(first), *(item for item in chosen if item not in first)]

    def _run(self, tests: list[pytest.Item], name: str, patience: int = 1) -> str:
        seconds = 10 + 10 * sum(self.seconds[item.nodeid] for item in tests)
        read, write = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(read)
            os._exit(self._in_child(tests, name, int(patience * seconds), write))
        os.close(write)
        with os.fdopen(read) as pipe:
            killer = pipe.read()
        _, status = os.waitpid(child, 0)
        if killer:
            self._remember(tests[int(killer)])
        if os.WIFSIGNALED(status) and os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGKILL):
            return "hung"
        return "survived" if os.WIFEXITED(status) and os.WEXITSTATUS(status) == 0 else "caught"

    def _remember(self, item: pytest.Item) -> None:
        if item in self._killers:
            self._killers.remove(item)
        self._killers.append(item)

    def _in_child(self, tests: list[pytest.Item], name: str, seconds: int, write: int) -> int:
        silent = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silent, 1)
        os.dup2(silent, 2)
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        try:
            self.room.reload(name, self.room.source(name)[0])
        except Exception:  # noqa: BLE001  (a changed module that can't be imported is caught by any test)
            return 1
        for number, (item, after) in enumerate(_followed(tests)):
            if any(report.failed for report in runtestprotocol(item, nextitem=after, log=False)):
                os.write(write, str(number).encode())
                return 1
        return 0


def _followed(tests: list[pytest.Item]) -> Iterator[tuple[pytest.Item, pytest.Item | None]]:
    yield from zip(tests, [*tests[1:], None], strict=True)


def _counted(count: Counter[str]) -> str:
    told = ", ".join(f"{fate} {count[fate]}" for fate in ("caught", "hung", "equivalent", "survived"))
    return f"planted {sum(count.values())}, {told}"


def main(modules: list[str]) -> int:
    """Plant in these modules; 0 when nothing survived that isn't known to be equivalent."""
    settings.register_profile(
        "planting", max_examples=20, deadline=None, database=None, derandomize=True,
        phases=[Phase.explicit, Phase.generate], suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    settings.load_profile("planting")
    os.chdir(ROOT)
    sys.path.insert(0, str(ROOT))
    coverage = Coverage(data_file=None, source=[str(ROOT / "jobtrack" / "shopmath")])
    coverage.start()
    traced = Traced(coverage, modules)
    options = [
        "-o",
        "addopts=",
        "-s",
        "--assert=plain",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:cov",
        "-p",
        "no:terminal",
    ]
    status = pytest.main([*options, str(TESTS)], plugins=[traced])
    return 1 if status or traced.failed or traced.survived else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
