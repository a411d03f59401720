"""The marker `quick`: every test but those of the functions in `tests/slow.txt`; `--note-slow` writes that list.

A function stands in the list where its tests together took longer than half a second, measured on two busy cores.
"""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest

SLOW = Path(__file__).parents[1] / "slow.txt"
SECONDS = 0.5


def function_of(nodeid: str) -> str:
    """A test's function, as it stands in the list: its file and its name."""
    return nodeid.partition("[")[0]


def slow() -> set[str]:
    """The functions in the list."""
    return set(SLOW.read_text(encoding="utf-8").split())


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--note-slow`."""
    parser.addoption("--note-slow", action="store_true", help="write what took long into tests/slow.txt")


def pytest_configure(config: pytest.Config) -> None:
    """Measure where that is wanted; with several workers in the process that hears of them all."""
    if config.getoption("note_slow") and not hasattr(config, "workerinput"):
        config.pluginmanager.register(Stopwatch())


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what is quick, before it is asked who bears the marker."""
    listed = slow()
    for item in items:
        long = item.get_closest_marker("whole") or item.get_closest_marker("corpus")
        if not long and function_of(item.nodeid) not in listed:
            item.add_marker("quick")


class Stopwatch:
    """A plugin that adds up how long each function's tests took, and brings the list up to date at the end."""

    def __init__(self) -> None:
        self.seconds = defaultdict[str, float](float)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Making ready and clearing away count too."""
        self.seconds[function_of(report.nodeid)] += report.duration

    def pytest_sessionfinish(self) -> None:
        """Those that weren't run stay as they were listed."""
        took_long = {name for name, seconds in self.seconds.items() if seconds > SECONDS}
        SLOW.write_text(
            "".join(f"{name}\n" for name in sorted(slow() - set(self.seconds) | took_long)), encoding="utf-8"
        )
