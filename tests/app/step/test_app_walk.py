"""A whole stage through the app, and the same state read again from the file."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import fill, seen, type_in

RIGHT_PERCH: tuple[tuple[str, list[str], int, bool], ...] = (
    ("mark.right", [], 0, True),
    ("cut.right", ["0.3"], 2, False),
    ("tack.right", ["3/64 in", "2.1", "2 1/4 deg", "278.6", "2.2"], 1, True),
    ("weld.right", ["75 °F", "5.5"], 2, False),
    ("cold.right", ["0.6", "278.9"], 2, True),
)
"""The right perch: the numbers as typed, how many checks are answered yes, whether it has a hold."""


async def test_perch_stage_through_the_app(on_job: Callable[[str], JobApp]) -> None:
    """The right perch from its mark to the cold look, all by keys, stands in the file as on the screen."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        for step, numbers, checks, held in RIGHT_PERCH:
            screen = app.screen
            assert isinstance(screen, StepScreen)
            assert screen.step == step
            for number in numbers:
                await type_in(pilot, number)
                assert "Recorded 09:41:" in seen(app), seen(app)
            for _ in range(checks):
                await pilot.press("y", "enter")
            await pilot.press("f")
            if "Press Enter to finish it" in seen(app):
                await pilot.press("enter")
            if held:
                await pilot.press("r")
                await fill(pilot, "Mara Quill")
                await pilot.press("r")
            await pilot.press("g")
            await pilot.pause()
        shown = app.file.job if app.file else None
        assert shown is not None
        assert isinstance(app.screen, StepScreen)
        assert app.screen.step == "housing"
    job = JobFile(app.file.path).job if app.file else shown
    stage = [planned.id for planned in job.plan.in_stage("perches")]
    assert [job.state(step) for step in stage] == ["finished"] * 10
    assert [job.state(step) for step in job.steps] == [shown.state(step) for step in shown.steps]
    assert [one.name for one in job.open_conditions] == [one.name for one in shown.open_conditions]
    assert {step: step_problems(job, step) for step in stage} == {
        step: step_problems(shown, step) for step in stage
    }
    assert job.now.verdict("tack.right", "gap") == "within"
    assert "housing" in job.next_steps
