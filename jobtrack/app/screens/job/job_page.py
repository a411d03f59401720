"""What holds for the whole job: all that is open, the hazards of every step, what is recorded beside the steps."""

from __future__ import annotations

from jobtrack.app.screens.base import Command
from jobtrack.app.screens.on_job import OnJob
from jobtrack.pages.job.page import job_page


class JobPage(OnJob):
    """One page, only to be read."""

    COMMANDS_HERE = (
        Command("Escape", "back", "leave", "Back to where you were."),
        Command("?", "all keys", "keys", "This page."),
        Command("j", "", "leave", "Back to where you were.", shown=False),
        Command("b", "", "leave", "Back to where you were.", shown=False),
        Command("q", "quit", "quit", "End the program."),
    )

    def draw(self) -> None:
        self.draw_frame()
        self.page.show(job_page(self.job, self.page.room))
