"""Presses and the far view through a real terminal of 80 by 24, as a touch screen sends them (SGR mouse reports)."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from jobtrack.pages.far.large import large
from tests.support.terminal import Bench
from tests.support.typist import seat

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal as POSIX has them")


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    found = Bench(seat(folder / "seat.job.toml").path, "B O R E")
    yield found
    found.child.close(force=True)


def press(bench: Bench, words: str, below: int = 0) -> None:
    """Press and let go where these words stand."""
    bench.read()
    row, cell = next(
        (number, text.index(words)) for number, text in enumerate(bench.screen.display) if words in text
    )
    where = f"0;{cell + 2};{row + below + 1}"
    bench.child.send(f"\x1b[<{where}M\x1b[<{where}m")
    bench.read()


def test_a_check_is_answered_by_a_finger(bench: Bench) -> None:
    """A line is chosen by pressing it, and its key by its words."""
    press(bench, "Seat wiped clean?")
    bench.wait_for("y yes")
    press(bench, "y yes")
    bench.holds(bench.ticks, [("clean", True)])


def test_a_double_tap_on_a_block_does_one_thing(bench: Bench) -> None:
    """In the far view: yes twice in a blink answers one check, once."""
    bench.to("Seat wiped clean?")
    bench.press("v")
    press(bench, "│   yes", below=-1)
    press(bench, "│   yes", below=1)
    bench.holds(bench.ticks, [("clean", True)])
    bench.read(0.5)
    assert len(bench.acts()) == 1


def test_a_number_in_the_far_view_is_typed_large_and_recorded(bench: Bench) -> None:
    """v, the digits, a press on Enter's block."""
    bench.press("v")
    bench.type("23.1")
    rows = [row.rstrip() for row in large("23.1", 1)]
    assert any(rows[0].strip() in shown for shown in bench.screen.display)
    bench.wait_for("NOT YET RECORDED")
    press(bench, "Enter takes it")
    bench.holds(bench.readings, [("bore", "23.1")])
    bench.press("v")
    bench.wait_for("where it lies")


def test_the_wheel_turns_the_page(bench: Bench) -> None:
    """A notch down and one up, as a terminal reports them; nothing is recorded."""
    top = bench.screen.display[3]
    bench.child.send("\x1b[<65;10;8M")
    bench.read()
    assert bench.screen.display[3] != top
    bench.child.send("\x1b[<64;10;8M")
    bench.read()
    assert bench.acts() == []
