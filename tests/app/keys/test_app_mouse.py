"""Mouse and finger: a press is the key whose words it lies on, with the same guards; lines are chosen; wheels turn."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from textual.events import MouseScrollDown, MouseScrollUp
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.widgets import key_row
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import seen

OnJobs = Callable[[str], JobApp]


@pytest.fixture(autouse=True)
def no_double_taps(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tests press faster than people; what a double tap does has a test of its own."""
    monkeypatch.setattr(key_row, "DOUBLE_TAP", 0.0)


def again(app: JobApp) -> JobFile:
    assert app.file is not None
    return JobFile(app.file.path)


def step_of(app: JobApp) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


async def press(pilot: Pilot[int], words: str, beside: int = 0) -> None:
    """Press the first place on the screen where these words stand."""
    rows = seen(pilot.app).split("\n")
    row = next(number for number, one in enumerate(rows) if words in one)
    assert await pilot.click(offset=(rows[row].index(words) + beside, row))
    await pilot.pause()


async def at_check(pilot: Pilot[int]) -> StepScreen:
    """At the first check of a step whose lines have no answer."""
    screen = step_of(pilot.app)  # type: ignore[arg-type]
    screen.go("cut.right")
    screen.choose(next(number for number, one in enumerate(screen.at.items) if one.yes_or_no))
    await pilot.pause()
    return screen


async def test_a_press_on_yes_answers_the_check(on_job: OnJobs) -> None:
    """As y does; pressed again it says that it is recorded already."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        screen = await at_check(pilot)
        item = screen.item
        assert item is not None
        await press(pilot, "y yes", 2)
        assert again(app).job.places.tick("cut.right", item.name).value is True


async def test_a_press_beside_the_words_counts_for_the_nearer_key(on_job: OnJobs) -> None:
    """The gap between two keys belongs to them."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        screen = await at_check(pilot)
        item = screen.item
        assert item is not None
        await press(pilot, "n no", 5)
        assert again(app).job.places.tick("cut.right", item.name).value is False


async def test_a_line_of_the_page_is_chosen_by_pressing_it(on_job: OnJobs) -> None:
    """Reading or check, wherever on its rows."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        await pilot.pause()
        items = screen.at.items
        await press(pilot, items[2].label[:12], 3)
        assert screen.at.chosen == 2
        assert not again(app).job.places.reading("tack.right", items[2].name).acts


async def test_a_press_never_takes_away_what_is_typed(on_job: OnJobs) -> None:
    """While a number is typed a line isn't chosen; the text stays, and one sentence says what comes first."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        await pilot.pause()
        before = screen.at.chosen
        await pilot.press(*"0.4")
        await press(pilot, screen.at.items[2].label[:12], 3)
        assert screen.at.chosen == before
        assert screen.entry.text == "0.4"
        assert "Enter or Escape first" in seen(app)
        await press(pilot, "Enter takes it", 4)
        assert screen.entry.asking is None
        assert again(app).job.now.reading_value("tack.right", screen.at.items[before or 0].name) == Fraction(
            "0.4"
        )


async def test_a_double_tap_does_one_thing(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """Finishing with something left asks for Enter, whose word comes to stand under the finger: it isn't taken."""
    monkeypatch.setattr(key_row, "DOUBLE_TAP", 30.0)
    app = on_job("half-done")
    async with app.run_test() as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        await pilot.pause()
        await press(pilot, "f finish", 1)
        assert screen.entry.waiting is not None
        await press(pilot, "Enter finish it", 1)
        assert screen.entry.waiting is not None
        assert again(app).job.state("tack.right") != "finished"
        monkeypatch.setattr(key_row, "DOUBLE_TAP", 0.0)
        await press(pilot, "Enter finish it", 1)
        assert again(app).job.state("tack.right") == "finished"


async def test_a_press_made_before_a_question_was_painted_answers_nothing(on_job: OnJobs) -> None:
    """A second key pressed by its words has to come after the question stood there, as a key has to."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        await pilot.pause()
        await press(pilot, "f finish", 1)
        assert screen.entry.painted is not None
        screen.post_message(key_row.KeyRow.Pressed("Enter", screen.entry.painted - 0.01))
        await pilot.pause()
        assert screen.entry.waiting is not None
        assert again(app).job.state("tack.right") != "finished"


async def test_a_line_of_a_list_is_marked_and_its_key_takes_it(on_job: OnJobs) -> None:
    """A press marks; going there takes the key's words, so that no stray touch does."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await press(pilot, "o outline", 3)
        screen = app.screen
        assert isinstance(screen, OutlineScreen)
        await press(pilot, "Weld it on (left)", 3)
        assert app.screen is screen
        await press(pilot, "Enter go", 2)
        assert step_of(app).step == "weld.left"


async def test_the_wheel_scrolls_a_page_and_moves_the_marker_of_a_list(on_job: OnJobs) -> None:
    """On a step the page is turned; on a list the marker goes along."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        await pilot.pause()
        await wheel(pilot, 1)
        assert screen.page.scroll_offset.y > 0
        down = screen.page.scroll_offset.y
        await wheel(pilot, -1)
        assert screen.page.scroll_offset.y < down
        await pilot.press("o")
        listed = app.screen
        assert isinstance(listed, OutlineScreen)
        before = listed.listing.chosen
        await wheel(pilot, -1)
        assert listed.listing.chosen == before - 1


async def wheel(pilot: Pilot[int], by: int) -> None:
    """Turn the wheel over the middle of the page."""
    screen = pilot.app.screen
    assert isinstance(screen, PageScreen)
    x, y = screen.page.region.center
    turned = MouseScrollDown if by > 0 else MouseScrollUp
    await pilot._post_mouse_events([turned], offset=(int(x), int(y)))
    await pilot.pause()


WAYS = {
    "outline": ("o",), "parts": ("p",), "known": ("j", "k"), "reckoner": ("x",), "inputs": ("x", "enter"),
    "find": ("e",), "choose": ("c",), "jobs": ("o", "b"), "what can be done now": ("e", *"can be done", "enter"),
}  # fmt: skip
"""The pages that are lists, each by the keys that lead to it from a step."""


@pytest.mark.parametrize("name", WAYS)
async def test_a_line_of_every_list_is_marked_by_pressing_it(name: str, on_job: OnJobs) -> None:
    """The second item in sight that isn't marked; nothing else happens, and nothing is recorded."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press(*WAYS[name])
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, PageScreen)
        page, before = screen.page, len(again(app).job.view.entries)
        top = int(page.scroll_offset.y)
        in_sight = [one for one in page.items[top : top + page.size.height] if one is not None]
        other = next(one for one in dict.fromkeys(in_sight) if one != page.marked)
        row = page.items.index(other, top) - top
        await pilot.click(offset=(page.region.x + 4, page.region.y + row))
        await pilot.pause()
        assert app.screen is screen
        assert page.marked == other
        assert len(again(app).job.view.entries) == before
