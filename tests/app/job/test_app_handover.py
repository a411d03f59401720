"""Handing over, taking over, and ending a job."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.widgets import Input, Static

from jobtrack.app.main import JobApp
from jobtrack.app.parts import taking_keys
from jobtrack.app.screens.job.handover import HandoverScreen
from jobtrack.app.screens.job.job_page import JobPage
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.job.take_over import TakeOverScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.people import HandoverAct, TakenOverAct
from jobtrack.job.compose import conditions
from jobtrack.job.remarks.of_job import job_problems
from jobtrack.job.state.job import Job
from jobtrack.pages.job.handing_over import beside_open
from jobtrack.pages.job.list import waiting_handover
from jobtrack.pages.typeset import Line
from jobtrack.sheets.handover.handing import GIVER_SAYS
from jobtrack.sheets.words.problems import with_names
from jobtrack.store.file.writer import JobFile
from jobtrack.units.chosen import METRIC_FIRST
from tests.app.job.test_app_every_act import record
from tests.support.invented_jobs import fill, seen, type_in

OnJobs = Callable[[str], JobApp]


def read_beside(job: Job) -> list[Line]:
    given = waiting_handover(job)
    assert given is not None
    return beside_open(job, given, METRIC_FIRST, 98)


def again(app: JobApp) -> JobFile:
    assert app.file is not None
    return JobFile(app.file.path)


async def test_handing_over_takes_a_name_and_a_second_key(on_job: OnJobs) -> None:
    """The sheet is shown, a name is asked, Enter leaves each question empty, and only the second h records."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("h")
        await pilot.pause()
        assert isinstance(app.screen, HandoverScreen)
        assert "Recorded as open" in seen(app)
        await pilot.press("h")
        await fill(pilot, "Ada Prosser")
        await pilot.press(*["enter"] * 5)
        assert not again(app).job.view.of_kind(HandoverAct)
        await pilot.press("h")
        (done,) = again(app).job.view.of_kind(HandoverAct)
        assert done.act == HandoverAct("Ada Prosser")


SAID = {
    "holds_up": "two stands, shaken 16:20",
    "promised": "Ruth, by Friday",
    "says": "mind the [left] stand",
}
"""What the giver says with it; the other two questions are left empty."""


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_what_the_giver_says_stands_in_the_act(on_job: OnJobs, size: tuple[int, int]) -> None:
    """Each of the five is asked, one after the other; what was typed is shown before the second key."""
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        await pilot.press("h", "h")
        await fill(pilot, "Ada Prosser")
        for number, (name, question) in enumerate(GIVER_SAYS, 1):
            assert f"{number} of 5: {question.split()[0]}" in seen(app)
            await fill(pilot, SAID.get(name, ""))
        assert isinstance(app.screen, HandoverScreen)
        assert app.screen.entry.waiting is not None
        assert "holds up: two stands, shaken 16:20" in " ".join(app.screen.entry.waiting.about)
        await pilot.press("h")
        (done,) = again(app).job.view.of_kind(HandoverAct)
        assert done.act.as_dict() == {"to": "Ada Prosser", "handover": True, **SAID}


async def test_to_oneself_only_what_holds_it_up(on_job: OnJobs) -> None:
    """One's own name, however it is written, leaves the job to oneself: one question."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("h", "h")
        await fill(pilot, "hob  tansley")
        await fill(pilot, "four stands")
        assert "to carry on with it later" in seen(app)
        await pilot.press("h")
        (done,) = again(app).job.view.of_kind(HandoverAct)
        assert done.act == HandoverAct("hob tansley", holds_up="four stands")


@pytest.mark.parametrize("answered", [0, 3, 6])
async def test_escape_anywhere_hands_nothing_over(on_job: OnJobs, answered: int) -> None:
    """At the name, at each of the questions, and at the second key."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("h", "h")
        for text in ("Ada Prosser", "stands", "", "", "", "")[:answered]:
            await fill(pilot, text)
        await pilot.press("escape")
        assert isinstance(app.screen, HandoverScreen)
        assert "isn't recorded" in seen(app)
        assert app.screen.said == {}
        await pilot.press("h")
        await fill(pilot, "Ada Prosser")
        stood = "stands" if answered > 1 else ""
        assert app.screen.query_one(Input).value == stood  # what was typed needn't be typed again
        await pilot.press("escape")
        assert not again(app).job.view.of_kind(HandoverAct)


