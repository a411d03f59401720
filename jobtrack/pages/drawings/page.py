"""Pictures of a step as lines: one of them on a page of its own, or on the step's page where there is room."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.figures.cells import in_cells
from jobtrack.figures.drawing import Drawing, FigureError
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.pages.wording import step_name
from jobtrack.sheets.drawings.of_step import StepPicture
from jobtrack.template.plan import PlannedStep

WIDEST, HIGHEST = 100, 24
"""Columns and rows that a drawing takes at most: a larger one is no easier to read."""
LEAST = 9
"""Rows below which a picture isn't worth its place on the page of a step."""

BEHIND = 14
"""Rows at most of a picture behind its line, so that what stands above that is seen too."""

NONE = "There is nothing to draw in this step: no limits, no bolts, and no working-out that has a picture."


class Room(Struct, frozen=True):
    """What a page has for a picture: cells across, rows, and whether it has ASCII alone."""

    width: int
    rows: int
    plain: bool = False


def picture_page(pictures: Sequence[StepPicture], at: int, planned: PlannedStep, room: Room) -> list[Line]:
    """One picture of a step, and which of how many it is."""
    if not pictures:
        return [*wrap(step_name(planned), room.width, "strong"), *wrap(NONE, room.width)]
    which = f", picture {at + 1} of {len(pictures)}" if len(pictures) > 1 else ""
    head = wrap(f"{step_name(planned)}{which}", room.width, "small", 2)
    return [*head, *picture_lines(pictures[at], replace(room, rows=room.rows - len(head)))]


def picture_lines(picture: StepPicture, room: Room) -> list[Line]:
    """A picture with its title and with what isn't known."""
    head = wrap(picture.title, room.width, "strong", 2)
    foot = wrap(picture.note, room.width, "", 2) if picture.note else []
    drawn = _drawn(picture.drawing, room, room.rows - len(head) - len(foot)) if picture.drawing else []
    return [*head, *drawn, *foot]


def _drawn(drawing: Drawing, room: Room, rows: int) -> list[Line]:
    try:
        found = in_cells(drawing, min(room.width, WIDEST), min(rows, HIGHEST), plain=room.plain)
    except FigureError as error:  # a template's unit may be any text
        return wrap(f"Can't be drawn: {error}.", room.width, "", 2)
    return [line(row) for row in found]


def room_below(page: Sequence[Line], room: Room) -> Room | None:
    """The room below the table of a step's page with every line to answer in sight; None where it is too little."""
    answered = [row for row, one in enumerate(page) if _to_answer(one)]
    rows = room.rows - 2 - (answered[-1] + 1) if answered else 0
    return replace(room, rows=rows) if rows >= LEAST else None


def below_table(page: Sequence[Line], picture: Sequence[Line]) -> list[Line]:
    """A step's page with a picture behind the part that the first line to answer stands in."""
    first = next(row for row, one in enumerate(page) if _to_answer(one))
    at = next((row for row in range(first, len(page)) if not page[row].plain.strip()), len(page))
    return [*page[:at], line(), *picture, *page[at:]]


def room_behind(page: Sequence[Line], number: int, room: Room) -> Room | None:
    """The room behind a line that is answered bit by bit, all of it in sight too; None where it is too little."""
    rows = min(room.rows - 1 - sum(one.of == number for one in page), BEHIND)
    return replace(room, rows=rows) if rows >= LEAST else None


def behind_line(page: Sequence[Line], number: int, picture: Sequence[Line]) -> list[Line]:
    """A step's page with a picture that goes with a line wherever the page is scrolled to."""
    at = max(row for row, one in enumerate(page) if one.of == number) + 1
    return [*page[:at], *item([line(), *picture], number), *page[at:]]


def _to_answer(row: Line) -> bool:
    return row.of is not None and row.of >= 0
