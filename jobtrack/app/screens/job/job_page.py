"""What holds for the whole job: all that is open, the hazards of every step, what is recorded beside the steps."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.job.list import not_taken_over
from jobtrack.pages.job.page import job_page

BACK = "Back to where you were."


class JobPage(PageScreen):
    """One page, only to be read."""

    desk: JobDesk
    HELP = (
        "What holds for the whole job: everything that is recorded as open, in full, the hazards of every "
        "step, and what is recorded beside the steps. Read what is open first; {known} goes on to what is "
        "known of the vehicles, where it can be typed."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape", "back", "leave", BACK),
        key("k", "what is known", "known", "What is known of the vehicles and of the job; typed there."),
        key("l", "labour hours", "labour_hours", "Labour hours of this job, by stage, step and person."),
        RECKONER,
        ALL_KEYS,
        also("j", "leave", BACK),
        also("b", "leave", BACK),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)

    def action_labour_hours(self) -> None:
        """The labour hours of the job."""
        self.app.opening.labour_hours(self.desk.file)

    def draw(self) -> None:
        """The page as the job stands now."""
        self.desk.draw_frame()
        self.page.show(
            job_page(self.desk.job, self.page.room, [*not_taken_over(self.desk.job), *self.desk.file.trouble])
        )

    def action_known(self) -> None:
        """The page of what is known."""
        self.app.opening.known(self.desk.file)
