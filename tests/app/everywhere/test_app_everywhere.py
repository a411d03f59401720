"""What holds on every screen: literal text, small terminals, honest words, other people's entries."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.begin import BeginScreen
from jobtrack.app.screens.choose import ChooseScreen
from jobtrack.app.screens.job.end import EndScreen
from jobtrack.app.screens.job.handover import HandoverScreen
from jobtrack.app.screens.job.job_page import JobPage
from jobtrack.app.screens.job.known import KnownScreen
from jobtrack.app.screens.job.look_again import LookAgainScreen
from jobtrack.app.screens.job.next_version import NextVersionScreen
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.job.parts import PartsScreen
from jobtrack.app.screens.job.take_over import TakeOverScreen
from jobtrack.app.screens.job.to_buy import ToBuyScreen
from jobtrack.app.screens.job.vehicle_record import VehicleRecordScreen
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.key_page import KeysScreen, RestScreen
from jobtrack.app.screens.look_up.find import FindScreen
from jobtrack.app.screens.look_up.hours import HoursScreen
from jobtrack.app.screens.look_up.what_now import WhatNowScreen
from jobtrack.app.screens.reckoner.answer import AnswerScreen
from jobtrack.app.screens.reckoner.choosing import ReckonerScreen
from jobtrack.app.screens.reckoner.working import WorkingScreen
from jobtrack.app.screens.step.drawings import DrawingsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.surprise import SurpriseScreen
from jobtrack.app.screens.walk import WalkScreen
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import conditions, doing, people, values
from jobtrack.job.compose.draft import Draft
from jobtrack.literal import visible
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile
from tests.app.everywhere.test_app_fields import all_screens, press, way_of
from tests.app.job.test_app_every_act import Row
from tests.support.invented_jobs import ODD, Builder, fill, on_top, seen, strip_down, survey
from tests.support.vocabulary import LABELS, promises

OnJobs = Callable[[str], JobApp]
FAR = "v"
HOW_TO_REACH: tuple[tuple[type[PageScreen], list[str | Row]], ...] = (
    (StepScreen, []), (StepScreen, [FAR]), (DrawingsScreen, ["d"]), (JobPage, ["j"]), (KnownScreen, ["j", "k"]),
    (OutlineScreen, ["o"]), (EndScreen, ["o", "e"]), (HandoverScreen, ["h"]), (ReckonerScreen, ["x"]),
    (WorkingScreen, ["x", "enter"]), (AnswerScreen, ["x", *"drill-name", "enter", "9", "enter", "enter"]),
    (PartsScreen, ["p"]), (ToBuyScreen, ["p", "p"]), (KeysScreen, ["question_mark"]), (ChooseScreen, ["c"]),
    (NextVersionScreen, [Row("next_version")]), (VehicleRecordScreen, ["j", "v", "enter"]),
    (SurpriseScreen, ["s"]), (LookAgainScreen, [Row("look_again")]), (RestScreen, [Row("next_look"), "space"]),
    (FindScreen, ["e"]), (HoursScreen, ["j", "l"]), (WhatNowScreen, ["o", "n"]), (JobsScreen, ["o", "b"]),
    (WalkScreen, ["o", "b", "w"]), (BeginScreen, ["o", "b", "end", "down", "down", "down", "enter"]),
)  # fmt: skip
"""The keys that lead from a job's step to each screen, and to the step as it is read from two metres."""
SHOWN = visible(ODD)


def test_every_screen_is_among_them() -> None:
    """A new screen needs its keys here; that of taking over comes by itself, where a job was handed over."""
    assert {kind for kind, _ in HOW_TO_REACH} | {TakeOverScreen} == {*all_screens()}


