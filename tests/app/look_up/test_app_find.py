"""The index, the labour hours of a job, and what can be done now, at the keyboard."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.parts import taking_keys
from jobtrack.app.screens.job.known import KnownScreen
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.job.parts import PartsScreen
from jobtrack.app.screens.look_up.find import FindScreen
from jobtrack.app.screens.look_up.hours import HoursScreen
from jobtrack.app.screens.look_up.what_now import WhatNowScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.step_keys import ELSE, IN_INDEX, NOT_FOUND, STEP_KEYS
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose import doing, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import FINISHED
from jobtrack.pages.typeset import Line
from jobtrack.store.file.writer import JobFile, create
from tests.support.else_rows import found, painted
from tests.support.invented_jobs import on_top, seen

OnJobs = Callable[[str], JobApp]
Compare = Callable[..., bool]


def again(app: JobApp) -> JobFile:
    """The job file read anew from the disk."""
    assert app.file is not None
    return JobFile(app.file.path)


def words(app: JobApp) -> str:
    """What is seen, its rows joined."""
    return " ".join(seen(app).split())


def step_of(app: JobApp) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


def finding(app: JobApp) -> FindScreen:
    assert isinstance(app.screen, FindScreen)
    return app.screen


def record(app: JobApp, step: str | None, *fills: Callable[[Draft], object]) -> None:
    """Somebody else records something meanwhile."""
    file = again(app)
    draft = Draft(file.job, "Ada Prosser", app.session.now(), step)
    for fill in fills:
        fill(draft)
    file.append(draft.done(), draft.by, draft.at, id=draft.id, step=step)


async def letters(pilot: Pilot[int], *keys: str) -> FindScreen:
    """Open the index, type, and wait until what it means is painted."""
    await pilot.press("e", *keys)
    assert isinstance(pilot.app, JobApp)
    screen = finding(pilot.app)
    await painted(pilot, screen)
    return screen


async def test_a_reading_is_found_by_three_letters_and_its_value_typed(on_job: OnJobs) -> None:
    """Five keys to the line, then the number: e, three letters, Enter; 5 . 4 Enter. Nine keys, none for scrolling."""
    app = on_job("half-done")
    keys = ["e", *"leg", "enter", *"5.4", "enter"]
    async with app.run_test(size=(80, 24)) as pilot:
        before = len(again(app).job.view.of_kind(ReadingAct))
        for key in keys:
            await pilot.press(key)
            if isinstance(app.screen, FindScreen):
                await painted(pilot, app.screen)
        await pilot.pause()
        assert step_of(app).step == "weld.right"
        done = again(app).job.view.of_kind(ReadingAct)
        assert len(done) == before + 1
        assert (done[-1].entry.step, done[-1].act.as_dict()["typed"]) == ("weld.right", "5.4")
    assert len(keys) == 9


async def test_digits_are_letters_here_and_begin_no_number(on_job: OnJobs) -> None:
    """Typed numbers, signs and the keys of the step are text; nothing is recorded."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        before = len(again(app).job.view.entries)
        await letters(pilot, *"12.5", "minus", *"fyk ")
        assert finding(app).query_one(Input).value == "12.5-fyk "
        assert "Nothing here has these letters" in words(app)
        await pilot.press("enter", "enter")
        assert isinstance(on_top(app), FindScreen)
        await pilot.press("escape")
        assert isinstance(on_top(app), StepScreen)
        assert len(again(app).job.view.entries) == before


async def test_every_action_stands_there_with_its_key_and_is_done(on_job: OnJobs) -> None:
    """The clock, which has a key, and the hours, which have none."""
    app = on_job("surveyed")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot)
        said = {one.to: one.key for one in screen.rows if one.what == "do"}
        for key in step_of_under(app).keys_here:
            if key.show and key.action not in ("find", "next_line", "rest"):
                assert key.action in {getattr(to, "action", "") for to in said}
        await pilot.press("escape")
        await found(pilot, "note")
        assert "Enter records it, Escape cancels." in words(app)
        assert step_of(app).entry.asking is not None


