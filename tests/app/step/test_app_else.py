"""What has no key of its own, the clock's key, who is here, and left and right swapped."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from jobtrack.app.main import JobApp
from jobtrack.app.screens.job.look_again import LookAgainScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.step_keys import ELSE
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.ending import DueDoneAct
from jobtrack.job.acts.people import AgreedAct, ClockAct, WorkedAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.steps import AddedStepAct, NotNeededAct, StandsAct, SwappedAct
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, NOT_NEEDED, Job
from jobtrack.job.time.clock import times
from jobtrack.store.file.writer import JobFile
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import fill, seen

OnJobs = Callable[[str], JobApp]


def job_of(app: JobApp) -> Job:
    """The job as the file says, read anew."""
    assert app.file is not None
    return JobFile(app.file.path).job


def written(app: JobApp, kind: type[Act]) -> list[Act]:
    """The acts of a kind that stand in the file."""
    return [done.act for done in job_of(app).view.of_kind(kind)]


def step_of(app: JobApp) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


def words(app: JobApp) -> str:
    """What stands on the screen, in one line."""
    return " ".join(seen(app).split())


async def test_every_row_is_an_action_of_the_step(on_job: OnJobs) -> None:
    """Each row runs a method of the screen, and each of those that share one has its way."""
    app = on_job("half-done")
    async with app.run_test():
        screen = step_of(app)
        assert len({one.action for one in ELSE}) == len(ELSE)
        for row in ELSE:
            name, _, what = row.action.partition("('")
            assert callable(getattr(screen, f"action_{name}"))
            ways = screen.papers.ways if name == "paper" else screen.seldom.ways
            assert not what or what.rstrip("')") in ways


async def test_hours_are_shown_back_whole_before_enter(on_job: OnJobs) -> None:
    """2h30 of a helper, yesterday: all of it stands there before the last Enter, and is recorded for the job."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "seldom('hours')")
        await fill(pilot, "2h30")
        await fill(pilot, "Mara Quill")
        await pilot.press("1")
        assert "2.5 h = 2 h 30 min by Mara Quill on Tuesday 13 May 2031, yesterday." in words(app)
        assert "NOT YET RECORDED" in seen(app)
        assert written(app, WorkedAct) == []
        await pilot.press("enter")
        assert written(app, WorkedAct) == [WorkedAct(2.5, "Mara Quill", "2031-05-13")]
        assert job_of(app).view.of_kind(WorkedAct)[0].entry.step is None
        assert "Recorded 09:41" in seen(app)


async def test_hours_of_ones_own_today_are_one_number(on_job: OnJobs) -> None:
    """Enter alone is oneself, and today; what are no hours stays in its field."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "seldom('hours')")
        await fill(pilot, "0")
        assert "Type hours above nought" in words(app)
        await fill(pilot, "1:15")
        await pilot.press("enter", "enter")
        assert written(app, WorkedAct) == [WorkedAct(1.25)]


async def test_a_day_that_is_none_is_answered_and_stays(on_job: OnJobs) -> None:
    """Friday is no date; the text stays, and Escape records nothing."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "seldom('hours')")
        await fill(pilot, "2")
        await pilot.press("enter")
        await fill(pilot, "Friday")
        assert "how many days ago" in words(app)
        assert step_of(app).entry.text == "Friday"
        await pilot.press("escape")
        assert written(app, WorkedAct) == []