async def test_an_enter_tapped_twice_leaves_no_question_empty(
    on_job: OnJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The Enter behind a name, held or doubled, doesn't answer what is asked next; words do."""
    app = on_job("half-done")
    monkeypatch.setattr(taking_keys, "SAME_PRESS", 30.0)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("h", "h")
        await fill(pilot, "Ada Prosser")
        await pilot.press("enter", "enter")
        assert "1 of 5" in seen(app)
        assert "That Enter came with the one before." in seen(app)
        await fill(pilot, "two stands")
        assert "2 of 5" in seen(app)


async def test_waiting_handover_is_shown_at_opening(on_job: OnJobs) -> None:
    """A job with a handover that nobody took over opens on what is open, in hand and not to be begun."""
    app = on_job("handed-over")
    async with app.run_test(size=(100, 70)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, TakeOverScreen)
        text = " ".join(seen(app).split())
        assert "Handed over by Hob Tansley to Ada Prosser" in text
        assert "Open, not seen yet: NO PARKING BRAKE" in text
        lines = " ".join(" ".join(row.plain for row in read_beside(again(app).job)).split())
    assert "Mark the new place (right): in hand Stopped at: scribed, front edge not yet punched" in lines
    assert "Say back the two most dangerous things" in lines
    assert "____" not in lines


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
        await type_in_open_field(pilot, "can't reach")
        assert "words alone are no reading taken again" in seen(app)
        await type_in_open_field(pilot, "1011.5")
        assert not again(app).job.view.of_kind(TakenOverAct)
        await pilot.press("i")
        assert "goes on below" in seen(app)
        assert app.file is not None
        await pilot.press(*["y"] * len(app.file.job.open_conditions))
        assert "All that is open is seen." in seen(app)
        await pilot.press("end", "i")
        await fill(pilot, "Ada Prosser")
        assert "you are" not in seen(app)
        assert "has seen all that is recorded as open" in seen(app)
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


UNSEEN = "taken over by Ada Prosser without having seen: AXLE OUT"


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_what_was_not_seen_is_said_and_stands(on_job: OnJobs, size: tuple[int, int]) -> None:
    """All but one ticked, that one by its tag: said before the second key, in the job, until it is closed."""
    app = on_job("handed-over")
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, TakeOverScreen)
        for one in screen.listed:
            await pilot.press("down" if one.tag == "AXLE OUT" else "y")
        await pilot.press("end", "i")
        await fill(pilot, "Ada Prosser")
        assert screen.entry.waiting is not None
        about = " ".join(screen.entry.waiting.about)
        assert "without having seen: AXLE OUT. The job says so until" in about
        assert "No reading was taken again." in about
        await pilot.press("i")
        job = again(app).job
        (done,) = job.view.of_kind(TakenOverAct)
        assert isinstance(done.act, TakenOverAct)
        assert {one.name for one in job.open_conditions} - {*done.act.seen} == {"axle-out"}
        assert with_names(job, job_problems(job)) == [UNSEEN]
        await pilot.press("j", "pagedown")
        assert isinstance(app.screen, JobPage)
        assert UNSEEN in " ".join(str(app.screen.page.query_one(Static).render()).split())


async def test_a_condition_is_seen_by_its_own_press(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """Held, or pressed twice by a shaking hand, the key ticks one; n takes the tick away again."""
    app = on_job("handed-over")
    monkeypatch.setattr(taking_keys, "SAME_PRESS", 30.0)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, TakeOverScreen)
        first = screen.listed[0].name
        await pilot.press("y", "y", "y")
        assert screen.seen == {first}
        await pilot.press("up", "n")
        assert screen.seen == set()
        await pilot.press("2", "enter", "escape", "z", "i")
        assert screen.seen == set()
        assert not again(app).job.view.of_kind(TakenOverAct)


async def test_the_marker_keeps_its_condition(on_job: OnJobs) -> None:
    """What others open meanwhile comes in above it; the key ticks what stood there before."""
    app = on_job("handed-over")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, TakeOverScreen)
        await pilot.press("down")
        marked = screen.listed[1].name
        record(again(app), None, "Mara Quill", lambda made: conditions.opens(made, "jack sinks"))
        screen.desk.follow()
        await pilot.pause()
        assert screen.listed[1].name != marked
        await pilot.press("y")
        assert screen.seen == {marked}


async def test_a_job_that_waits_says_so_on_its_pages(on_job: OnJobs) -> None:
    """On the step and on the job's page: to whom, since when; whoever records meanwhile isn't hindered."""
    app = on_job("handed-over")
    said = "Handed over to Ada Prosser, 13 May 08:00; not taken over yet: e, take over."
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("escape")
        assert said in seen(app)
        await pilot.press("t")
        await fill(pilot, "stands shaken")
        assert "stands shaken" in str(again(app).job.view.entries[-1].did)
        await pilot.press("j")
        assert said in seen(app)


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
