"""What can be done now: a list of steps to go to."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, JOB, QUIT, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.listing import Listing
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.look_up.what_now import Entry, entries, sentence
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.pages.wording import step_name

BACK = "Back, to no other step."


class WhatNowScreen(PageScreen):
    """By one, by two, side by side, and what waits; the answer is the step that was chosen, or None."""

    desk: JobDesk
    HELP = (
        "The steps that nothing in the record stops, for one person and for two, and what waits for what. Mark one "
        "with the arrows and press Enter to go there. It doesn't say that work may begin: look at the vehicle first."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go", "choose", "Go to the marked step."),
        key("escape", "back", "back", BACK),
        JOB,
        ALL_KEYS,
        also("b", "back", BACK),
        QUIT,
        *ARROWS,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.listing = Listing(self.page, self.items, self.before)
        self.rows: list[Entry] = []

    def draw(self) -> None:
        """The steps as they stand now."""
        self.rows = entries(self.desk.job)
        self.desk.draw_frame()
        self.listing.draw()
        self.entry.idle()

    def before(self) -> list[Line]:
        """What the page is, and what it doesn't say."""
        width = self.page.room
        return [*wrap("What can be done now", width, "strong"), *wrap(sentence(self.desk.job), width)]

    def items(self) -> list[list[Line]]:
        """Each step with what there is to say of it, its heading above the first of a part."""
        return [
            [*self._head(one), *item(self._step(number, one), number)] for number, one in enumerate(self.rows)
        ]

    def _head(self, one: Entry) -> list[Line]:
        if not one.head:
            return []
        width = self.page.room
        return [line(), *wrap(one.head, width, "strong"), *(wrap(one.below, width) if one.below else [])]

    def _step(self, number: int, one: Entry) -> list[Line]:
        width = self.page.room
        name = step_name(self.desk.job.steps[one.step])
        more = [line(f"    {row.plain}") for row in wrap(one.more, width - 4)] if one.more else []
        return [*self.listing.marked(number, name, width), *more]

    def action_mark(self, by: int) -> None:
        """Choose another step."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def action_choose(self) -> None:
        """Give back the marked step."""
        self.dismiss(self.rows[self.listing.chosen].step if self.rows else None)

    def action_back(self) -> None:
        """Give back none."""
        self.dismiss(None)
