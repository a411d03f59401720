"""The job parked for parts: what is missing and what is on its way, asked for in one go, and written as a list."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.acts.doing import ASKED
from jobtrack.job.compose import doing
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.job.parts import to_buy_page
from jobtrack.pages.wording import counted
from jobtrack.sheets.to_buy import outstanding, to_buy_text
from jobtrack.store.file.beside import write_beside
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile

BACK = "Back to where you were."
ALL_ASKED = "All of them are recorded as asked for, or further; nothing is recorded."


class ToBuyScreen(PageScreen):
    """One page to read, and two keys for the whole of it."""

    desk: JobDesk
    HELP = (
        "What is missing and what is on its way, with whom and when due, as far as it is recorded. "
        "{need-all} records all that is missing as asked for; {write} writes the list into a text file beside the job."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "n",
            "need all of them",
            "need_all",
            "Record as asked for all of which nothing is recorded.",
            records=True,
        ),
        key("w", "write the list", "write", "Write the list into a text file beside the job."),
        key("escape", "back", "leave", BACK),
        ALL_KEYS,
        JOB,
        RECKONER,
        QUIT,
        also("b", "leave", BACK),
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)

    def draw(self) -> None:
        """The list as it stands now."""
        self.desk.draw_frame()
        self.page.show(to_buy_page(self.desk.job, self.page.room))

    def action_need_all(self) -> None:
        """Ask for all of which nothing is recorded, in one entry."""
        self.asks.with_name(self._need_all)

    def _need_all(self) -> None:
        needed = [one.name for one in outstanding(self.desk.file.meant) if not one.states]
        if not needed:
            self.entry.say(ALL_ASKED)
            return

        def fill(made: Draft) -> None:
            for name in needed:
                doing.buying(made, name, ASKED)

        said = f"{counted(len(needed), 'part')} asked for."
        self.desk.put(None, fill, then=lambda told: self.desk.tell(told.of(said), told.kept))

    def action_write(self) -> None:
        """The list as a file beside the job; said where."""
        text = to_buy_text(self.desk.job, self.session.now())
        file = self.desk.file.file
        self.desk.file.beside(lambda: _written(file, text), lambda said: self.desk.tell(said, stays=True))


def _written(file: JobFile, text: str) -> str:
    """Write the list; in the disk's thread."""
    try:
        return f"Written: {write_beside(file.beside, 'to-buy', text)}"
    except JobFileError as error:
        return f"Not written: {error}"
