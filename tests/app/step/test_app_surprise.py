"""A surprise by single keys: what was met, on what, whether it endangers somebody, and what follows."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual import events
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.parts.taking_keys import SAME_PRESS
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.surprise import SurpriseScreen
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.doing import BuyingAct
from jobtrack.job.acts.said import MET, MetAct, NoteAct
from jobtrack.job.acts.steps import AddedStepAct
from jobtrack.pages.asking.surprise import LETTERS
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import fill, seen

OnJobs = Callable[[str], JobApp]


def written(app: JobApp, kind: type[Act]) -> list[Act]:
    """The acts of a kind that stand in the file, read anew."""
    assert app.file is not None
    return [done.act for done in JobFile(app.file.path).job.view.of_kind(kind)]


def entries(app: JobApp) -> int:
    """How many entries the file has."""
    assert app.file is not None
    return len(JobFile(app.file.path).job.view.entries)


def test_a_letter_for_each_that_can_be_met() -> None:
    """Every kind of surprise has its own letter, and none is the key that opens the page."""
    assert sorted(LETTERS.values()) == sorted(MET)
    assert "s" not in LETTERS


async def test_what_endangers_nobody_takes_five_keys_and_the_words(on_job: OnJobs) -> None:
    """s, e for seized, the words, Enter, n: recorded in the step, and said back there."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step = app.screen.step if isinstance(app.screen, StepScreen) else ""
        await pilot.press("s", "e")
        await fill(pilot, "drain plug")
        assert "Seized: drain plug" in seen(app)
        assert "Does it endanger somebody?" in seen(app)
        before = entries(app)
        await pilot.press("n")
        assert "Recorded 09:41: met: seized, drain plug." in seen(app)
        assert written(app, MetAct) == [MetAct("seized", "drain plug")]
        assert entries(app) == before + 1
        await pilot.press("enter")
        assert isinstance(app.screen, StepScreen)
        assert "met: seized, drain plug" in seen(app)
        assert app.file is not None
        assert JobFile(app.file.path).job.view.of_kind(MetAct)[0].entry.step == step


async def test_what_endangers_somebody_is_open_in_their_words(on_job: OnJobs) -> None:
    """y asks for the words, which stand there from what was met; both are in one entry."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("s", "c")
        await fill(pilot, "left spring hanger")
        await pilot.press("y")
        assert app.screen.query_one(Input).value == "Cracked: left spring hanger"
        before = entries(app)
        await fill(pilot, "Left spring hanger is cracked through")
        assert entries(app) == before + 1
        assert written(app, MetAct) == [MetAct("cracked", "left spring hanger")]
        assert OpensAct("Left spring hanger is cracked through") in written(app, OpensAct)
        assert "Left spring hanger is cracked through" in seen(app)


async def test_a_part_is_chosen_by_its_number(on_job: OnJobs) -> None:
    """The parts of the job stand there with numbers; a number alone is the part's name."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 30)) as pilot:
        await pilot.press("s", "w")
        assert "1: " in seen(app)
        assert isinstance(app.screen, SurpriseScreen)
        first = app.screen.names[0]
        await fill(pilot, "1")
        await pilot.press("n")
        assert written(app, MetAct) == [MetAct("worn", first)]


@pytest.mark.parametrize(
    "keys",
    [["s", "s"], ["s", "enter", "n", "y"], ["s", "e", "enter", "enter"], ["s", "e", "escape", "n"], ["s", "5", "n"]],
    ids=["s twice", "Enter too early", "Enter twice", "Escape", "a number"],
)  # fmt: skip
async def test_slips_record_nothing(keys: list[str], on_job: OnJobs) -> None:
    """Keys too early or too often record nothing."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        before = entries(app)
        await pilot.press(*keys)
        assert isinstance(app.screen, SurpriseScreen)
        assert entries(app) == before


async def test_a_letter_tapped_twice_is_one_letter(on_job: OnJobs) -> None:
    """The second of a double tap goes into no field; the same letter later does."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("s", "e")
        screen = app.screen
        assert isinstance(screen, SurpriseScreen)
        for late in (SAME_PRESS / 2, SAME_PRESS * 2):
            key = events.Key("e", "e")
            key.time = screen.chosen_at + late
            assert await screen.take_key(key) is (late < SAME_PRESS)


async def test_what_follows_is_recorded_by_a_key_each(on_job: OnJobs) -> None:
    """After it is recorded: a step more before this one, and a note; then back."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await met_something(pilot)
        await pilot.press("f")
        await fill(pilot, "Free the drain plug")
        await pilot.press("t")
        await fill(pilot, "heat didn't help")
        await pilot.press("escape")
        assert isinstance(app.screen, StepScreen)
        assert written(app, AddedStepAct) == [
            AddedStepAct("free-the-drain-plug", "Free the drain plug", before=app.screen.step)
        ]
        assert NoteAct("heat didn't help") in written(app, NoteAct)


async def test_a_part_is_needed_by_its_number_or_by_any_name(on_job: OnJobs) -> None:
    """A number is the part of the job behind it; a name that nobody planned is asked for as it is typed."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await met_something(pilot)
        assert isinstance(app.screen, SurpriseScreen)
        for typed in ("1", "drain plug, M18"):
            await pilot.press("p")
            assert "By number, or any other part: 1 " in " ".join(seen(app).split())
            await fill(pilot, typed)
        asked = [act for act in written(app, BuyingAct) if isinstance(act, BuyingAct)]
        assert [act.buying for act in asked] == ["asked", "asked"]
        assert asked[0].part in part_ids(app)
        assert asked[1].part == "drain plug, M18"


def part_ids(app: JobApp) -> set[str]:
    """The parts that the template of the job plans."""
    assert app.file is not None
    job = app.file.job
    return {*job.plan.template.part, *(name for one in job.steps.values() for name in one.step.part)}


async def met_something(pilot: Pilot[int]) -> None:
    """A seized drain plug, recorded."""
    await pilot.press("s", "e")
    await fill(pilot, "drain plug")
    await pilot.press("n")


async def test_escape_goes_back_one_question(on_job: OnJobs) -> None:
    """From the danger to the words, which still stand there; from them to the letters; from those to the step."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("s", "m")
        await fill(pilot, "clip")
        await pilot.press("escape")
        assert app.screen.query_one(Input).value == "clip"
        await pilot.press("escape")
        assert "What did you meet?" in seen(app)
        await pilot.press("escape")
        assert isinstance(app.screen, StepScreen)