async def test_it_looks_like_the_back_of_a_handbook(on_job: OnJobs) -> None:
    """No kinds of things in a column; the first of a letter has it in the margin, until letters are typed."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await letters(pilot)
        assert "Index: type a few letters" in seen(app)
        assert "e index" not in seen(app)
        rows = seen(app).split("\n")
        margin = [row[1] for row in rows if row[1:3].strip() and row[2:3] == " " and " . " in row]
        assert margin[:2] == ["▸", "A"]
        assert not [row for row in rows if row[3:].startswith(("do ", "list ", "reading ", "check "))]
        await pilot.press(*"unsafe")
        await painted(pilot, finding(app))
        first = next(row for row in seen(app).split("\n") if "▸" in row)
        assert re.fullmatch(r" ▸ Unsafe right now [ .]+ press a", first.rstrip())
        assert not [row for row in seen(app).split("\n") if re.match(r" [A-Z] \S.* \. ", row)]


@pytest.mark.parametrize("typed", ["", "br"])
def test_picture(typed: str, on_job: OnJobs, snap_compare: Compare) -> None:
    """The index looks as it did when it was looked at."""

    async def before(pilot: Pilot[int]) -> None:
        await letters(pilot, *typed)

    assert snap_compare(on_job("half-done"), run_before=before, terminal_size=(80, 24))


async def test_no_entry_is_skipped_by_turning_pages(on_job: OnJobs) -> None:
    """Entries of several rows too: each is whole in sight on some page, on the way down and up again."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot)
        for key, until in (("pagedown", len(screen.shown) - 1), ("pageup", 0)):
            met: set[int] = set()
            while True:
                in_sight = screen.page.items[: screen.page.size.height]
                met |= {
                    one for one in in_sight
                    if one is not None and in_sight.count(one) == len(screen._lines(one, chosen=False))
                }  # fmt: skip
                if screen.window.chosen == until:
                    break
                await pilot.press(key)
                await pilot.pause()
            assert met == set(range(len(screen.shown)))


def test_every_key_of_a_step_has_its_short_name_in_the_index() -> None:
    """No sentence, none twice, and none for what the step doesn't do."""
    actions = {one.action for one in STEP_KEYS if one.id and one.action not in NOT_FOUND}
    assert actions == set(IN_INDEX)
    names = [*IN_INDEX.values(), *(one.name for one in ELSE)]
    assert len(set(names)) == len(names)
    assert not [one for one in names if one.endswith(".") or one.startswith(("A ", "The "))]


def step_of_under(app: JobApp) -> StepScreen:
    """The step below the page on top."""
    return next(one for one in app.screen_stack if isinstance(one, StepScreen))


async def test_arrows_choose_and_enter_goes(on_job: OnJobs) -> None:
    """The marker stays in sight to the last row, and pages turn it too; Enter goes to the step."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot)
        await pilot.press(*["pagedown"] * 40)
        assert screen.window.chosen == len(screen.shown) - 1
        assert "▸" in seen(app)
        await pilot.press("pageup", "up")
        assert "▸" in seen(app)
        await pilot.press(*["pageup"] * 40)
        assert screen.window.chosen == 0
        await pilot.press("escape")
        await letters(pilot, *"bare trial")
        await pilot.press("enter")
        await pilot.pause()
        assert step_of(app).step == "bare-trial"


async def test_only_rows_in_sight_are_drawn(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """However many there are."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot)
        drawn: list[int] = []
        line = screen.window._row

        def drawing(number: int, mine: bool) -> list[Line]:
            drawn.append(number)
            return line(number, mine)

        monkeypatch.setattr(screen.window, "_row", drawing)
        screen.draw()
        assert len(screen.shown) > 200
        assert len(drawn) <= 24
        drawn.clear()
        screen.window.turn("end")
        screen.draw()
        assert len(drawn) <= 24


async def test_the_three_lists_stand_on_top_and_show_themselves_alone(on_job: OnJobs) -> None:
    """What is open, what lies outside, what is to be looked at again; Escape comes back to all, then to the step."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        record(app, "mark.left", lambda draft: values.reading(draft, "moved", ["40"]))
        await pilot.pause(1.2)
        screen = await letters(pilot)
        assert [one.name for one in screen.shown[:3]] == [
            "See what is open", "See readings outside, or too close to call", "See steps to look at again",
        ]  # fmt: skip
        await pilot.press("enter")
        await painted(pilot, screen)
        assert {one.what for one in screen.shown} == {"open"}
        await pilot.press("escape", "down", "enter")
        await painted(pilot, screen)
        assert ", 40 mm, outside" in words(app)
        await pilot.press("escape", "down", "down", "enter")
        await painted(pilot, screen)
        assert "Mark the new place" in words(app)
        await pilot.press("enter")
        await pilot.pause()
        assert step_of(app).step == "mark.left"


async def test_an_empty_list_promises_nothing_and_enter_does_nothing(on_job: OnJobs) -> None:
    """The sentence says what an empty list isn't."""
    app = on_job("surveyed")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot, "down", "enter")
        assert screen.only
        assert not screen.shown
        assert "What wasn't measured isn't known." in words(app)
        await pilot.press("enter", "enter")
        assert on_top(app) is screen
        await pilot.press("escape", "escape")
        assert isinstance(on_top(app), StepScreen)


async def test_what_others_record_meanwhile_is_found(on_job: OnJobs) -> None:
    """The rows are of the job as it stands; the letters that were typed stay."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot, *"split")
        assert not [one for one in screen.shown if one.what == "part"]
        record(app, None, lambda draft: doing.buying(draft, "split pin", "asked"))
        await pilot.pause(1.3)
        assert [one.name for one in screen.shown if one.what == "part"] == ["split pin"]
        assert screen.query_one(Input).value == "split"


async def test_enter_typed_ahead_does_nothing_that_nobody_saw(on_job: OnJobs) -> None:
    """Letters and Enter in one go go to a step, but do nothing; Enter again does it."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot, *"clo")
        screen.query_one(Input).value = "clock"
        screen.pressed = 0.0  # before anything was painted
        screen.entry.submit()
        assert on_top(app) is screen
        assert "Enter came before this stood on the screen" in words_of(screen)
        await painted(pilot, screen)
        before = len(again(app).job.view.of_kind(ClockAct))
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(on_top(app), StepScreen)
        assert len(again(app).job.view.of_kind(ClockAct)) == before  # it asks whether off or a break


