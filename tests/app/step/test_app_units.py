"""Metric or US units first, at a key: what is shown changes, what is typed and recorded doesn't."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import seen, type_in

OnJobs = Callable[[str], JobApp]


def step_of(app: JobApp) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


def words(app: JobApp) -> str:
    return " ".join(seen(app).replace("─", " ").split())


async def test_comma_turns_what_is_wanted_and_measured(on_job: OnJobs) -> None:
    """Wanted 23.4 ± 1 mm and 23.1 mm measured: drawn in to 0.921 ± 0.039 in, 0.909 in; the key again goes back."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).choose(0)
        await pilot.pause()
        await type_in(pilot, "23.1")
        await pilot.press("enter")  # measured again
        assert "within: 23.1 mm, wanted 23.4 ± 1 mm" in words(app)
        await pilot.press("comma")
        assert "Shown now: US units first" in seen(app)
        assert "0.921 ± 0.039 in" in words(app)
        assert "0.909 in" in words(app)
        await pilot.press("comma")
        assert "23.4 ± 1 mm" in words(app)
        assert "0.921" not in seen(app)


async def test_a_number_alone_stays_in_the_unit_beside_the_name(on_job: OnJobs) -> None:
    """With US units shown 23.1 is 23.1 mm, as the line says, and is recorded so; inches have to be typed."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).choose(0)
        await pilot.press("comma")
        assert "(mm)" in seen(app)
        assert "a number alone is taken as mm" in words(app)
        await pilot.press(*"23.1")
        await pilot.pause()
        assert "= 0.909 in = 23.1 mm; within (0.921 ± 0.039 in) NOT YET RECORDED" in words(app)
        await pilot.press("enter", "enter")  # measured again
        assert "within: 0.909 in, wanted 0.921 ± 0.039 in" in words(app)
        assert app.file is not None
        reading = JobFile(app.file.path).job.places.reading("mark.right", "moved").reading
        assert reading is not None
        assert (reading.value, reading.typed, reading.unit) == (23.1, "23.1", "mm")


async def test_what_was_typed_in_inches_stays_as_typed(on_job: OnJobs) -> None:
    """15/16 in for about 23.8 mm is shown as typed where US units come first, beside its millimetres in brackets."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).choose(0)
        await pilot.pause()
        await type_in(pilot, "15/16 in")
        await pilot.press("enter")  # measured again
        await pilot.press("comma")
        assert "15/16 in (23.8 mm)" in words(app)


async def test_a_comma_in_a_field_is_a_decimal_comma(on_job: OnJobs) -> None:
    """While a number is typed the key is text."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press(*"23", "comma", "1")
        assert step_of(app).entry.text == "23,1"
        assert app.session.units == "metric"


async def test_what_is_wrong_is_said_in_the_units_that_are_shown(on_job: OnJobs) -> None:
    """0.7 mm where at most 0.5 mm are wanted: 0.028 in beside 0.019 in, rounded down; the record stays as typed."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 70)) as pilot:
        step_of(app).go("cut.right")
        await pilot.pause()
        await type_in(pilot, "0.7")
        assert "0.7 mm is outside (at most 0.5 mm)" in words(app)
        await pilot.press("comma")
        assert "0.028 in is outside (at most 0.019 in)" in words(app)
        assert "0.7 mm is outside" not in words(app)
        assert app.file is not None
        reading = JobFile(app.file.path).job.places.reading("cut.right", "wall-loss").reading
        assert reading is not None
        assert reading.typed == "0.7"
