"""Reaching at the keyboard what has no key of its own."""

from __future__ import annotations

from textual.pilot import Pilot

from jobtrack.app.screens.job.step_keys import ELSE


async def choose_row(pilot: Pilot[int], action: str) -> None:
    """Open the page of everything else and choose the row of an action."""
    number = [one.action for one in ELSE].index(action)
    await pilot.press("e", *["down"] * number, "enter")
    await pilot.pause()
