"""The jobs in the folder, the half-finished first, and the templates that one can begin from."""

from __future__ import annotations

from jobtrack.app.screens.base import Command
from jobtrack.app.screens.choose import ARROWS, Listing
from jobtrack.pages.job.list import job_words, template_words
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.store.machine.jobs_folder import Found, TemplateFile, jobs_in, templates
from jobtrack.template.load import TemplateError


class JobsScreen(Listing):
    """Up and Down choose, Enter opens a job or begins one."""

    RECKONS = True
    COMMANDS_HERE = (
        Command(
            "Enter", "open or begin", "choose", "Open the marked job, or begin one from the marked template."
        ),
        *ARROWS,
        Command("?", "all keys", "keys", "This page."),
        Command("q", "quit", "quit", "End the program."),
    )

    def __init__(self) -> None:
        super().__init__()
        self.found: list[Found] = []
        self.shelf: list[TemplateFile] = []
        self.trouble = ""

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
        self.draw_items()
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
        lines = self.marked(number, title, width)
        lines += [row for text in more for row in wrap(f"    {text}", width, "", 6)]
        return [*item(lines, number), line()]

    def _template(self, number: int, one: TemplateFile) -> list[Line]:
        return item(self.marked(number, template_words(one), self.page.room), number)

    def choose(self) -> None:
        """Open what is marked."""
        if self.chosen < len(self.found):
            self._open(self.found[self.chosen])
        elif self.chosen - len(self.found) < len(self.shelf):
            from jobtrack.app.screens.begin import BeginScreen

            self.app.push_screen(BeginScreen(self.shelf[self.chosen - len(self.found)]))

    def _open(self, one: Found) -> None:
        from jobtrack.app.screens.opening import open_job

        said = open_job(self.app, one.path)
        if said is not None:
            self.entry.say(said)
