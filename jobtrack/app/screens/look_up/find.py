"""The index of a job: a few letters, and whatever they mean, with its key or where it is; Enter goes there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.binding import BindingType
from textual.widgets import Input

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.painted import Painted
from jobtrack.app.parts.window import Window
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import Ask
from jobtrack.app.widgets.page import Page
from jobtrack.job.state.job import Job
from jobtrack.pages.look_up.find import (
    LISTS,
    NONE_OF_IT,
    Do,
    Offer,
    Only,
    Row,
    all_rows,
    filed_under,
    list_rows,
)
from jobtrack.pages.look_up.found import enter_words, entry_lines
from jobtrack.pages.look_up.matching import matching
from jobtrack.pages.typeset import Line, line
from jobtrack.pages.wording import counted

NOTHING = "Nothing here has these letters; Backspace takes one off."


class FindScreen(PageScreen):
    """One list of everything; the answer is the row that was chosen, or None."""

    desk: JobDesk
    HELP = (
        "The index of this job, as at the back of a handbook: what can be done, steps, readings, checks, parts, "
        "torques and what is open, in the order of letters, each with its key or where it is. Type a few letters, "
        "mark one with the arrows, and Enter goes there or does it. Escape goes back with nothing done."
    )
    KEYS_WHILE_TYPING = True
    WHILE_TYPING = frozenset({"mark", "scroll_page"})
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go", "choose", "Go to the marked one, or do it."),
        key("escape", "back", "back", "Out of a list to all of it; else back to the step."),
        *ARROWS,
        ALL_KEYS,
    ]

    def __init__(self, file: OpenJob, step: str, offers: Sequence[Offer]) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.window = Window(self.page, lambda: len(self.shown), self._lines)
        self.step = step
        self.offered = offers
        self.only = ""
        """The list that alone is shown; empty: everything."""
        self.text = ""
        self.rows: Sequence[Row] = ()
        self.shown: Sequence[Row] = ()
        """The rows that the letters leave."""
        self._of: Job | None = None
        """The state that the rows are of."""
        self.painted = Painted(self.entry)

    def on_mount(self) -> None:
        """Ask for letters at once."""
        self.desk.start()
        self.ask()

    def ask(self) -> None:
        """An empty field over all rows, or over one list."""
        self.narrow("", anew=True)
        self.window.begin()
        what = LISTS.get(self.only, "Index: type a few letters")
        self.entry.ask(Ask([line(what, "strong")], self._entered, echo=self._said))
        self.draw()

    def draw(self) -> None:
        """What is open on top; the rows that the letters leave, as they stand now."""
        if self._of is not self.desk.job:
            self.narrow(self.text, anew=True)
        self.desk.draw_frame(self.desk.job.steps.get(self.step))
        self.show_part("last", [])
        self.window.draw()
        self.painted.drawn(self.marked)

    @property
    def marked(self) -> Row | None:
        """The row that Enter takes."""
        return self.shown[self.window.chosen] if self.window.chosen < len(self.shown) else None

    def _lines(self, number: int, chosen: bool) -> list[Line]:
        row = self.shown[number]
        return entry_lines(
            self.desk.job, row, self.page.room, chosen, self._letter(number), self.session.shown
        )

    def _letter(self, number: int) -> str:
        """The letter in the margin of the first entry under it; none where letters are typed, or in one list."""
        row, before = self.shown[number], self.shown[number - 1]
        if self.only or self.text or isinstance(row.to, Only):
            return ""
        letter = filed_under(row)[:1]
        return "" if not isinstance(before.to, Only) and filed_under(before)[:1] == letter else letter.upper()

    # Letters

    def narrow(self, text: str, anew: bool = False) -> None:
        """Leave the rows that the letters mean; the marker goes to the best of them where the letters are others."""
        job = self.desk.job
        if anew:
            here = job.steps.get(self.step)
            self._of = job
            self.rows = list_rows(job, self.only) if self.only else all_rows(job, here, self.offered)
        if text != self.text:
            self.window.begin()
        if anew or text != self.text:
            self.shown = matching(self.rows, text)
        self.text = text

    @on(Page.Resized)
    def _resized(self) -> None:
        """More or fewer rows are in sight."""
        self.draw()

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        if event.value != self.text:
            self.narrow(event.value)
        self.draw()

    def _said(self, text: str) -> str:
        """What Enter would do; or why there is nothing to go to."""
        self.narrow(text)
        if self.marked is None:
            return NOTHING if text.strip() else NONE_OF_IT.get(self.only, NOTHING)
        count = f" {counted(len(self.shown), 'row')}." if text.strip() else ""
        return f"{enter_words(self.desk.job, self.marked)}{count}"

    def _entered(self, text: str) -> str | None:
        """Take the marked row; one that does something only where it stood on the screen when Enter was pressed."""
        self.narrow(text)
        row = self.marked
        if row is None:
            return self._said(text)
        if isinstance(row.to, Do) and not self.painted.was(row, self.pressed):
            self.draw()
            return f"Enter came before this stood on the screen. {self._said(text)}"
        if isinstance(row.to, Only):
            self.only = row.to.list
            self.ask()
        else:
            self.dismiss(row)
        return None

    # Keys

    def action_mark(self, by: int) -> None:
        """Mark another one."""
        self.window.move(by)
        self._moved()

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        self.window.turn(key)
        self._moved()
        return True

    def _moved(self) -> None:
        self.draw()
        self.entry.say(self._said(self.entry.text))

    def action_choose(self) -> None:
        """Enter, as the keys' row names it."""
        self.entry.submit()

    def dropped(self) -> None:
        """Escape: its one question is never given up alone."""
        self.action_back()

    def action_back(self) -> None:
        """Out of one list to all rows; else back, with nothing chosen."""
        if self.only:
            self.only = ""
            self.ask()
        else:
            self.dismiss(None)
