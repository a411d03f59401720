"""The picture of the chosen line on the page of a step."""

from __future__ import annotations

from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.terminal import draws_plain
from jobtrack.pages.typeset import Line

WIDE = 110
"""Columns from which on there is one."""


def with_picture(screen: PageScreen, at: AtHand, page: list[Line]) -> list[Line]:
    """The page with the picture below its table, where every line to answer stays in sight."""
    from jobtrack.pages.drawings.of_step import step_pictures  # on a large terminal only
    from jobtrack.pages.drawings.page import Room, below_table, picture_lines, room_below

    room = room_below(page, Room(screen.page.room, screen.page.size.height, draws_plain()))
    pictures = (
        step_pictures(at.job, at.here, at.item, at.shown) if room is not None and at.item is not None else []
    )
    if room is None or not pictures or pictures[0].drawing is None:
        return page
    return below_table(page, picture_lines(pictures[0], room))
