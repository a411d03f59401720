"""The next version of the template that a job was begun from: seen first, then written beside the job."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.authoring.next_version import NextVersion
from jobtrack.authoring.of_file import NoNextVersion, version_of
from jobtrack.pages.job.next_version import next_version_page
from jobtrack.pages.own_keys import named
from jobtrack.store.file.beside import write_template
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile

BACK = "Back to where you were."


class NextVersionScreen(PageScreen):
    """One page to read, and a key that writes the file."""

    desk: JobDesk
    HELP = (
        "What this job would change in its template: steps that were added, times, parts and surprises, in words "
        "and line by line. {write}, and again, writes the new version beside the job; the job and its template stay "
        "as they are."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("w", "write it", "write", "Write the new version into a file beside the job: then {} again."),
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
        self.made: NextVersion | None = None
        self.why_not = ""

    def on_mount(self) -> None:
        """Make it once: a job that has ended seldom changes while somebody reads this."""
        try:
            self.made = version_of(self.desk.file.file)
        except (NoNextVersion, JobFileError) as error:
            self.why_not = f"There is no next version: {error}"
        super().on_mount()

    def draw(self) -> None:
        """What would change."""
        self.desk.draw_frame()
        self.page.show(next_version_page(self.made, self.why_not, self.page.room))

    def action_write(self) -> None:
        """Say what will be written; a second key writes it."""
        made = self.made
        if made is None:
            self.entry.say(self.why_not)
            return
        about, write = (
            [f"Writes version {made.data['version']} of {made.data['id']} beside the job."],
            named("w", "write"),
        )
        self.entry.confirm(SecondKey(
            about, write, lambda: self._write(made), f"Press {write} again to write it; any other key cancels.",
            key_row=f"{write} writes it   Escape cancels",
        ))  # fmt: skip

    def _write(self, made: NextVersion) -> None:
        self.entry.idle()
        self.draw()
        self.entry.say("")
        file = self.desk.file.file
        self.desk.file.beside(lambda: _written(file, made), lambda said: self.desk.tell(said, stays=True))


def _written(file: JobFile, made: NextVersion) -> str:
    """Write it; in the disk's thread."""
    try:
        return f"Written: {write_template(file.beside, made.data['id'], made.data['version'], made.text)}"
    except JobFileError as error:
        return f"Not written: {error}"
