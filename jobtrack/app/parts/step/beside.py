"""The picture of the chosen line on the page of a step."""

from __future__ import annotations

from jobtrack.app.looks.terminal import draws_plain
from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.step.items import TORQUE, Item
from jobtrack.pages.typeset import Line

WIDE = 110
"""Columns from which on there is one."""


def with_picture(screen: PageScreen, at: AtHand, page: list[Line]) -> list[Line]:
    """The page with the picture below its table, every line to answer in sight; that of bolts behind their line."""
    if (item := at.item) is None:
        return page
    return _drawn(screen, at, page, item)


def _drawn(screen: PageScreen, at: AtHand, page: list[Line], item: Item) -> list[Line]:
    from jobtrack.pages.drawings import page as drawings  # on a large terminal only
    from jobtrack.pages.drawings.of_step import first_picture

    whole, bolts = (
        drawings.Room(screen.page.room, screen.page.size.height, draws_plain()),
        item.kind == TORQUE,
    )
    number = at.chosen or 0
    room = drawings.room_behind(page, number, whole) if bolts else drawings.room_below(page, whole)
    first = first_picture(at.job, at.here, item, at.shown) if room is not None else None
    if room is None or first is None or first.drawing is None:
        return page
    picture = drawings.picture_lines(first, room)
    return drawings.behind_line(page, number, picture) if bolts else drawings.below_table(page, picture)
