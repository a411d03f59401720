"""The jobs in the folder, the half-finished first, and the templates that one can begin from."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual import events
from textual.binding import BindingType

from jobtrack.app.disk.open_job import Found as Seen
from jobtrack.app.disk.open_job import first_look
from jobtrack.app.keys import ALL_KEYS, ARROWS, QUIT, RECKONER, key
from jobtrack.app.parts.folder_reading import FolderReading
from jobtrack.app.parts.listing import Listing
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.job.list import job_words, template_words, unread_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.rehearsed import Rehearsed
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import Found
from jobtrack.store.machine.template_folders import Shelf, TemplateFile
from jobtrack.template.load import TemplateError


class JobsScreen(PageScreen):
    """Up and Down choose, Enter opens a job or begins one."""

    HELP = (
        "The jobs of this folder, the half-finished first, each with what is recorded as open in it; below "
        "them the templates that a job can be begun from. Mark a line with the arrows, and Enter opens the "
        "job or begins one; {rehearse} rehearses a marked template, with nothing recorded. {walk} is a first "
        "walk through a half-done job, to try the keys."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "enter", "open or begin", "choose", "Open the marked job, or begin one from the marked template."
        ),
        key("r", "rehearse", "rehearse", "Walk the marked template on an invented job; nothing is recorded."),
        key("w", "first walk", "walk", "A short walk through a copy of a sample job: what the keys do."),
        RECKONER,
        *ARROWS,
        ALL_KEYS,
        QUIT,
    ]

    def __init__(self) -> None:
        super().__init__()
        self.found: list[Found] = []
        self.shelf: Shelf | None = None
        """The templates, once they are read."""
        self.reading = FolderReading(self, self._came, self._read)
        self.opening_one = False
        """Whether a job is being opened."""
        self.held: list[events.Key] = []
        """The keys that came meanwhile: they are meant for the job."""
        self.listing = Listing(self.page, self.entries)

    def on_screen_resume(self) -> None:
        """Jobs may have changed while one of them was open."""
        self.reading.begin(self.session.folder)
        self.draw()
        apart = self.app.apart
        if apart is not None and self.app.screen is self:  # not on the way from one page to another
            self.app.apart = None
            self.show_keys()
            self.entry.say(apart.over())

    def _came(self, found: list[Found]) -> None:
        """Show what has been read so far; what was there before stays until all is read."""
        if len(found) > len(self.found):
            self._show(found)

    def _read(self, found: list[Found], shelf: Shelf) -> None:
        """All is read."""
        self.shelf = shelf
        self._show(found)

    @property
    def templates(self) -> Sequence[TemplateFile]:
        """The templates that stand below the jobs."""
        return self.shelf.templates if self.shelf is not None else ()

    def _show(self, found: list[Found]) -> None:
        """Show these jobs; a line that was chosen stays chosen, wherever it stands by now."""
        marked = self._marked() if self.listing.chosen else None
        self.found = found
        paths = [one.path for one in found] + [one.file for one in self.templates]
        self.listing.chosen = paths.index(marked) if marked in paths else self.listing.chosen
        self.draw()

    def _marked(self) -> Path | None:
        paths = [one.path for one in self.found] + [one.file for one in self.templates]
        return paths[self.listing.chosen] if self.listing.chosen < len(paths) else None

    def draw(self) -> None:
        """The jobs and templates as they were read last."""
        self.show_part("head", [line("Jobs in this folder", "strong")])
        self.listing.draw()
        if not self.found and self.shelf is None:
            self.page.show([line("The jobs of this folder are being read.")])
        self.show_part("last", [])
        self.show_keys()

    def entries(self) -> list[list[Line]]:
        """A job in a few lines each, then a line a template."""
        found = [self._job(number, one) for number, one in enumerate(self.found)]
        begins = [self._template(len(found) + number, one) for number, one in enumerate(self.templates)]
        if begins:
            begins[0] = [*wrap("Begin a job from a template", self.page.room, "strong"), *begins[0]]
        if not found and begins:
            begins[0] = [*wrap("No job is in this folder yet.", self.page.room), line(), *begins[0]]
        if begins:
            begins[-1] = [*begins[-1], *self._unread()]
        return found + begins

    def _job(self, number: int, one: Found) -> list[Line]:
        title, *more = job_words(one)
        width = self.page.room
        lines = self.listing.marked(number, title, width)
        lines += [row for text in more for row in wrap(f"    {text}", width, "", 6)]
        return [*item(lines, number), line()]

    def _template(self, number: int, one: TemplateFile) -> list[Line]:
        return item(self.listing.marked(number, template_words(one), self.page.room), number)

    def _unread(self) -> list[Line]:
        """The files that can't be read as a template, a few rows each."""
        broken = self.shelf.broken if self.shelf is not None else ()
        return [row for one in broken for row in (line(), *wrap(unread_words(one), self.page.room, "", 4))]

    def action_mark(self, by: int) -> None:
        """Choose another one."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def offers(self, action: str) -> bool:
        """A template is what can be rehearsed."""
        return action != "rehearse" or self._template_marked is not None

    @property
    def _template_marked(self) -> TemplateFile | None:
        number = self.listing.chosen - len(self.found)
        return self.templates[number] if 0 <= number < len(self.templates) else None

    def action_rehearse(self) -> None:
        """Walk the marked template on an invented job."""
        template = self._template_marked
        if template is None:
            return

        def made() -> tuple[Rehearsed, Seen, int] | str:
            from jobtrack.app.rehearsal import rehearsed

            try:
                return rehearsed(template.file)
            except TemplateError as error:
                return str(error)

        self._hold_keys("The rehearsal is being prepared")
        self.app.once(made, self._rehearsed)

    def _rehearsed(self, found: tuple[Rehearsed, Seen, int] | str) -> None:
        held = self._let_keys_go()
        if isinstance(found, str):
            self.entry.say(found)
        else:
            self.app.opening.rehearsal(*found)
        self._hand_on(held)

    def action_walk(self) -> None:
        """What the first walk is; Enter there begins it."""
        self.app.opening.walk()

    def action_choose(self) -> None:
        """Open what is marked; what was pressed before anything stood there waits until it does."""
        chosen = self.listing.chosen
        if self.shelf is None:
            self.reading.then(self.action_choose)
        elif chosen < len(self.found):
            self._open(self.found[chosen].path)
        elif self._template_marked is not None:
            self.app.opening.begin(self._template_marked)

    async def take_key(self, event: events.Key) -> bool:
        """While a job is being opened, keys are kept for it; quitting still ends the program."""
        if self.opening_one and event.key != named("q", "quit"):
            self.held.append(event)
            return True
        return await super().take_key(event)

    def _open(self, path: Path) -> None:
        def opened() -> tuple[JobFile, Seen] | str:
            try:
                file = JobFile(path)
                return file, first_look(file)
            except JobFileError as error:
                return str(error)

        self._hold_keys("It is being opened")
        self.app.once(opened, self._opened)

    def _opened(self, found: tuple[JobFile, Seen] | str) -> None:
        held = self._let_keys_go()
        if isinstance(found, str):
            self.entry.say(found)
        else:
            self.app.opening.job(*found)
        self._hand_on(held)

    def _hold_keys(self, why: str) -> None:
        self.opening_one = True
        quit = named("q", "quit")
        self.entry.say(f"{why}; what is typed meanwhile goes to the job. {quit} ends the program.")

    def _let_keys_go(self) -> list[events.Key]:
        """The keys that were held, held no longer."""
        held, self.held, self.opening_one = self.held, [], False
        self.entry.say("")
        return held

    def _hand_on(self, held: list[events.Key]) -> None:
        for event in held:
            self.taking.hand_on(event)
