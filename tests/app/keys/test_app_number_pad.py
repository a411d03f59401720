"""A whole stage without holds, worked through by the keys of a number pad alone, in a real terminal of 80 by 24."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from jobtrack.job.state.job import FINISHED
from jobtrack.store.file.writer import JobFile
from tests.support.terminal import Bench
from tests.support.typist import CHECKS, seat

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal as POSIX has them")

PAD = set("0123456789.+-*/\r")
TYPED = ("23.1", "0.4", "37-15/16", ".5", "-2", "2.5")
"""One after the other; a whole number and its fraction are parted by a minus, as the trade writes them."""
MEANT = "Was 37-15/16 in = 963.61 mm meant?"
"""What is asked of a fraction in a millimetre box; the yes of the pad takes it as inches."""


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    found = Bench(seat(folder / "seat.job.toml").path, "B O R E")
    yield found
    found.child.close(force=True)


def test_a_stage_by_number_pad_and_enter(bench: Bench) -> None:
    """Readings by digits and Enter, checks by * and Enter, finished by *, on to the next step by Enter."""
    pressed = ""

    def type_in(keys: str, until: str) -> None:
        nonlocal pressed
        pressed += keys
        bench.type(keys)
        bench.wait_for(until)

    for text, following in zip(TYPED, ("S T E P", "D E P T H", MEANT, "L I P", "R I D G E"), strict=False):
        type_in(f"{text}\r", following)
        if following == MEANT:
            type_in("*", "G A P")
    checks = list(CHECKS.values())
    type_in(f"{TYPED[-1]}\r", checks[0])
    for check, following in zip(checks, [*checks[1:], "Every line"], strict=True):
        type_in("*", f"{check.rstrip('?')}: yes.")
        type_in("\r", following)
    type_in("*", "Enter goes on to: Sweep the floor")
    type_in("\r", "Nothing is measured in this step.")
    type_in("*", "This step is finished.")
    assert set(pressed) <= PAD
    job = JobFile(bench.path).job
    assert [job.state(step) for step in job.steps] == [FINISHED, FINISHED]
    recorded = [text if text != "37-15/16" else "37-15/16 in" for text in TYPED]
    assert bench.readings() == list(
        zip(("bore", "step", "depth", "gap", "lip", "ridge"), recorded, strict=True)
    )
    assert bench.ticks() == [(name, True) for name in CHECKS]


def test_slash_says_no(bench: Bench) -> None:
    """/ at a check is no; inside a number it belongs to a fraction."""
    bench.to(CHECKS["clean"])
    bench.type("/")
    bench.holds(bench.ticks, [("clean", False)])
