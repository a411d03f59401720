"""Proofreading a template of 5,000 steps beside one of 500: `PYTHONPATH=. python tests/bench/proofreading.py [STEPS]`.

Of each shape a template of a tenth of the steps and one of all of them, written to a file and proofread from there,
all in one run; the shorter one's time is the least of several. Steps are counted spread out over their sets.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from time import process_time

from jobtrack.template.proofread import check
from tests.support.long_templates import SHAPES

STEPS = 5000
TENTHS = 10
ROUNDS = 5
"""Times that the shorter one is proofread; the longer one twice."""


def seconds(path: Path, rounds: int) -> tuple[float, int]:
    """The least time that it takes, and how much is found."""
    times = []
    for _ in range(rounds):
        begun = process_time()
        found = len(check(path))
        times.append(process_time() - begun)
    return min(times), found


def measured(folder: Path, shape: Callable[[int], str], steps: int) -> Iterator[tuple[float, int]]:
    """The shorter one first, which warms up too."""
    for count, rounds in ((steps // TENTHS, ROUNDS), (steps, 2)):
        path = folder / f"{count}.toml"
        path.write_text(shape(count), "utf-8")
        yield seconds(path, rounds)


def main(steps: int) -> None:
    """Print a line for each shape."""
    with tempfile.TemporaryDirectory() as name:
        for what, shape in SHAPES.items():
            (short, few), (long, many) = measured(Path(name), shape, steps)
            print(
                f"{what}: {steps // TENTHS} steps {short * 1000:.0f} ms, {steps} steps {long * 1000:.0f} ms, "
                f"{long / short:.1f} times as long; found {few} and {many}"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else STEPS)
