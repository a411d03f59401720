"""What holds for the whole job: all that is open, the hazards of every step, what is recorded beside the steps."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.papers import Papers
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.job.list import not_taken_over
from jobtrack.pages.job.page import job_page

BACK = "Back to where you were."


class JobPage(PageScreen):
    """One page to be read, and the sheets that leave it."""

    desk: JobDesk
    HELP = (
        "What holds for the whole job: everything that is recorded as open, in full, the hazards of every "
        "step, and what is recorded beside the steps. Read what is open first; {known} goes on to what is "
        "known of the vehicles, where it can be typed. {paper-card} writes the job card, "
        "{paper-record} a vehicle's record, {paper-wheel} the paper for the steering wheel, each into a folder beside "
        "the job file."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape", "back", "leave", BACK),
        key("c", "card", "paper('card')", "The job card on paper, filled in so far.", records=True),
        key("v", "record", "paper('record')", "A vehicle's record: what will stand on it, then on paper."),
        key("w", "wheel paper", "paper('wheel')", "The paper for the steering wheel: what is open, in large letters.",
            records=True),
        key("k", "known", "known", "What is known of the vehicles and of the job; typed there."),
        key("l", "hours", "labour_hours", "Labour hours of this job, by stage, step and person."),
        key("f", "empty card", "paper('empty-card')", "The job card with empty frames, for the bench.",
            records=True),
        key("h", "hand over", "hand_over", "Hand the job over to somebody; its sheet is written then."),
        RECKONER,
        ALL_KEYS,
        also("j", "leave", BACK),
        also("b", "leave", BACK),
        QUIT,
        REST,
    ]  # fmt: skip

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.papers = Papers(self.desk)

    def action_labour_hours(self) -> None:
        """The labour hours of the job."""
        self.app.opening.labour_hours(self.desk.file)

    def action_paper(self, which: str) -> None:
        """A sheet of the job as a file, opened."""
        self.papers.begin(which)

    def action_hand_over(self) -> None:
        """Hand the job over."""
        self.app.opening.hand_over(self.desk.file)

    def draw(self) -> None:
        """The page as the job stands now."""
        self.desk.draw_frame()
        self.page.show(
            job_page(self.desk.job, self.page.room, [*not_taken_over(self.desk.job), *self.desk.file.trouble])
        )

    def action_known(self) -> None:
        """The page of what is known."""
        self.app.opening.known(self.desk.file)
