"""The outline of stages and steps, a page of its own."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.listing import Listing
from jobtrack.app.parts.questions import Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.pages.job.outline import (
    due_afterwards,
    job_lines,
    ordered_steps,
    stage_heads,
    step_line,
    summary,
)
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.pages.wording import FIRST_WORD
from jobtrack.sheets.words.problems import with_names


class OutlineScreen(PageScreen):
    """All steps; Enter turns to the marked one."""

    desk: JobDesk
    HELP = (
        "All stages and steps of the job, each with where it stands. Mark a step with the arrows and press "
        "Enter to go there. Next only means that the order of steps doesn't stop it: look at the vehicle "
        "before you begin."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "go", "choose", "Go to the marked step."),
        RECKONER,
        key("e", "end the job", "end_job", "End the job: closed, or stopped with a reason."),
        key(
            "n", "what now", "what_now", "What can be done now: by one, by two, side by side; and what waits."
        ),
        key("h", "hand over", "hand_over", "Hand the job over to somebody."),
        JOB,
        key("escape", "back", "back", "Back to the step."),
        ALL_KEYS,
        QUIT,
        also("o", "back", "Back to the step."),
        key("b", "jobs", "jobs", "The jobs of the folder."),
        *ARROWS,
        REST,
    ]

    def __init__(self, file: OpenJob, step: str | None) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.listing = Listing(self.page, self.entries, self.before)
        steps = ordered_steps(self.desk.job)
        self.listing.chosen = steps.index(step) if step in steps else 0

    def draw(self) -> None:
        """Each step with its state as it is now."""
        self.desk.draw_frame()
        self.listing.draw()
        self.entry.idle()

    def before(self) -> list[Line]:
        """The title, and how far the job is."""
        job, width = self.desk.job, self.page.room
        lines = wrap(f"Outline of {job.about.title}. {summary(job)}.", width, "strong")
        return lines + [row for text in job_lines(job) for row in wrap(text, width, "", 2)]

    def entries(self) -> list[list[Line]]:
        """Each step under its stage's heading, with what stands against it."""
        heads = stage_heads(self.desk.job)
        found = [
            self._step(number, step, heads.get(step, ""))
            for number, step in enumerate(ordered_steps(self.desk.job))
        ]
        if found:
            found[-1] += self._behind(self.page.room)
        return found

    def _step(self, number: int, step: str, head: str) -> list[Line]:
        job, width = self.desk.job, self.page.room
        lines = [line(), *wrap(head, width, "strong")] if head else []
        lines += item(self.listing.marked(number, step_line(job, step), width), number)
        for text in with_names(job, step_problems(job, step)):
            lines += wrap(f"      - {text}", width, "", 8)
        return lines

    def _behind(self, width: int) -> list[Line]:
        due = due_afterwards(self.desk.job)
        lines = [line(), *wrap("Due afterwards", width, "strong")] if due else []
        lines += [row for text in due for row in wrap(f"  {text}", width, "", 4)]
        return [*lines, line(), *wrap(FIRST_WORD, width, "small")]

    def action_mark(self, by: int) -> None:
        """Choose another step."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def action_choose(self) -> None:
        """Turn to the marked step."""
        self.dismiss(ordered_steps(self.desk.job)[self.listing.chosen])

    def action_back(self) -> None:
        """Back, to the step one came from."""
        self.dismiss(None)

    def action_jobs(self) -> None:
        """To the jobs of the folder."""
        self.app.opening.jobs()

    def action_what_now(self) -> None:
        """What can be done now; a step that is chosen there is chosen here too."""
        self.app.opening.what_now(self.desk.file, self._from_what_now)

    def _from_what_now(self, step: str | None) -> None:
        if step is not None:
            self.dismiss(step)

    def action_end_job(self) -> None:
        """Close the job, or stop it."""
        self.app.opening.end(self.desk.file)

    def action_hand_over(self) -> None:
        """Hand the job over."""
        self.app.opening.hand_over(self.desk.file)
