"""What the reckoner is told where it is opened, and what it gives back."""

from __future__ import annotations

from dataclasses import dataclass

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.job.state.job import Job
from jobtrack.pages.step.items import Item
from jobtrack.template.plan import PlannedStep


@dataclass(frozen=True, slots=True)
class ReckonerPlace:
    """Where the reckoner was opened: the job, the step at hand, and the reading that a number would enter."""

    file: OpenJob | None = None
    step: str | None = None
    item: Item | None = None
    takes_number: bool = False
    """Whether it is a step's page, which can take a result for a reading."""

    @property
    def job(self) -> Job | None:
        """The job's state, as far as it is recorded; None where it was opened over no job."""
        return self.file.job if self.file is not None else None

    @property
    def planned(self) -> PlannedStep | None:
        """The step at hand; None where there is none."""
        return self.job.steps.get(self.step or "") if self.job is not None else None


@dataclass(frozen=True, slots=True)
class Reckoned:
    """A result for the chosen reading, in its unit, with the note that goes with it; empty: only leave."""

    text: str = ""
    note: str = ""
