"""The step that is shown, and the line of it that an answer goes to."""

from __future__ import annotations

from datetime import datetime

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.job.state.job import FINISHED, Job
from jobtrack.pages.step.hazards import seen_today
from jobtrack.pages.step.items import CLOSING, Item, first_open, items
from jobtrack.store.machine import now
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST


class AtHand:
    """Which step, which line, and how much of the hazard messages stands there whole."""

    def __init__(self, file: OpenJob, step: str) -> None:
        self._file = file
        self.step = step
        self.chosen: int | None = None
        self.whole = True
        self.job_whole = False
        self.turned = False
        """Whether the page may have left its top, with the whole messages on it."""
        self.moved = False
        """Whether a line was chosen or answered; before that the page is read from its top."""
        self.far = False
        """Whether it is drawn to be read from two metres."""
        self.shown = METRIC_FIRST
        """The unit system that the step is drawn in."""
        self.now = now.local_now()
        """When it was drawn."""
        self._looked_at: list[tuple[datetime, str]] = []
        """Which steps were turned to, and when."""
        self.answered: tuple[Item, str] | None = None
        """The check that was answered last and is still chosen, and the answer."""

    @property
    def job(self) -> Job:
        """The state of the job."""
        return self._file.job

    @property
    def meant(self) -> Job:
        """The same with what is on its way to the disk."""
        return self._file.meant

    @property
    def here(self) -> PlannedStep:
        """The step."""
        return self.job.steps[self.step]

    @property
    def items(self) -> list[Item]:
        """The lines that take an answer; a bolt's or a run's as it is asked after what is on its way to the disk."""
        return items(self.meant, self.here)

    @property
    def item(self) -> Item | None:
        """The reading or check that an answer goes to."""
        found = self.items
        return found[self.chosen] if self.chosen is not None and self.chosen < len(found) else None

    @property
    def marked(self) -> int | None:
        """The line to be kept in sight; none before one was chosen or answered."""
        return (CLOSING if self.chosen is None else self.chosen) if self.moved else None

    @property
    def following(self) -> int | None:
        """The next line without an answer, also on its way to the disk, behind the chosen one and round."""
        job = self.meant
        return first_open(job, job.steps[self.step], self.chosen if self.chosen is not None else -1)

    @property
    def hazards_whole(self) -> bool:
        """Whether the hazard messages stand whole on the page, which hasn't been turned yet."""
        return self.whole and not self.turned

    @property
    def is_finished(self) -> bool:
        """Whether the step is finished, and nothing has unsettled it."""
        return self.job.state(self.step) == FINISHED

    @property
    def stands_answered(self) -> bool:
        """Whether the chosen check has just been answered, and waits for the key that goes on."""
        return self.answered is not None and self.answered[0] == self.item

    def look_at(self, step: str, by: str | None, now: datetime) -> None:
        """Turn to a step, its first reading without an answer chosen."""
        self.step, self.answered = step, None
        self._looked_at.append((now, step))
        self.whole = not seen_today(self.job, self.here, by, now)
        self.moved = self.turned = self.job_whole = False
        self.chosen = first_open(self.job, self.here)

    def step_at(self, when: datetime) -> str:
        """The step that was in sight at a time; before all of them, the first."""
        before = [step for at, step in self._looked_at if at <= when]
        return (before or [step for _, step in self._looked_at[:1]] or [self.step])[-1]

    def choose(self, number: int | None) -> None:
        """Choose a line; none where every line has an answer and the step itself is asked for."""
        self.chosen = number
        self.answered = None
        self.moved = self.turned = True

    def keep_up(self) -> None:
        """Where a line has lost its answer since every one had one, that line is asked for; one on its way is none."""
        if self.chosen is None:
            self.chosen = first_open(self.meant, self.meant.steps[self.step])

    def answer(self, item: Item, text: str) -> None:
        """After an answer a reading's next line is chosen; a check, bolts and runs stay until another key goes on."""
        if item.yes_or_no:
            self.answered = (item, text)
        elif not item.one_by_one:
            self.chosen = self.following
        self.moved = self.turned = True
        self.whole = self.job_whole = False