@pytest.fixture
def odd(folder: Path) -> JobFile:
    """A job in which everything that people can type holds brackets, strokes and a control sequence."""
    job = Builder(folder / "odd.job.toml", ODD)
    job.by = ODD
    job.begin(recipient__name=ODD, donor__name=ODD, donor__axle_is="loose")
    job.call(None, lambda d: people.clock(d, "on"))
    job.call("decide", lambda d: d.add(NoteAct(ODD)), lambda d: conditions.opens(d, ODD))
    job.call("decide", lambda d: values.reading(d, "rear-load", ["can't [b]reach[/b] [/]"]))
    job.call(None, lambda d: doing.buying(d, ODD, "asked"), lambda d: doing.place(d, ODD, ODD))
    job.call(None, lambda d: people.hand_over(d, ODD))
    return job.file


async def every_screen(app: JobApp, pilot: Pilot[int]) -> AsyncIterator[PageScreen]:
    """Each screen of an open job in turn, with its page as tall as the terminal."""
    for kind, keys in HOW_TO_REACH:
        await press(pilot, keys)
        screen = app.screen
        assert isinstance(screen, PageScreen)
        assert isinstance(screen, kind), (kind, screen)
        yield screen
        if app.screen.query_one(EntryLine).asking is not None:
            await pilot.press("escape")
        while not isinstance(on_top(app), StepScreen | JobsScreen | BeginScreen):
            await pilot.press("escape")
            await pilot.pause()
        if keys == [FAR]:
            await pilot.press(FAR)
        if isinstance(on_top(app), JobsScreen):
            await pilot.press("home", "enter")
            await pilot.pause()


async def test_people_s_text_is_literal_on_every_screen(odd: JobFile) -> None:
    """Brackets and strokes stand as typed, an ESC as its visible stand-in, on each screen that shows them."""
    app = JobApp(odd.path.parent, ODD, odd)
    async with app.run_test(size=(150, 60)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, TakeOverScreen)
        assert SHOWN in seen(app)
        await pilot.press("escape")
        await pilot.pause()
        literal = set()
        async for screen in every_screen(app, pilot):
            assert "\x1b" not in seen(app)
            literal |= {type(screen)} if SHOWN in seen(app) else set()
            if isinstance(screen, JobsScreen):
                break
        assert literal >= {StepScreen, OutlineScreen, EndScreen, HandoverScreen, PartsScreen, ToBuyScreen,
                           ChooseScreen, JobsScreen}  # fmt: skip


async def test_note_is_stored_exactly(on_job: OnJobs) -> None:
    """What is pasted into a field stands there without control characters, and is stored as it came."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 60)) as pilot:
        await pilot.press("t")
        app.screen.query_one(Input).value = ODD
        await pilot.pause()
        assert SHOWN in seen(app)
        await fill(pilot, ODD)
        assert "\x1b" not in seen(app)
    assert app.file is not None
    assert JobFile(app.file.path).job.view.entries[-1].did == (NoteAct(ODD),)


ALWAYS_ASKING = (FindScreen, ReckonerScreen, WorkingScreen)
"""Screens whose field is always open: Escape there leaves them."""
ENDS = ("quit", "leave", "leave_reckoner", "back", "jobs", "choose", "put_in", "begin_walk")
"""Actions that leave their screen."""


@pytest.mark.parametrize("size", [(40, 12), pytest.param((80, 24), marks=pytest.mark.whole)])
async def test_no_key_crashes_a_small_terminal(on_job: OnJobs, size: tuple[int, int]) -> None:
    """Every key of every screen, pressed at 40x12 and 80x24, leaves the app running; what asks is a field we know."""
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        async for screen in every_screen(app, pilot):
            kind = type(screen)
            if kind is BeginScreen:
                break
            for binding in screen.keys_here:
                if binding.action in ENDS:
                    continue
                await pilot.press(binding.key)
                await pilot.pause()
                assert app.is_running, (kind, binding.key)
                for _ in range(5):
                    if isinstance(on_top(app), kind):
                        break
                    await pilot.press("escape")
                    await pilot.pause()
                assert isinstance(on_top(app), kind), (kind, binding.key)
                asks = app.screen.query_one(EntryLine).asking is not None and kind not in ALWAYS_ASKING
                assert not asks or way_of(kind, binding.action), (kind, binding.action)
                if asks or app.screen.query_one(EntryLine).waiting is not None:
                    await pilot.press("escape")


@pytest.mark.parametrize("size", [pytest.param((80, 24), marks=pytest.mark.whole), (200, 120)])
async def test_no_word_promises_anything(on_job: OnJobs, size: tuple[int, int]) -> None:
    """No screen of ours says that something is safe, allowed or good to go, outside the listed sentences.

    Its heads and keys hold no word of a known family of programs.
    """
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        async for screen in every_screen(app, pilot):
            assert promises(seen(app)) == [], type(screen)
            heads = [str(screen.query_one(name).render()) for name in ("#keys", "#last")]
            assert [one for one in heads if LABELS.search(one)] == [], type(screen)


async def test_entries_of_others_appear_without_stealing_the_field(on_job: OnJobs) -> None:
    """What another program adds appears within two seconds; the number being typed stays as it is."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        assert app.file is not None
        other = JobFile(app.file.path)
        await pilot.press("down", *"23.")
        draft = Draft(other.job, "Mara Quill", app.session.now(), "mark.right")
        conditions.opens(draft, "jack under the left rail sinks")
        other.append(draft.done(), draft.by, draft.at, id=draft.id, step="mark.right")
        await pilot.pause(1.6)
        assert any("jack under the left rail" in one.text for one in app.file.job.open_conditions)
        assert "jack under the left rail" in seen(app) or "and 7 more open" in seen(app)
        assert app.screen.query_one(Input).value == "23."
        await pilot.press("4", "enter", "enter")
        assert JobFile(app.file.path).job.now.reading_value("mark.right", "moved") == pytest.approx(23.4)


