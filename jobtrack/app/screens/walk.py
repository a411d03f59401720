"""The page before the first walk: what will be done in it."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import Found, first_look
from jobtrack.app.keys import ALL_KEYS, QUIT, also, key
from jobtrack.app.parts.questions import Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.typeset import line
from jobtrack.pages.walk import TITLE, walk_page
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile

TO_THE_JOBS = "To the jobs, without the walk."


class WalkScreen(PageScreen):
    """Six paragraphs, and Enter begins."""

    HELP = (
        "A short walk through a half-done job, for somebody who sees this for the first time. Enter begins it in a "
        "copy that is thrown away afterwards; Escape leaves it for later."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "begin the walk", "begin_walk", "Begin the walk in a copy of the sample job."),
        key("escape", "to the jobs", "leave", TO_THE_JOBS),
        ALL_KEYS,
        also("b", "leave", TO_THE_JOBS),
        QUIT,
    ]

    def __init__(self) -> None:
        super().__init__()
        self.asks = Questions(self)
        self.asked = False
        """Whether the copy is being made."""

    def draw(self) -> None:
        """What there is to press."""
        self.show_part("head", [line(TITLE, "strong")])
        self.page.show(walk_page(self.page.room))
        self.show_part("last", [])
        self.show_keys()

    def action_begin_walk(self) -> None:
        """Ask who is there, where that isn't known: in the walk the question would come between two of its things."""
        self.asks.with_name(self._begin_walk)

    def _begin_walk(self) -> None:
        """Make the copy, and open it."""

        def made() -> tuple[JobFile, Found] | str:
            try:
                file = self.app.practice.begin()
                return file, first_look(file)
            except JobFileError as error:
                return str(error)

        if not self.asked:
            self.asked = True
            self.app.once(made, self._made)

    def _made(self, found: tuple[JobFile, Found] | str) -> None:
        self.asked = False
        if isinstance(found, str):
            self.entry.say(f"{found}. Escape goes to the jobs.")
        elif self.app.screen is self:
            self.app.pop_screen()
            self.app.opening.walk_in(*found)
