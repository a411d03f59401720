"""The page of pictures behind d, and the picture on the step's page of a large terminal."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.drawings import DrawingsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.store.file.writer import JobFile
from tests.support.builders import read, record
from tests.support.invented_jobs import seen, type_in

OnJobs = Callable[[str], JobApp]
Compare = Callable[..., bool]


def step_of(app: App[Any]) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


def has_dots(text: str) -> bool:
    """Whether something is drawn in braille."""
    return any("\u2801" <= one <= "\u28ff" for one in text)


async def test_d_shows_the_picture_of_the_chosen_line_first(on_job: OnJobs) -> None:
    """Arrows go round all of them; d, b and Escape lead back to the same line of the step."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("tack.left")
        await pilot.press("down")
        chosen = step_of(app).at.chosen
        for back in ("d", "b", "escape"):
            await pilot.press("d")
            assert isinstance(app.screen, DrawingsScreen)
            assert "picture 1 of 7" in seen(app)
            await pilot.press("right", "right")
            assert "picture 3 of 7" in seen(app)
            await pilot.press("left", "left", "up")
            assert "picture 7 of 7" in seen(app)
            await pilot.press("down")
            assert "picture 1 of 7" in seen(app)
            assert has_dots(seen(app))
            await pilot.press(back)
            assert step_of(app).at.chosen == chosen


async def test_the_picture_follows_the_job(on_job: OnJobs) -> None:
    """What somebody else records stands in the picture at once, and the same picture stays."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("tack.right")
        await pilot.press("d")
        assert "Not measured yet." in seen(app)
        title = "Where it lies: Gap under the perch before clamping"
        assert title in seen(app)
        assert app.file is not None
        record(JobFile(app.file.path), "tack.right", read("gap", "1.2"))
        await pilot.pause(1.2)
        await pilot.pause()
        assert title in seen(app)
        assert "1.2 mm" in seen(app)


async def test_the_units_of_a_picture_turn(on_job: OnJobs) -> None:
    """The comma works here as on every page."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("mark.left")
        await pilot.press("down", "d")
        assert " mm, within" in seen(app)
        await pilot.press("comma")
        assert " in, within" in seen(app)
        assert " mm, within" not in seen(app)


async def test_a_step_without_pictures_says_so(on_job: OnJobs) -> None:
    """And what the others have."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("secure")
        await pilot.press("d", "right")
        assert "nothing to draw in this step" in seen(app)


async def test_a_console_without_the_dots_gets_ascii(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """The console of Linux has no braille in its font."""
    monkeypatch.setenv("TERM", "linux")
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("mark.left")
        await pilot.press("d")
        assert "wanted" in seen(app)
        assert not has_dots(seen(app))


@pytest.mark.parametrize(
    ("size", "drawn"), [((80, 24), False), ((100, 40), False), ((120, 29), False), ((120, 40), True)]
)
async def test_a_large_terminal_has_it_on_the_step(
    on_job: OnJobs, size: tuple[int, int], drawn: bool
) -> None:
    """Below the table at 120x40; nowhere else, and what is asked stays in sight."""
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        step_of(app).go("mark.right")
        await pilot.press("up")
        await pilot.pause()
        assert has_dots(seen(app)) == drawn
        assert "New edge from the" in seen(app)


async def test_it_goes_with_the_chosen_line(on_job: OnJobs) -> None:
    """A number typed moves on to the next line, and the picture is that one's; too small a page has none."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 60)) as pilot:
        step_of(app).go("tack.right")
        await pilot.press("up")
        await pilot.pause()
        assert "Where it lies: Gap under the perch before clamping" in seen(app)
        await type_in(pilot, "0.8")
        assert "Where it lies: This perch against the other" in seen(app)
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert "Where it lies" not in seen(app)


async def test_bolts_are_clicked_beside_their_picture(on_job: OnJobs) -> None:
    """At 120x40 the picture stands behind the chosen line of bolts, and goes on with each click."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("u-bolts")
        await pilot.press("up", "up")
        while "B O L T" not in seen(app):
            await pilot.press("down")
        await pilot.pause()
        assert "1 NEXT" in seen(app)
        await pilot.press("y")
        await pilot.pause()
        assert "1 done" in seen(app)
        assert "3 NEXT" in seen(app)
        assert "B O L T   3   O F   4" in seen(app)


LOOKED_AT = {
    "axle-from-behind": ((80, 24), "mark.right", ["d"]),
    "level-on-the-step": ((120, 60), "tack.left", ["down"] * 3),
}
"""By name: the size, the step, and the keys pressed in it."""


@pytest.mark.parametrize("name", LOOKED_AT)
def test_pictures(name: str, on_job: OnJobs, snap_compare: Compare) -> None:
    """As they were looked at: on a page of its own, and on the step."""
    size, step, pressed = LOOKED_AT[name]

    async def before(pilot: Pilot[Any]) -> None:
        await pilot.pause()
        step_of(pilot.app).go(step)
        await pilot.press(*pressed)
        await pilot.pause()

    assert snap_compare(on_job("half-done"), run_before=before, terminal_size=size)
