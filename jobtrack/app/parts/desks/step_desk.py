"""A screen about one step of a job: which is at hand, who was away from it, and where the reckoner would be opened."""

from __future__ import annotations

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.parts.desks.absence import Absence
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.step import asked
from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.reckoner_place import ReckonerPlace
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.remarks.passed_over import passes_over
from jobtrack.pages.step.items import READING
from jobtrack.pages.step.waits import grows_older
from jobtrack.template.plan import PlannedStep


class StepDesk(JobDesk):
    """Knows which step is at hand, and who has been away from it."""

    def __init__(self, screen: PageScreen, file: OpenJob, at: AtHand) -> None:
        super().__init__(screen, file)
        self.at = at
        self.absence = Absence(screen)

    def start(self) -> None:
        """As for any job; and begin to watch for silences."""
        super().start()
        self.absence.start()

    def follow(self) -> None:
        """Take in what others have added, and ask whoever was away."""
        super().follow()
        self.absence.look(self)
        self._grow_older()

    def _grow_older(self) -> None:
        """How long ago the last run of a weld was, and how long a check waits, goes on without an entry."""
        if self.at.item is not None and grows_older(self.at.here, self.at.item):
            self.at.now = self.screen.session.now()
            self.screen.entry.hint = asked.hint(self.at, self.screen.tall)
            self.screen.entry.hint_anew()

    @property
    def here(self) -> PlannedStep:
        """The step at hand."""
        return self.at.here

    def leaving(self, finishing: bool = False) -> None:
        """The step at hand is about to be finished or left: ring where that passes something over."""
        if passes_over(self.file.meant, self.at.step, finishing):
            self.screen.app.ring()

    def place(self) -> ReckonerPlace:
        """The job, this step, and the reading that a number would enter."""
        item = self.at.item
        reading = item if item is not None and item.kind == READING else None
        return ReckonerPlace(self.file, self.at.step, reading, takes_number=True)
