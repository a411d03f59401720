"""Handing over, taking over, and ending a job."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.job.handover import HandoverScreen
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.job.take_over import TakeOverScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.people import HandoverAct, TakenOverAct
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import fill, seen, type_in

OnJobs = Callable[[str], JobApp]


def again(app: JobApp) -> JobFile:
    assert app.file is not None
    return JobFile(app.file.path)


async def test_handing_over_takes_a_name_and_a_second_key(on_job: OnJobs) -> None:
    """The sheet is shown, a name is asked, and only the second h records."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("h")
        await pilot.pause()
        assert isinstance(app.screen, HandoverScreen)
        assert "Recorded as open" in seen(app)
        await pilot.press("h")
        await fill(pilot, "Ada Prosser")
        assert not again(app).job.view.of_kind(HandoverAct)
        await pilot.press("h")
        (done,) = again(app).job.view.of_kind(HandoverAct)
        assert done.act == HandoverAct("Ada Prosser")


async def test_waiting_handover_is_shown_at_opening(on_job: OnJobs) -> None:
    """A job with a handover that nobody took over opens on what is open, in hand and not to be begun."""
    app = on_job("handed-over")
    async with app.run_test(size=(100, 70)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, TakeOverScreen)
        text = " ".join(seen(app).split())
        assert "Handed over by Hob Tansley to Ada Prosser" in text
        assert "Open: NO PARKING BRAKE" in text
        assert "Mark the new place (right): in hand; at scribed, front edge not yet punched" in text
        assert "Don't begin: Cut the old perch off" in text


async def test_taking_over_with_a_reading_taken_again(make: Callable[[str], JobFile]) -> None:
    """The comer takes a reading again, reads to the end, types the name and a second i; both stand in one entry."""
    file = make("handed-over")
    app = JobApp(file.path.parent, None, file)
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        await pilot.press("m")
        await pilot.pause()
        await pilot.press("up", "enter")
        await pilot.pause()
        await type_in_open_field(pilot, "1011.5")
        assert not again(app).job.view.of_kind(TakenOverAct)
        await pilot.press("i")
        assert "goes on below" in seen(app)
        await pilot.press("end", "i")
        await fill(pilot, "Ada Prosser")
        assert "you are" not in seen(app)
        await pilot.press("i")
        await pilot.pause()
        job = again(app).job
        (done,) = job.view.of_kind(TakenOverAct)
        assert isinstance(done.act, TakenOverAct)
        assert done.act.reading is not None
        assert set(done.act.seen) == {one.name for one in job.open_conditions}
        assert done.entry.by == "Ada Prosser"
        assert isinstance(app.screen, StepScreen)
        assert app.session.by == "Ada Prosser"


async def test_somebody_else_takes_over_only_by_typing_their_name(on_job: OnJobs) -> None:
    """A job handed to one and taken over by another says so; Enter alone isn't enough there."""
    app = on_job("handed-over")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        await pilot.press("end", "i", "enter")
        assert "It was handed to Ada Prosser: type your own name." in seen(app)
        await fill(pilot, "Hob Tansley")
        assert "It was handed to Ada Prosser; you are Hob Tansley." in seen(app)
        assert not again(app).job.view.of_kind(TakenOverAct)
        await pilot.press("i")
        await pilot.pause()
        assert again(app).job.view.of_kind(TakenOverAct)


async def type_in_open_field(pilot: object, text: str) -> None:
    await fill(pilot, text)  # type: ignore[arg-type]


async def test_looking_only_records_nothing(on_job: OnJobs) -> None:
    """Escape looks without taking over; the handover waits on."""
    app = on_job("handed-over")
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, StepScreen)
        assert not again(app).job.view.of_kind(TakenOverAct)


async def test_closing_is_refused_with_what_is_left(on_job: OnJobs) -> None:
    """A job with something left shows what, and c closes nothing."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o", "e")
        await pilot.pause()
        assert "The job can't be closed yet." in seen(app)
        assert "Open: Vehicle on stands" in seen(app)
        await pilot.press("c")
        assert again(app).job.ended is None


async def test_stopping_wants_a_reason_a_name_and_a_second_key(on_job: OnJobs) -> None:
    """s, a reason, a name and a second s end the job as stopped, not finished."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o", "e", "s")
        await fill(pilot, " ")
        assert "with a reason" in seen(app)
        await fill(pilot, "crack beside the casting")
        await fill(pilot, "Hob Tansley")
        assert again(app).job.ended is None
        await pilot.press("s")
        assert again(app).job.ended == "stopped"
        assert "stopped, not finished" in " ".join(seen(app).split())


async def test_outline_goes_to_the_chosen_step(on_job: OnJobs) -> None:
    """The outline marks the step one comes from; Enter turns to the one that was chosen there."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o")
        await pilot.pause()
        assert "▸ Mark the new place (right) - in hand" in seen(app)
        await pilot.press("down", "enter")
        await pilot.pause()
        assert isinstance(app.screen, StepScreen)
        assert app.screen.step == "cut.right"
        await type_in(pilot, "0.1")
        assert again(app).job.places.reading("cut.right", "wall-loss").acts


async def test_who_was_named_at_the_start_stands_in_the_field(make: Callable[[str], JobFile]) -> None:
    """Started with the name of the person it was handed to: it stands there, and Enter and i still record."""
    file = make("handed-over")
    app = JobApp(file.path.parent, "Ada Prosser", file)
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        await pilot.press("end", "i")
        assert app.screen.query_one(Input).value == "Ada Prosser"
        await pilot.press("enter")
        assert not again(app).job.view.of_kind(TakenOverAct)
        await pilot.press("i")
        await pilot.pause()
        assert again(app).job.view.of_kind(TakenOverAct)


@pytest.mark.parametrize("size", [(80, 24), (100, 40)])
async def test_the_chosen_line_stays_in_sight(on_job: OnJobs, size: tuple[int, int]) -> None:
    """PageDown, PageUp, Home and End take the marker of the outline along; the arrows go on from there."""
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        await pilot.press("o")
        await pilot.pause()
        assert isinstance(app.screen, OutlineScreen)
        chosen = set()
        for key in ("home", *["pagedown"] * 12, "end", *["pageup"] * 12, "down"):
            await pilot.press(key)
            await pilot.pause()
            chosen.add(app.screen.listing.chosen)
            assert in_sight(app) or key in ("home", "end"), key
        assert len(chosen) > 3


def in_sight(app: JobApp) -> bool:
    """Whether some row of the marked item is painted."""
    screen = app.screen
    assert isinstance(screen, OutlineScreen)
    rows = [one.of for entry in [screen.before(), *screen.entries()] for one in entry]
    top = screen.page.scroll_offset.y
    return screen.listing.chosen in rows[top : top + screen.page.size.height]
