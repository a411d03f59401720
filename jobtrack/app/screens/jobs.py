"""The jobs in the folder, the half-finished first, and the templates that one can begin from."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.keys import ALL_KEYS, ARROWS, QUIT, RECKONER, key
from jobtrack.app.parts.listing import Listing
from jobtrack.app.screens.base import Card
from jobtrack.pages.job.list import job_words, template_words
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.store.machine.jobs_folder import Found, TemplateFile, jobs_in, templates
from jobtrack.template.load import TemplateError


class JobsScreen(Card):
    """Up and Down choose, Enter opens a job or begins one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "enter", "open or begin", "choose", "Open the marked job, or begin one from the marked template."
        ),
        RECKONER,
        *ARROWS,
        ALL_KEYS,
        QUIT,
    ]

    def __init__(self) -> None:
        super().__init__()
        self.found: list[Found] = []
        self.shelf: list[TemplateFile] = []
        self.trouble = ""
        self.listing = Listing(self.page, self.entries)

    def on_mount(self) -> None:
        self.read()

    def read(self) -> None:
        """Look through the folder and the templates."""
        self.found = jobs_in(self.bench.folder)
        try:
            self.shelf = templates()
        except TemplateError as error:
            self.trouble = str(error)

    def on_screen_resume(self) -> None:
        """Jobs may have changed while one of them was open."""
        self.read()
        self.draw()

    def draw(self) -> None:
        self.show_part("head", [line("Jobs in this folder", "strong")])
        self.listing.draw()
        self.show_part("last", wrap(self.trouble, self.room) if self.trouble else [])
        self.show_keys()

    def entries(self) -> list[list[Line]]:
        """A job in a few lines each, then a line a template."""
        found = [self._job(number, one) for number, one in enumerate(self.found)]
        begins = [self._template(len(found) + number, one) for number, one in enumerate(self.shelf)]
        if begins:
            begins[0] = [*wrap("Begin a job from a template", self.page.room, "strong"), *begins[0]]
        if not found and begins:
            begins[0] = [*wrap("No job is in this folder yet.", self.page.room), line(), *begins[0]]
        return found + begins

    def _job(self, number: int, one: Found) -> list[Line]:
        title, *more = job_words(one)
        width = self.page.room
        lines = self.listing.marked(number, title, width)
        lines += [row for text in more for row in wrap(f"    {text}", width, "", 6)]
        return [*item(lines, number), line()]

    def _template(self, number: int, one: TemplateFile) -> list[Line]:
        return item(self.listing.marked(number, template_words(one), self.page.room), number)

    def action_mark(self, by: int) -> None:
        """Choose another one."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def action_choose(self) -> None:
        """Open what is marked."""
        chosen = self.listing.chosen
        if chosen < len(self.found):
            self._open(self.found[chosen])
        elif chosen - len(self.found) < len(self.shelf):
            self.app.opening.begin(self.shelf[chosen - len(self.found)])

    def _open(self, one: Found) -> None:
        said = self.app.opening.file(one.path)
        if said is not None:
            self.entry.say(said)
