"""Reaching at the keyboard what has no key of its own."""

from __future__ import annotations

import asyncio

from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.screens.look_up.find import FindScreen
from jobtrack.app.screens.step.step_keys import ELSE
from jobtrack.app.widgets.entry import moment


async def choose_row(pilot: Pilot[int], action: str) -> None:
    """Find the row of an action by its name and choose it."""
    await found(pilot, next(one.name for one in ELSE if one.action == action))


async def found(pilot: Pilot[int], text: str) -> None:
    """Type a text into the index, wait until what it means has been painted, and press Enter."""
    await pilot.press("e")
    await pilot.pause()
    screen = pilot.app.screen
    assert isinstance(screen, FindScreen)
    screen.query_one(Input).value = text
    await painted(pilot, screen)
    await pilot.press("enter")
    await pilot.pause()


async def painted(pilot: Pilot[int], screen: FindScreen) -> None:
    """Wait until the marked row stands on the screen."""
    await pilot.pause()
    async with asyncio.timeout(10):
        while not screen.painted.was(screen.marked, moment()):
            await pilot.pause(0.01)
