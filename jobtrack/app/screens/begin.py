"""Beginning a job: its title, who begins it, what is known; only the title can't be "don't know yet"."""

from __future__ import annotations

import re
from pathlib import Path
from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.keys import key
from jobtrack.app.open_job import Found, first_look
from jobtrack.app.parts.questions import Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.compose.typed import given_value
from jobtrack.pages.step.entering import choices, chosen_text
from jobtrack.pages.step.hazards import hazard_lines
from jobtrack.pages.step.items import GIVEN, Item
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import FIRST_WORD, counted
from jobtrack.store.file.beginning import begin
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.machine.jobs_folder import ENDING, TemplateFile
from jobtrack.template.load import TemplateError, load
from jobtrack.template.model import Given, Hazard
from jobtrack.template.plan import plan
from jobtrack.units import UnitError, both, read

ONLY_TWO = "A title and your name are needed; every other question can be left for later."


class BeginScreen(PageScreen):
    """One question after another; nothing is written before the last key."""

    KEYS_WHILE_TYPING = True
    WHILE_TYPING = frozenset({"begin_now"})
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go on", "next_question", "The next question."),
        key("tab", "begin now, the rest later", "begin_now", "Begin with what is known by now."),
        key("escape", "one question back", "leave", "One question back; from the first, to the jobs."),
    ]

    def __init__(self, template: TemplateFile) -> None:
        super().__init__()
        self.template = template
        self.asks = Questions(self, "Enter goes on, Escape goes one question back.")
        self.title_typed = ""
        self.who = ""
        self.answers: dict[str, str] = {}
        self.givens: dict[str, Given] = {}
        self.hazard: tuple[Hazard, ...] = ()
        self.later: set[str] = set()
        """What is decided on what the job measures first: asked in its step, not here."""
        self.at = -2
        """Which question is asked: -2 the title, -1 who, then the givens."""
        self.typed: dict[int, str] = {}
        """What was typed at each question, so that it stands there again on the way back."""
        self._written = False
        """Whether the job has been given to the disk."""
        self.left_at: int | None = None
        """The question at which the rest were left for later."""

    def on_mount(self) -> None:
        """Read the template, and ask the first question; a template that can't be read is said, and nothing asked."""
        try:
            read_template, _ = load(self.template.file)
        except TemplateError as error:
            self.entry.say(str(error))
            return
        planned = plan(read_template)
        self.givens, self.hazard = planned.givens, read_template.hazard
        self.later = {ref.name for step in planned.steps.values() for row in step.step.compare.values()
                      if row.then and (ref := planned.resolve(row.then, step)) is not None}  # fmt: skip
        self.who = self.session.by or ""
        self.action_next_question()

    def draw(self) -> None:
        """The hazards of the whole job, then what has been said; the newest answer in sight."""
        width = self.page.room
        self.show_part("head", [line(f"Begin a job: {self.template.title}{self._number()}", "strong")])
        self.page.show(
            [*wrap(FIRST_WORD, width), *hazard_lines(self.hazard, width), line(), *self._said(width)]
        )
        self.page.scroll_end(animate=False) if self.at > 0 else None
        self.show_part("last", [])
        self.show_keys()

    def _number(self) -> str:
        """Which question of how many this is, as far as what was answered says."""
        names = [name for name in self.givens if self._asks(name)]
        if self.at >= len(self.givens):
            return ""
        number = 3 + self.at if self.at < 0 else 3 + names.index(list(self.givens)[self.at])
        return f". Question {number} of {2 + len(names)}"

    def _said(self, width: int) -> list[Line]:
        lines = wrap(f"Title: {self.title_typed}", width, "strong", 2) if self.title_typed else []
        lines += wrap(f"Begun by: {self.who}", width, "", 2) if self.at > -1 else []
        for name, given in list(self.givens.items())[: max(self.at, 0)]:
            lines += wrap(f"{label(name, given)}: {self._answer(name, given)}", width, "", 2)
        return lines

    def _answer(self, name: str, given: Given) -> str:
        if name in self.later:
            return "asked after measuring"
        text, known = self.answers.get(name), default_text(given)
        if text is None and known:
            return f"{known}, as the template has it"
        return "don't know yet" if text in (None, "?") else text

    def action_next_question(self) -> None:
        """Ask what comes next."""
        if self.at == -2:
            self.asks.ask(
                "What is this job called?", self._titled, [ONLY_TWO], start=self._start(self.title_typed)
            )
        elif self.at == -1:
            self.asks.ask(
                "Who begins it? Type your name as it should stand in the record.",
                self._named,
                start=self._start(self.who),
            )
        elif self.at < len(self.givens):
            self._ask_given(*list(self.givens.items())[self.at])
        else:
            self._confirm("Every question has its answer above.")

    def _start(self, known: str = "") -> str:
        """What stands in the field as a question is asked."""
        return self.typed.get(self.at, known)

    def _confirm(self, about: str) -> None:
        """What is known, and the one key that writes the job."""
        later = (
            f" {counted(len(self.later), 'question')} will be asked after measuring." if self.later else ""
        )
        self.draw()
        self.entry.confirm(SecondKey(
            [f"{about}{later} Begin the job?"], "b", self._begin,
            "Nothing is written yet.", (), "b begin the job   Escape one question back",
        ))  # fmt: skip

    def action_begin_now(self) -> None:
        """Leave what hasn't been asked for later, as soon as title and name are known."""
        if self.at < 0:
            self.entry.say("Type this first; every other question can be left for later.")
            return
        if self.entry.text != self._start():
            self.entry.say("Enter takes what is typed here; then Tab begins.")
            return
        left = [name for name in list(self.givens)[self.at :] if self._asks(name)]
        self.answers |= {name: "?" for name in left if self.givens[name].default is None}
        self.left_at, self.at = self.at, len(self.givens)
        self._confirm(
            f"{counted(len(left), 'question')} left without an answer: not yet known, "
            "to be answered in the step that needs it."
        )

    def _go_on(self) -> None:
        self.at += 1
        while 0 <= self.at < len(self.givens) and not self._asks(list(self.givens)[self.at]):
            self.answers[list(self.givens)[self.at]] = "?"
            self.at += 1
        self.draw()
        self.action_next_question()

    def _asks(self, name: str) -> bool:
        """Whether a question is asked here at all."""
        return name not in self.later and self._asked(self.givens[name])

    def _asked(self, given: Given) -> bool:
        """Whether what a given depends on has been answered so that it matters."""
        return all(self.answers.get(name, "?") in ("?", *(str(one) for one in values))
                   for name, values in given.only_when.items())  # fmt: skip

    def _titled(self, text: str) -> str | None:
        if not text.strip():
            return "Type a title: it names the job in the folder."
        self.title_typed = self.typed[self.at] = " ".join(text.split())
        self._go_on()
        return None

    def _named(self, text: str) -> str | None:
        if not text.strip():
            return "Type your name: it stands beside what you record."
        self.who = self.typed[self.at] = " ".join(text.split())
        self._go_on()
        return None

    def _ask_given(self, name: str, given: Given) -> None:
        known = default_text(given)
        enter = (
            f"Enter: {known}, as the template has it; ? don't know yet" if known else "Enter: don't know yet"
        )
        item = Item(GIVEN, name, label(name, given), given.unit, given.choose, given.kind)
        about = [f"Choose by number: {choices(item)}. {enter}." if given.choose else f"{enter}."]
        unit = f" ({given.unit})" if given.unit else ""
        self.entry.ask(Ask(wrap(f"{item.label}{unit}", self.room, "strong"),
                           lambda text: self._answered(item, given, text), about, self._start(),
                           lambda text: read_back(given, item, text)))  # fmt: skip

    def _answered(self, item: Item, given: Given, text: str) -> str | None:
        as_typed, text = text, chosen_text(item, text)
        if not text and given.default is not None:
            self.answers.pop(item.name, None)
        else:
            try:
                given_value(item.name, given, text) if text not in ("", "?") else None
            except (Refused, UnitError) as error:
                return str(error)
            self.answers[item.name] = text or "?"
        self.typed[self.at] = as_typed
        self._go_on()
        return None

    def _begin(self) -> None:
        """Write the job; until it is there, nothing more is asked."""
        folder, title, answers = self.session.folder, self.title_typed, list(self.answers.items())

        def begun() -> tuple[JobFile, Found] | str:
            try:
                out = free_path(folder, title)
                file = begin(self.template.file, out, self.who, title, answers)
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
            self.entry.say(found)
            return
        self.session.by = self.who
        if self.app.screen is self:
            self.app.pop_screen()
        self.app.opening.job(*found)

    def dropped(self) -> None:
        """One question back, what is typed kept; from the first, back to the jobs."""
        if self.entry.asking is not None:
            self.typed[self.at] = self.entry.text
        self.entry.idle()
        if self.at <= -2:
            self.action_leave()
            return
        self.at = self.left_at if self.left_at is not None else self._before(self.at)
        self.left_at = None
        self.draw()
        self.action_next_question()

    def _before(self, at: int) -> int:
        """The question before one, without those that aren't asked."""
        names = list(self.givens)
        at = min(at, len(names)) - 1
        while at >= 0 and not self._asks(names[at]):
            at -= 1
        return at


def label(name: str, given: Given) -> str:
    """A question with the vehicle that it is about."""
    owner = name.rpartition(".")[0]
    return f"{given.ask} ({owner})" if owner and owner not in given.ask else given.ask


def default_text(given: Given) -> str:
    """What the template has for a given, as one would type it."""
    if given.default is None:
        return ""
    if isinstance(given.default, bool):
        return "yes" if given.default else "no"
    return f"{given.default} {given.unit}" if given.unit else str(given.default)


def read_back(given: Given, item: Item, text: str) -> str:
    """How an answer would be read."""
    text = chosen_text(item, text)
    if not text or given.unit is None:
        return f"= {text}" if text else "Escape goes one question back."
    try:
        typed = read(text, given.unit) if text != "?" else None
    except UnitError as error:
        return str(error)
    return f"= {both(typed.value, given.unit)}" if typed and typed.value is not None else f"= {text}"


def free_path(folder: Path, title: str) -> Path:
    """A file name made from the title that isn't taken yet."""
    stem = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:60] or "job"
    path, number = folder / f"{stem}{ENDING}", 2
    while path.exists():
        path, number = folder / f"{stem}-{number}{ENDING}", number + 1
    return path
