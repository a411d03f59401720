"""Pictures of the screens at 80x24, and of the step at 120x40, held as they were when they were looked at."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.store.machine.practice import SAMPLE

OnJobs = Callable[[str], JobApp]
Compare = Callable[..., bool]


def keys(*pressed: str, step: str | None = None) -> Callable[[Pilot[Any]], Any]:
    """What is done before the picture: perhaps another step, then some keys."""

    async def before(pilot: Pilot[Any]) -> None:
        await pilot.pause()
        if step is not None and isinstance(pilot.app.screen, StepScreen):
            pilot.app.screen.go(step)
        await pilot.press(*pressed)
        await pilot.pause()

    return before


PICTURES: dict[str, tuple[str | None, list[str]]] = {
    "step-in-hand": (None, []),
    "step-to-come-with-its-hazards": ("cut.right", []),
    "reading-chosen": ("mark.right", ["down", "up"]),
    "number-being-typed": ("tack.right", [*"0.3 mm"]),
    "recorded-and-what-it-opens": ("tack.right", [*"0.3 mm", "enter"]),
    "check-chosen": ("cut.right", ["down"]),
    "outside-and-bad-input": ("cut.right", [*"0.7", "enter", "up", *"3 kg", "enter"]),
    "both-vehicles-side-by-side": ("side-by-side", []),
    "finish-closes-second-key": (None, ["f"]),
    "release-asks-the-name": (None, ["r"]),
    "hold-point-on-the-page": ("mark.left", ["end"]),
    "words": (None, ["exclamation_mark"]),
    "choose-a-condition": (None, ["c"]),
    "all-keys": (None, ["question_mark"]),
    "outline": (None, ["o"]),
    "page-of-the-job": (None, ["j"]),
    "what-is-known": (None, ["j", "k", "down"]),
    "recorded-here": (None, ["end"]),
    "end-the-job": (None, ["o", "e"]),
    "hand-over": (None, ["h"]),
}
"""By name: the step turned to, and the keys pressed in the half-done job."""


@pytest.mark.parametrize("name", PICTURES)
def test_half_done_job(name: str, on_job: OnJobs, snap_compare: Compare) -> None:
    """The half-done job's screens look as they did when they were looked at, at 80x24."""
    step, pressed = PICTURES[name]
    assert snap_compare(on_job("half-done"), run_before=keys(*pressed, step=step), terminal_size=(80, 24))


@pytest.mark.parametrize(
    "pressed", [["escape", "up"], ["escape", "up", "v", *"23.6"]], ids=["reading-chosen", "far"]
)
def test_sample(pressed: list[str], folder: Path, snap_compare: Compare) -> None:
    """The half-done sample that travels with the program, on its last step."""
    job = JobFile(Path(shutil.copy(shipped("sample_jobs") / SAMPLE, folder)))
    app = JobApp(folder, "Hob Tansley", job)
    assert snap_compare(app, run_before=keys(*pressed), terminal_size=(80, 24))


@pytest.mark.parametrize("step", ["mark.right", "side-by-side"])
def test_wide(step: str, on_job: OnJobs, snap_compare: Compare) -> None:
    """The step looks as it did at 120x40."""
    assert snap_compare(on_job("half-done"), run_before=keys(step=step), terminal_size=(120, 40))


def test_taking_over(on_job: OnJobs, snap_compare: Compare) -> None:
    """A job that was handed over opens on what is open."""
    assert snap_compare(on_job("handed-over"), run_before=keys(), terminal_size=(80, 24))


def test_no_condition(on_job: OnJobs, snap_compare: Compare) -> None:
    """Where nothing is recorded as open the honest sentence stands on top."""
    assert snap_compare(on_job("surveyed"), run_before=keys(), terminal_size=(80, 24))


def test_jobs(make: Callable[[str], JobFile], on_folder: Callable[[], JobApp], snap_compare: Compare) -> None:
    """The jobs of a folder, the half-finished with what is open in them."""
    make("half-done")
    make("surveyed")
    assert snap_compare(on_folder(), run_before=keys(), terminal_size=(80, 24))


@pytest.mark.parametrize(
    "pressed",
    [["enter"], ["enter", *"Hay", "tab"]],
    ids=["title", "name"],
)
def test_begin(pressed: list[str], on_folder: Callable[[], JobApp], snap_compare: Compare) -> None:
    """Beginning a job: its title with the program's first word, and the name of who begins it."""
    assert snap_compare(on_folder(), run_before=keys(*pressed), terminal_size=(80, 24))


@pytest.mark.parametrize("pressed", [["w"], ["w", "enter"]], ids=["before", "first-thing"])
def test_first_walk(pressed: list[str], on_folder: Callable[[], JobApp], snap_compare: Compare) -> None:
    """The first walk: what there is to press, and the step with the row that says what comes next."""
    assert snap_compare(on_folder(), run_before=keys(*pressed), terminal_size=(80, 24))