async def test_entries_of_others_are_told(on_job: OnJobs) -> None:
    """While nothing is typed, one line says who recorded what meanwhile."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        assert app.file is not None
        other = JobFile(app.file.path)
        draft = Draft(other.job, "Mara Quill", app.session.now(), "mark.right")
        values.reading(draft, "moved", ["23.1"])
        other.append(draft.done(), draft.by, draft.at, id=draft.id, step="mark.right")
        await pilot.pause(1.6)
        assert (
            "Taken in from Mara Quill: Mark the new place (right): New edge from the old one, inboard 23.1"
            in seen(app)
        )


async def test_not_yet_recorded_is_said_until_it_is(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """A write that fails is said, what was typed is kept, and recorded by itself when the disk takes it again."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        assert app.file is not None
        before = len(app.file.job.view.entries)
        honest = disk.append
        full = True

        def full_disk(path: Path, data: bytes, known: disk.Known) -> None:
            if full and path.name.endswith(".job.toml"):
                raise OSError(28, "No space left on device")
            honest(path, data, known)

        monkeypatch.setattr(disk, "append", full_disk)
        await pilot.press("down", "2")
        await fill(pilot, "23.3")
        await pilot.press("enter")
        assert "NOT YET RECORDED: No space left on device; kept in" in " ".join(seen(app).split())
        await pilot.pause(1.6)
        assert "NOT YET RECORDED: 1 entry, the first of" in " ".join(seen(app).split())
        assert len(JobFile(app.file.path).job.view.entries) == before
        full = False
        await pilot.pause(1.6)
        assert "Recorded now what had waited: 1 entry." in seen(app)
        assert "NOT YET RECORDED" not in seen(app)
        assert len(JobFile(app.file.path).job.view.entries) == before + 1


def test_invented_jobs_reach_the_bare_axle(folder: Path) -> None:
    """The invented survey and strip-down leave every step of their stages finished or not needed."""
    job = Builder(folder / "walk.job.toml", "Walk")
    job.begin(
        donor__axle_is="loose",
        recipient__rear_plate="1350",
        recipient__tyre_load="800",
        donor__rear_plate="1700",
    )
    survey(job)
    strip_down(job)
    done = [
        step.id for step in job.file.job.steps.values() if step.step.stage in ("decide", "survey", "prepare")
    ]
    assert [step for step in done if not job.file.job.settled(step)] == []