async def test_agreed_takes_four_answers(on_job: OnJobs) -> None:
    """Who and what must be said, how and how much may be; it stands on the page of the job."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        before = len(written(app, AgreedAct))
        await choose_row(pilot, "seldom('agreed')")
        await pilot.press("enter")
        assert "Type who agreed" in seen(app)
        await fill(pilot, "Ilse Morn")
        await fill(pilot, "weld the bracket")
        await fill(pilot, "by telephone")
        await fill(pilot, "80")
        assert written(app, AgreedAct)[before:] == [
            AgreedAct("Ilse Morn", "weld the bracket", "by telephone", "80")
        ]
        assert "agreed, Ilse Morn: weld the bracket, by telephone, 80" in words(app)
        await pilot.press("j", "end")
        assert "agreed, Ilse Morn: weld the bracket" in words(app)


@pytest.mark.parametrize(("row", "place"), [("before", -1), ("after", 1)])
async def test_a_step_more(row: str, place: int, on_job: OnJobs) -> None:
    """It stands before or after the one at hand, with an id made from its title; the one at hand isn't begun by it."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("tack.right")
        state = job_of(app).state("tack.right")
        await choose_row(pilot, f"seldom('{row}')")
        await pilot.press(*"Free it.")
        assert "Its id: free-it." in words(app)
        await pilot.press("enter")
        job, near = job_of(app), "tack.right"
        order = list(job.steps)
        assert order.index("free-it") == order.index(near) + place
        assert written(app, AddedStepAct) == [
            AddedStepAct("free-it", "Free it.", before=near)
            if place < 0
            else AddedStepAct("free-it", "Free it.", near)
        ]
        assert job.state(near) == state
        await pilot.press("left" if place < 0 else "right")
        assert step_of(app).step == "free-it"


async def test_a_private_note_is_one(on_job: OnJobs) -> None:
    """It is recorded as private, in the step."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await choose_row(pilot, "private_note")
        await fill(pilot, "he wants it cheap")
        assert NoteAct("he wants it cheap", private=True) in written(app, NoteAct)


async def test_not_needed_says_its_hold_and_what_stays_open(on_job: OnJobs) -> None:
    """Before Enter: the hold that stops nothing any more, and what stays recorded as open."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        step_of(app).go("mark.right")
        await choose_row(pilot, "not_needed")
        assert "Its hold point then stops nothing any more: Cut release" in words(app)
        assert "Stays recorded as open: KEEP THE MARKS" in words(app)
        await fill(pilot, "other tube")
        assert job_of(app).state("mark.right") == NOT_NEEDED
        assert [act.because for act in written(app, NotNeededAct) if isinstance(act, NotNeededAct)] == [
            "other tube"
        ]


def measured_again(app: JobApp) -> None:
    """Somebody has measured a spacing again, so that several steps are to be looked at."""
    file = app.file
    assert file is not None
    made = Draft(file.job, "Mara Quill", file.job.view.entries[-1].at, "pin-spacing.donor")
    values.reading(made, "spacing", ["1018"])
    file.append(made.done(), made.by, made.at, id=made.id, step=made.step)


async def test_several_steps_stand_with_one_reason(on_job: OnJobs) -> None:
    """Listed with why; y takes one in, n out again, the key twice does it once; one entry with one reason."""
    app = on_job("half-done")
    measured_again(app)
    async with app.run_test(size=(80, 40)) as pilot:
        unsettled = [step for step in job_of(app).steps if job_of(app).state(step) == LOOK_AGAIN]
        assert len(unsettled) > 2
        await choose_row(pilot, "look_again")
        assert isinstance(app.screen, LookAgainScreen)
        assert f"To be looked at again: {len(unsettled)} steps." in words(app)
        await pilot.press("enter")
        assert "No step is marked as looked at" in words(app)
        await pilot.press("y", "y", "down", "y", "down", "y", "n")
        await pilot.press("enter", "enter")
        assert "Type why they stand" in words(app)
        await fill(pilot, "measured on the same pads")
        [act] = written(app, StandsAct)
        assert isinstance(act, StandsAct)
        assert (act.stands, act.because) == (tuple(unsettled[:2]), "measured on the same pads")
        assert [job_of(app).state(step) for step in unsettled[:3]] == [FINISHED, FINISHED, LOOK_AGAIN]
        assert "Recorded 09:41: looked at again, stands: measured on the same pads." in words(app)


async def test_nothing_to_look_at_again_says_so(on_job: OnJobs) -> None:
    """An empty page says what to do."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await choose_row(pilot, "look_again")
        await pilot.press("y", "enter")
        assert "Nothing is to be looked at again. Escape goes back." in words(app)


async def test_due_afterwards_is_done_from_the_step(on_job: OnJobs) -> None:
    """Chosen from the list."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await choose_row(pilot, "seldom('due')")
        assert "Wheel nuts to the maker's figure again" in seen(app)
        await pilot.press("enter")
        assert written(app, DueDoneAct) == [DueDoneAct("wheel-nuts")]