def words_of(screen: FindScreen) -> str:
    """What the entry line says."""
    return " ".join(str(screen.query_one("#said").render()).split())


async def test_a_second_tap_of_enter_finishes_nothing(
    on_job: OnJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Finishing asks for Enter where something is left: the tap that chose it in the index is no answer."""
    monkeypatch.setattr(taking_keys, "SAME_PRESS", 30.0)
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await found(pilot, "finish")
        screen = step_of(app)
        assert screen.entry.waiting is not None
        await pilot.press("enter")
        assert screen.entry.waiting is not None
        assert again(app).job.state(screen.step) != FINISHED
        screen.finding._deaf_until = 0.0
        await pilot.press("enter")
        await pilot.pause()
        assert again(app).job.state(screen.step) == FINISHED


async def test_parts_and_what_is_known_have_their_pages(on_job: OnJobs) -> None:
    """A part opens the page of parts with itself marked; something known goes where it is asked, or to its page."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await found(pilot, "shaft seals")
        assert isinstance(on_top(app), PartsScreen)
        assert "▸ 2 × Axle shaft seals" in words(app)
        await pilot.press("escape")
        await letters(pilot, *"plate")
        screen = finding(app)
        row = next(one for one in screen.shown if one.what == "known")
        await pilot.press(*["down"] * list(screen.shown).index(row), "enter")
        await pilot.pause()
        at = on_top(app)
        assert isinstance(at, KnownScreen) or step_of(app).item is not None


async def test_the_hours_have_a_page_from_find_and_from_the_job(on_job: OnJobs) -> None:
    """By stage, step and person; a key turns the order."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await found(pilot, "labour")
        assert isinstance(app.screen, HoursScreen)
        assert "This job so far:" in words(app)
        assert "Hob Tansley" in words_of_page(app)
        order = words_of_page(app)
        await pilot.press("s")
        assert words_of_page(app) != order
        assert "The most hours first; s turns it round." in words(app)
        await pilot.press("escape", "j", "l")
        await pilot.pause()
        assert isinstance(app.screen, HoursScreen)
        await pilot.press("b", "escape")
        assert isinstance(on_top(app), StepScreen)


def words_of_page(app: JobApp) -> str:
    """All of a page, what is out of sight too."""
    return str(app.screen.query_one("Page > Static").render())


async def test_what_can_be_done_now_is_a_list_to_go_to(on_job: OnJobs) -> None:
    """From the index and from the outline; Enter goes to the marked step, Escape to none."""
    app = on_job("surveyed")
    async with app.run_test(size=(80, 24)) as pilot:
        await found(pilot, "what can be done")
        assert isinstance(app.screen, WhatNowScreen)
        assert "Look at the vehicle before you begin." in words(app)
        step = app.screen.rows[1].step
        await pilot.press("down", "enter")
        await pilot.pause()
        assert step_of(app).step == step
        await pilot.press("o", "n")
        await pilot.pause()
        assert isinstance(app.screen, WhatNowScreen)
        await pilot.press("escape")
        assert isinstance(on_top(app), OutlineScreen)
        await pilot.press("n", "enter")
        await pilot.pause()
        assert isinstance(on_top(app), StepScreen)


def many(path: Path) -> JobFile:
    """A job of a thousand steps."""
    step: dict[str, Any] = {
        f"s{number}": {"stage": "only", "title": f"Bracket {number}", "reading": {"gap": {"unit": "mm"}}}
        for number in range(1000)
    }
    data = {"format": 1, "id": "long", "title": "Long", "stage": {"only": {"title": "Only"}}, "step": step}
    return create(path, "long", "A long one", data)


async def test_the_last_of_a_thousand_steps_is_eight_keys_away(tmp_path: Path) -> None:
    """And its reading is chosen."""
    app = JobApp(tmp_path, "Hob Tansley", many(tmp_path / "long.job.toml"))
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await letters(pilot, *"999")
        assert [one.what for one in screen.shown] == ["step", "reading"]
        await pilot.press("down", "enter")
        await pilot.pause()
        assert step_of(app).step == "s999"
        assert step_of(app).item is not None


@pytest.mark.parametrize("size", [(40, 12), (120, 40)])
async def test_it_works_at_any_size(on_job: OnJobs, size: tuple[int, int]) -> None:
    """Small and large; resized while it is open the marker stays in sight."""
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        await letters(pilot, *["down"] * 15)
        assert "▸" in seen(app)
        await pilot.resize_terminal(60, 16)
        await pilot.pause()
        assert "▸" in seen(app)
        await pilot.press("escape")
        assert isinstance(on_top(app), StepScreen)
