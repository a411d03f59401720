"""Beginning a job: its title and Enter; who begins it is asked only where nobody is known to be there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import Found, first_look
from jobtrack.app.keys import ALL_KEYS, key
from jobtrack.app.parts.questions import too_long
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import Ask
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.job.beginning import begin_page, begun_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import line, wrap
from jobtrack.sheets.words.templates import which_file
from jobtrack.store.file.beginning import begin
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.machine.jobs_folder import ENDING
from jobtrack.store.machine.template_folders import TemplateFile
from jobtrack.template.load import TemplateError, load
from jobtrack.template.model import Template
from jobtrack.units import UnitError

TITLE, NAME = "title", "name"
QUESTIONS = {
    TITLE: "What is this job called?",
    NAME: "Who begins it? Type your name as it should stand in the record.",
}
MISSING = {
    TITLE: "Type a title, then Enter: it names the job in the folder.",
    NAME: "Type your name, then Enter: it stands beside what you record.",
}


class BeginScreen(PageScreen):
    """One page and at most two questions; nothing is written before the Enter that begins the job."""

    HELP = (
        "A new job from this template. Type what the job is called and press Enter: that begins it, and "
        "nothing is written before. Everything else is asked in the step that needs it."
    )
    FIELD_STAYS_OPEN = True
    WHILE_TYPING = frozenset({"other_name", "scroll_page"})
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "begin the job", "ask", "Begin the job, once it has a title and somebody's name."),
        key("tab", "another name", "other_name", "Type another name for who begins it."),
        key("escape", "back", "leave", "Back; what is typed stands there again when you come back."),
        ALL_KEYS,
    ]

    def __init__(self, template: TemplateFile) -> None:
        super().__init__()
        self.template = template
        self.read: Template | None = None
        self.typed = {TITLE: "", NAME: ""}
        """What stands for each question, taken or not."""
        self.asked = TITLE
        self._written = False
        """Whether the job has been given to the disk."""

    def on_mount(self) -> None:
        """Read the template, and ask for the title; a template that can't be read is said, and nothing asked."""
        self.typed = {TITLE: self.session.titles.get(self.template.id, ""), NAME: self.session.by or ""}
        try:
            self.read, _ = load(self.template.file)
        except TemplateError as error:
            self.entry.say(f"{error}. Escape goes back to the jobs.")
            return
        self.draw()
        self.ask(TITLE)

    def draw(self) -> None:
        """What the program is and isn't, the hazards of the whole job, and what comes after Enter."""
        self.show_part("head", [line(f"Begin a job: {self.template.title}", "strong")])
        if self.read is not None:
            self.page.show(begin_page(self.read, which_file(self.template), self.typed[NAME], self.page.room))
        self.show_part("last", [])
        self.show_keys()

    def action_ask(self) -> None:
        """Ask again, where nothing is asked."""
        if self.read is not None and not self._written:
            self.ask(self.asked)

    def ask(self, what: str, why: str = "") -> None:
        """Ask for the title or the name, what was typed for it in the field; `why` it is asked again."""
        self.asked = what
        self.entry.ask(Ask(
            wrap(QUESTIONS[what], self.room, "strong"), self._taken, start=self.typed[what],
            hint=why or "Nothing is written before Enter.", key_row=self._key_row(),
        ))  # fmt: skip

    def _key_row(self) -> str:
        if self.asked == NAME:
            return "Enter begins the job   Escape back to the title"
        enter = "Enter begins the job   Tab another name" if self.typed[NAME] else "Enter goes on"
        return f"{enter}   Escape back to the jobs   {named('?', 'all-keys')} help"

    def _taken(self, text: str) -> str | None:
        """Take an answer; then ask what is still missing, or begin."""
        self.typed[self.asked] = " ".join(text.split())
        if not self.typed[self.asked]:
            return MISSING[self.asked]
        if refused := too_long(self.typed[self.asked]):
            return refused
        missing = next((one for one in (TITLE, NAME) if not self.typed[one]), None)
        if missing is None:
            self._begin()
        else:
            self.draw()
            self.ask(missing)
        return None

    def action_other_name(self) -> None:
        """Ask for the name, the title kept as it stands."""
        if self.asked == TITLE and self.entry.asking is not None:
            self.typed[TITLE] = self.entry.text
            self.ask(NAME)

    def dropped(self) -> None:
        """From the name back to the title; from the title back to the jobs. What is typed is kept."""
        if self.entry.asking is not None:
            self.typed[self.asked] = self.entry.text
        self.session.titles[self.template.id] = self.typed[TITLE]
        if self.asked == NAME:
            self.ask(TITLE)
        else:
            self.action_leave()

    def _begin(self) -> None:
        """Write the job; until it is there, nothing more is asked."""
        folder, title, by = self.session.folder, self.typed[TITLE], self.typed[NAME]

        def begun() -> tuple[JobFile, Found] | str:
            try:
                file = begin(self.template.file, free_path(folder, title), by, title, ())
                return file, first_look(file)
            except (TemplateError, JobFileError, Refused, UnitError, NotRecorded) as error:
                return str(error)

        self.entry.idle()
        self.entry.tell("NOT YET RECORDED: the job is being written.")
        if not self._written:
            self._written = True
            self.app.once(begun, self._begun, writes=True)

    def _begun(self, found: tuple[JobFile, Found] | str) -> None:
        self.entry.tell("")
        if isinstance(found, str):
            self._written = False
            self.ask(TITLE, f"Not begun: {found}. Mend that, then Enter; or Escape goes back to the jobs.")
            return
        self.session.by = self.typed[NAME]
        self.session.titles.pop(self.template.id, None)
        if self.app.screen is self:
            self.app.pop_screen()
        self.app.opening.job(*found, begun_words(found[0].job))


def free_path(folder: Path, title: str) -> Path:
    """A file name made from the title that isn't taken yet."""
    stem = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:60] or "job"
    path, number = folder / f"{stem}{ENDING}", 2
    while path.exists():
        path, number = folder / f"{stem}-{number}{ENDING}", number + 1
    return path