async def test_left_and_right_swapped(on_job: OnJobs) -> None:
    """Which readings change places with which values, and what that unsettles, stand there; l again does nothing."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("mark.right")
        await pilot.press("l", "l")
        assert "New edge from the old one, inboard: left gets 22.8 mm, right gets 23.2 mm" in words(app)
        assert "Recording it unsettles nothing." in words(app)
        assert written(app, SwappedAct) == []
        await pilot.press("enter")
        assert len(written(app, SwappedAct)) == 1
        now = job_of(app).now
        assert [float(now.reading_value(f"mark.{side}", "moved") or 0) for side in ("left", "right")] == [
            22.8,
            23.2,
        ]


async def test_a_swap_cancelled_or_of_one_side_records_nothing(on_job: OnJobs) -> None:
    """Any other key leaves them; a step on one side says so, and one without readings too."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("mark.right")
        await pilot.press("l", "escape")
        step_of(app).go("strip")
        await pilot.press("l")
        assert "isn't done on two sides" in words(app)
        assert written(app, SwappedAct) == []


async def test_what_a_swap_says_at_length_is_a_key_away(on_job: OnJobs) -> None:
    """Seven readings and all that they unsettle don't fit: the space bar shows them whole, and Enter still records."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("wheels.donor")
        await pilot.press("l")
        assert "there is more of it: press the space bar" in words(app)
        await pilot.press("space")
        assert "Stud to the next stud, centres: recipient gets 67.1 mm, donor gets 67 mm" in words(app)
        assert "Ride height, left was 395 mm and is now 402 mm" in words(app)
        await pilot.press("escape", "enter")
        assert len(written(app, SwappedAct)) == 1


async def test_the_clock_asks_what_becomes_of_it(on_job: OnJobs) -> None:
    """Off it goes on at once; on, the key asks: the same key again does nothing, Escape leaves it on, b is a break."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        if "Hob Tansley" in times(job_of(app)).running:
            await pilot.press("k", "o")
        before = len(written(app, ClockAct))
        await pilot.press("k")
        assert [act.words() for act in written(app, ClockAct)[before:]] == ["clock on"]
        await pilot.press("k")
        assert "The clock of Hob Tansley is on." in words(app)
        await pilot.press("k", "escape")
        assert len(written(app, ClockAct)) == before + 1
        await pilot.press("k", "b")
        assert "Recorded 09:41: clock break." in words(app)
        await pilot.press("k")
        assert "Recorded 09:41: clock on." in words(app)
        await pilot.press("k", "o")
        assert [act.words() for act in written(app, ClockAct)[before:]] == [
            "clock on", "clock break", "clock on", "clock off",
        ]  # fmt: skip


async def test_by_whom_offers_who_recorded(on_job: OnJobs) -> None:
    """Their number is enough; it is said back, and what is recorded next is theirs."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("b")
        assert "Mara Quill" in words(app)
        number = words(app).partition(" Mara Quill")[0][-1]
        await fill(pilot, number)
        assert "Recorded from now on in the name of Mara Quill (as typed)." in words(app)
        await pilot.press("t")
        await fill(pilot, "looked at it")
        assert job_of(app).view.entries[-1].by == "Mara Quill"


async def test_words_of_people_stay_literal_in_every_row(on_job: OnJobs) -> None:
    """Markup and control characters typed into the rows' fields crash nothing and are stored as typed."""
    odd = "bolt [3/4] [/x] 🔧"
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "seldom('agreed')")
        await fill(pilot, odd)
        await fill(pilot, odd)
        await pilot.press("enter", "enter")
        assert AgreedAct(odd, odd) in written(app, AgreedAct)
        await choose_row(pilot, "seldom('before')")
        await fill(pilot, odd)
        assert [act.title for act in written(app, AddedStepAct) if isinstance(act, AddedStepAct)] == [odd]
