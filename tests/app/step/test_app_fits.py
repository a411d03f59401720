"""The page fits at 80 by 24, and with more room: most rows are the step's, what is asked and the keys are whole."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.parts.step import asked
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.values import ReadingAct
from jobtrack.pages.step.items import READING, Item
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from tests.support.exchange import HALF_DONE, SAMPLES
from tests.support.invented_jobs import seen
from tests.support.walker import run_together

SHIPPED = sorted(shipped("sample_jobs").glob("*.job.toml"))
SIZES = {"80x24": (80, 24), "120x40": (120, 40)}
STEPS_ROWS = {24: 17, 40: 30}
"""Of a terminal's rows, what the step has at least: the page and the hazard messages that stay above it.

With more room all keys stand in their rows, so that more than seven go to what isn't the step's.
"""
NOTHING_OPEN = "No open condition is recorded."
"""What stands in the first row where none is; the sentence is never cut short, and takes two rows of 80 cells."""
SHOWN_BY = ("shows it", "press the space bar")
"""What a row of ours that is cut names: the key that shows the rest."""


@pytest.fixture
def copy(folder: Path) -> Callable[[Path], JobFile]:
    """A copy of a sample job, under a name that this machine hasn't seen."""

    def copied(path: Path) -> JobFile:
        return JobFile(Path(shutil.copy(path, folder)))

    return copied


@pytest.fixture
def values() -> dict[tuple[str, str], str]:
    """What is plausible for each reading: what a sample has, as it was typed."""
    jobs = [JobFile(path).job for path in (*SHIPPED, *SAMPLES)]
    found = ((done.entry.step, done.act) for job in jobs for done in job.view.of_kind(ReadingAct))
    return {
        (step or "", act.reading): _first(act.typed) for step, act in found if isinstance(act, ReadingAct)
    }


def _first(typed: str | tuple[str, ...] | None) -> str:
    """What was typed; of repeats the first."""
    return typed[0] if isinstance(typed, tuple) else str(typed)


def fits(screen: StepScreen, where: str) -> list[str]:
    """What doesn't fit, each with where it was."""
    pinned, rows = (
        screen.query_one("#head").size.height - (2 if NOTHING_OPEN in seen(screen.app).split("\n")[0] else 1),
        seen(screen.app).split("\n"),
    )
    own = screen.page.size.height + pinned + (NOTHING_OPEN in rows[0])
    painted = run_together(" ".join(rows))
    least = STEPS_ROWS[screen.app.size.height]
    found = [f"{own} rows are the step's"] if own < least else []
    found += [f"not whole: {text}" for text in asks(screen) if run_together(text) not in painted]
    found += [f"cut: {row}" for row in rows if "…" in row and not any(by in row for by in SHOWN_BY)]
    return [f"{where}: {text}" for text in found]


def asks(screen: StepScreen) -> list[str]:
    """What has to stand on the screen whole: what is asked now with all that is said about it, and the row of keys."""
    entry = screen.entry
    if entry.waiting is not None:
        asked_now = [*entry.waiting.about, entry.waiting.hint]
    else:
        label = entry.asking.label if entry.asking is not None else asked.label(screen.at, screen.room)
        asked_now = [" ".join(one.plain for one in label), "" if entry.asking is not None else entry.hint]
    return [*asked_now, *screen.key_rows()]


async def look(
    pilot: Pilot[int], screen: StepScreen, step: str, values: dict[tuple[str, str], str]
) -> list[str]:
    """One step: idle, each line chosen, a number typed for each that takes one, its hold about to be released."""
    screen.go(step)
    await pilot.pause()
    found = fits(screen, f"{step}, idle")
    for number, item in enumerate(screen.at.items):
        screen.choose(number)
        await pilot.pause()
        found += fits(screen, f"{step}, {item.label}")
        if item.kind == READING:
            found += await typing(pilot, screen, item, values.get((step, item.name), "0"))
    if screen.at.job.hold(step) is not None:
        found += await releasing(pilot, screen)
    return found


async def typing(pilot: Pilot[int], screen: StepScreen, item: Item, text: str) -> list[str]:
    """A number being typed; then given up."""
    await pilot.press(text[0] if text[0] in "0123456789.-~<>" else "w")
    screen.entry.field.value = text
    await pilot.pause()
    found = fits(screen, f"{screen.step}, {item.label}, typing {text}")
    await pilot.press("escape")
    return found


async def releasing(pilot: Pilot[int], screen: StepScreen) -> list[str]:
    """The name asked, then the second key; then given up."""
    found = []
    for key in ("r", "enter"):
        await pilot.press(key)
        await pilot.pause()
        assert screen.entry.busy
        found += fits(screen, f"{screen.step}, releasing, {key}")
    await pilot.press("escape")
    return found


EACH = [
    pytest.param(HALF_DONE, "80x24", 5, id="every-fifth"),
    *(
        pytest.param(path, size, 1, marks=pytest.mark.whole, id=f"{path.parent.name}-{path.name}-{size}")
        for path in (*SAMPLES, *SHIPPED)
        for size in SIZES
    ),
]


@pytest.mark.parametrize(("sample", "size", "each"), EACH)
async def test_every_step_fits(
    sample: Path, size: str, each: int, copy: Callable[[Path], JobFile], values: dict[tuple[str, str], str]
) -> None:
    """Every step of a sample: most rows are its own, what is asked and the keys are whole, nothing is cut."""
    file = copy(sample)
    app = JobApp(file.path.parent, "Hob Tansley", file)
    found = []
    async with app.run_test(size=SIZES[size]) as pilot:
        await pilot.pause()
        await pilot.press("enter" if file.job.ended else "escape")
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, StepScreen)
        for step in list(screen.at.job.steps)[::each]:
            found += await look(pilot, screen, step, values)
    assert not found, "\n".join(found)
