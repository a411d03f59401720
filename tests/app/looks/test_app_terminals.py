"""Terminals of sixteen colours, of none, and where none are wanted: each look can be read there, in a real terminal."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pyte
import pytest

from jobtrack.store.machine.settings import LOOKS
from tests.support.contrast import AA, CONSOLE, NAMES, RGB, XTERM, contrast
from tests.support.invented_jobs import half_done
from tests.support.terminal import Bench

RUN = """
import sys
from pathlib import Path
from jobtrack.app.main import run_job
from jobtrack.store.machine.settings import Settings
sys.exit(run_job(Path(sys.argv[1]), 'Hob', Settings(looks={look!r})))
"""
KINDS = {
    "console": {"TERM": "linux"}, "sixteen": {"TERM": "xterm"}, "no-colours": {"TERM": "vt100"},
    "none-wanted": {"TERM": "xterm-256color", "NO_COLOR": "1"},
    "none-wanted-of-many": {"TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "1"},
}  # fmt: skip
NEVER_COLOURED = ("no-colours", "none-wanted", "none-wanted-of-many")
OWN = "default"
pytestmark = pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal as POSIX has them")


@pytest.fixture
def benches(folder: Path) -> Iterator[list[Bench]]:
    """Each is ended at last."""
    opened: list[Bench] = []
    yield opened
    for bench in opened:
        bench.press("\x1b")
        bench.child.close(force=True)


def opened(benches: list[Bench], folder: Path, kind: str, look: str) -> Bench:
    job = half_done(folder / "half.job.toml").path
    benches.append(Bench(job, "Mark the new place", RUN.format(look=look), {"COLORTERM": ""} | KINDS[kind]))
    return benches[-1]


def cells(bench: Bench) -> list[pyte.screens.Char]:
    """Every cell with something written in it."""
    rows = range(bench.screen.lines)
    found = [bench.screen.buffer[row][column] for row in rows for column in range(bench.screen.columns)]
    return [one for one in found if one.data.strip()]


def shades(name: str, palette: tuple[RGB, ...], bold: bool) -> list[RGB]:
    """What a colour may be: the bright of its kind where a terminal paints bold so."""
    if name.startswith("bright"):
        return [palette[8 + NAMES.index(name.removeprefix("bright"))]]
    number = NAMES.index(name)
    return [palette[number], *([palette[8 + number]] if bold else [])]


def worst(one: pyte.screens.Char, palette: tuple[RGB, ...]) -> float:
    """The least contrast that a cell can have with this palette."""
    inks = shades(one.fg, palette, one.bold and not one.reverse)
    return min(contrast(ink, ground) for ink in inks for ground in shades(one.bg, palette, bold=False))


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("kind", KINDS)
def test_each_look_can_be_read(benches: list[Bench], folder: Path, kind: str, look: str) -> None:
    """Ink and ground are both the terminal's own, or a pair that the usual palettes keep apart."""
    bench = opened(benches, folder, kind, look)
    bench.press("z")
    found = cells(bench)
    assert "DANGER" in bench.shown
    bench.press("2")
    found += cells(bench)
    for one in found:
        assert (one.fg == OWN) == (one.bg == OWN), one
        if one.fg != OWN:
            assert kind not in NEVER_COLOURED, one
            assert min(worst(one, XTERM), worst(one, CONSOLE)) >= AA, one


@pytest.mark.parametrize("kind", NEVER_COLOURED)
def test_without_colours_the_panels_and_the_cursor_are_seen(
    benches: list[Bench], folder: Path, kind: str
) -> None:
    """A signal word stands in reverse and bold; so does the cell where the next character goes."""
    bench = opened(benches, folder, kind, "dark")
    bench.press("z")
    panel = [one for one in cells(bench) if one.reverse]
    assert {"D", "A", "N", "G", "E", "R"} <= {one.data for one in panel}
    assert all(one.bold for one in panel)
    bench.press("2")
    row = bench.screen.display.index(next(row for row in bench.screen.display if row.strip() == "> 2"))
    assert bench.screen.buffer[row][bench.screen.display[row].index("2") + 1].reverse


CODE = "import os; from jobtrack.app.looks.few_colours import colours; print(colours(os.environ))"


@pytest.mark.parametrize(
    ("environment", "count"),
    [({"TERM": "linux"}, 16), ({"TERM": "xterm"}, 16), ({"TERM": "vt100"}, 0), ({"TERM": "xterm-256color"}, 256),
     ({"TERM": "xterm-256color", "NO_COLOR": "1"}, 0), ({"TERM": "xterm-256color", "NO_COLOR": ""}, 256),
     ({"TERM": "xterm", "COLORTERM": "truecolor"}, 256), ({"TERM": "no-such-terminal"}, 16), ({"TERM": ""}, 16)],
)  # fmt: skip
def test_how_many_colours_there_are(environment: dict[str, str], count: int) -> None:
    """By NO_COLOR where it isn't empty (no-color.org), by COLORTERM, by the system's list of terminals."""
    bare = {
        name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLORTERM", "TERM")
    }
    done = subprocess.run(
        [sys.executable, "-c", CODE], env=bare | environment, capture_output=True, text=True, check=True
    )
    assert int(done.stdout) == count
