"""Between a number's Enter and its entry: was it meant, and was it measured again or the one before typed wrong."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.parts.step import asking_twice
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, Job
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import seen, type_in

OnJobs = Callable[[str], JobApp]
SPACING = ("pin-spacing.donor", "spacing")


def job_of(app: JobApp) -> Job:
    """The job as the file says, read anew."""
    assert app.file is not None
    return JobFile(app.file.path).job


def standing(app: JobApp, step: str, name: str) -> ReadingAct | None:
    """The reading that counts, from the file."""
    return job_of(app).places.reading(step, name).reading


def words(app: JobApp) -> str:
    """What stands on the screen, in one line."""
    return " ".join(seen(app).split())


def field(app: JobApp) -> str:
    """What stands in the field; an empty text where none is open."""
    assert isinstance(app.screen, StepScreen)
    return app.screen.entry.text if app.screen.entry.asking is not None else ""


async def typed_over(pilot: Pilot[int], app: JobApp, step: str, text: str) -> None:
    """A number typed and entered at the first line of a step."""
    assert isinstance(app.screen, StepScreen)
    app.screen.go(step)
    if app.screen.item is None:
        await pilot.press("down")
    await type_in(pilot, text)


@pytest.mark.parametrize(
    ("key", "typed", "value"),
    [("y", "38 in", 965.2), ("*", "38 in", 965.2), ("n", "38", 38), ("/", "38", 38)],
)
async def test_one_key_takes_what_was_meant_another_what_was_typed(
    key: str, typed: str, value: float, on_job: OnJobs
) -> None:
    """38 where 1012 mm stood: yes takes 38 in, no takes 38 mm, on the letters and on the number pad."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "pin-spacing.donor", "38")
        assert "Was 38 in = 965.2 mm meant?" in words(app)
        assert "NOT YET RECORDED" in words(app)
        await pilot.press("enter")
        assert "Was 38 in = 965.2 mm meant?" in words(app)
        await pilot.press(key)
        assert "Measured again, or was the number before typed wrong?" in words(app)
        await pilot.press("enter")
        act = standing(app, *SPACING)
        assert act is not None
        assert (act.typed, act.value, act.mistyped) == (typed, value, False)


async def test_a_factor_of_ten_is_asked_about(on_job: OnJobs) -> None:
    """10120 for 1012: yes takes 1012."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "pin-spacing.donor", "10120")
        await pilot.press("y", "enter")
        act = standing(app, *SPACING)
        assert act is not None
        assert (act.typed, act.value) == ("1012 mm", 1012)


async def test_escape_goes_back_to_the_number_with_its_text(on_job: OnJobs) -> None:
    """From either question; another letter too, and nothing is recorded."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        before = len(job_of(app).view.entries)
        await typed_over(pilot, app, "pin-spacing.donor", "38")
        for key in ("escape", "m", "f"):
            await pilot.press(key)
            assert field(app) == "38"
            await pilot.press("enter")
        await pilot.press("n", "escape")
        assert field(app) == "38"
        assert len(job_of(app).view.entries) == before


async def test_a_number_begins_it_anew(on_job: OnJobs) -> None:
    """The digits typed at the question are a new number, not the old one's."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "pin-spacing.donor", "38")
        await pilot.press(*"1013")
        assert field(app) == "1013"
        await pilot.press("enter", "enter")
        assert job_of(app).now.reading_value(*SPACING) == 1013


async def test_what_is_beyond_any_vehicle_is_taken_only_as_typed(on_job: OnJobs) -> None:
    """9999999 mm: nothing likely was meant; no goes back, yes records it, and it is far outside."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "cut.right", "9999999")
        assert "Is it typed right?" in words(app)
        await pilot.press("n")
        assert field(app) == "9999999"
        await pilot.press("enter", "y")
        act = standing(app, "cut.right", "wall-loss")
        assert act is not None
        assert act.value == 9999999
        assert "far outside: " in words(app)


async def test_first_measurement_in_its_limits_is_one_enter(on_job: OnJobs) -> None:
    """Nothing is asked where nothing is odd and nothing stands there."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "cut.right", "0.3")
        act = standing(app, "cut.right", "wall-loss")
        assert act is not None
        assert act.value == 0.3


async def test_typed_wrong_before_is_told_from_measured_again(on_job: OnJobs) -> None:
    """t says that the number before was typed wrong: so it stands in the file, and is said back."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "mark.left", "23.1")
        assert "It has 23.2 mm, by Hob Tansley" in words(app)
        assert "Now: 23.1 mm." in words(app)
        assert "Recording it unsettles nothing." in words(app)
        await pilot.press("t")
        act = standing(app, "mark.left", "moved")
        assert act is not None
        assert (act.typed, act.mistyped) == ("23.1", True)
        assert "The number before was typed wrong." in words(app)


async def test_what_it_unsettles_is_said_before_it_is_recorded(on_job: OnJobs) -> None:
    """Which step is to be looked at again, and why; Escape leaves all as it was, Enter records it as measured again."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await typed_over(pilot, app, "mark.left", "21")
        assert "Recording it: Mark the new place (left): look again:" in words(app)
        assert job_of(app).state("mark.left") == FINISHED
        await pilot.press("escape", "escape")
        assert job_of(app).state("mark.left") == FINISHED
        await type_in(pilot, "21")
        await pilot.press("enter")
        act = standing(app, "mark.left", "moved")
        assert act is not None
        assert (act.typed, act.mistyped) == ("21", False)
        assert job_of(app).state("mark.left") == LOOK_AGAIN


async def test_an_enter_tapped_twice_answers_nothing(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second tap of the number's own Enter isn't *measured again*; an Enter pressed later is."""
    monkeypatch.setattr(asking_twice, "SAME_PRESS", 60.0)
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        before = len(job_of(app).view.entries)
        await typed_over(pilot, app, "mark.left", "23.1")
        await pilot.press("enter", "enter")
        assert "Measured again, or was the number before typed wrong?" in words(app)
        assert len(job_of(app).view.entries) == before
        monkeypatch.setattr(asking_twice, "SAME_PRESS", 0.0)
        await pilot.press("enter")
        assert len(job_of(app).view.entries) == before + 1


async def test_keys_typed_ahead_answer_no_question(on_job: OnJobs) -> None:
    """Enter and y in one go with the number: the question stands, and nothing is recorded."""
    from tests.support.typist import Burst, Typist

    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        assert isinstance(app.screen, StepScreen)
        app.screen.go("pin-spacing.donor")
        await pilot.press("down")
        typist = Typist(pilot)
        typist.known = before = len(job_of(app).view.entries)
        await typist.type(Burst((*"38", "enter", "y", "enter", "t")))
        assert "Was 38 in = 965.2 mm meant?" in words(app)
        assert len(job_of(app).view.entries) == before
