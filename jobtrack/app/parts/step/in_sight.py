"""What of a step is in sight: its page, with the picture of the chosen line, and the hazard messages that stay."""

from __future__ import annotations

from jobtrack.app.looks.terminal import draws_plain
from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.step.hazards import pinned_lines
from jobtrack.pages.step.items import TORQUE, Item
from jobtrack.pages.step.page import step_page
from jobtrack.pages.typeset import Line, under

WIDE = 110
"""Columns from which on a tall terminal has the picture."""
PINNED = ((40, 10), (30, 6), (0, 5))
"""From how many rows of a terminal on the hazard messages that stay in sight may take how many."""


def pinned(screen: PageScreen, at: AtHand) -> list[Line]:
    """The hazard messages, one or two rows each, as soon as the whole ones may be out of sight."""
    if at.hazards_whole:
        return []
    most = next(rows for tall, rows in PINNED if screen.app.size.height >= tall)
    found = pinned_lines(at.here.step.hazard, screen.room, 2 if screen.short else most)
    return [*found[:-1], *(under(one, screen.room) for one in found[-1:])]  # ruled off from the page below


def page_lines(screen: PageScreen, at: AtHand) -> list[Line]:
    """The page of the step, with the picture of the chosen line where it may be."""
    page = step_page(at.job, at.here, screen.page.room, at.item, at.whole, at.job_whole, at.shown)
    return _with_picture(screen, at, page, at.item) if screen.by_height and at.item is not None else page


def _with_picture(screen: PageScreen, at: AtHand, page: list[Line], item: Item) -> list[Line]:
    """The picture below the table, every line to answer in sight; that of bolts behind their line."""
    from jobtrack.pages.drawings import page as drawings  # on a large terminal only
    from jobtrack.sheets.drawings.of_step import first_picture

    whole = drawings.Room(screen.page.room, screen.page.size.height, draws_plain())
    number, bolts = at.chosen or 0, item.kind == TORQUE
    room = drawings.room_behind(page, number, whole) if bolts else drawings.room_below(page, whole)
    first = first_picture(at.job, at.here, item, at.shown) if room is not None else None
    if room is None or first is None or first.drawing is None:
        return page
    picture = drawings.picture_lines(first, room)
    return drawings.behind_line(page, number, picture) if bolts else drawings.below_table(page, picture)
