"""Ending a job: closed, or stopped and not finished."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import GOES_ON, Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Fill, draft
from jobtrack.job.compose import ending
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.remarks.passed_over import ends_over
from jobtrack.pages.job.outline import left_lines
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import CLOSED, raised

ANSWERS = (
    ("differently", "What would you do differently? (Enter: nothing to say)"),
    ("tool_lacked", "Which tool did you lack? (Enter: none)"),
    ("broke", "What broke? (Enter: nothing)"),
)
"""The three closing answers, all optional."""
NOTHING_RECORDED = "Back, with nothing recorded."


class EndScreen(PageScreen):
    """What is left to do, and the two ways in which a job ends."""

    desk: JobDesk
    HELP = (
        "The two ways in which a job ends: closed, when nothing is left, or stopped with a reason. What is "
        "left stands on the page: Escape goes back to do it, or {stop} stops the job as it is."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("c", "close the job", "close_job", "Close the job: refused while something is left."),
        RECKONER,
        key(
            "s", "stop, not finished", "stop", "Stop the job with a reason; what is open stays on the sheet."
        ),
        key("escape", "back", "leave", NOTHING_RECORDED),
        JOB,
        ALL_KEYS,
        also("b", "leave", NOTHING_RECORDED),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.answers: dict[str, str] = {}

    def left(self) -> list[str]:
        """What keeps the job from being closed."""
        by = self.session.by or "nobody yet"
        try:
            made = draft(self.desk.file, self.session, None, lambda made: None, by)
            return left_lines(made.job)
        except Refused as error:
            return [raised(str(error))]

    def draw(self) -> None:
        """What is left before the job can be closed; or what closing doesn't mean."""
        self.desk.draw_frame()
        width, left = self.page.room, self.left()
        head = wrap(f"End the job: {self.desk.job.about.title}", width, "strong")
        self.page.show([*head, line(), *(self._left(left, width) if left else wrap(CLOSED, width))])

    def _left(self, left: list[str], width: int) -> list[Line]:
        lines = wrap("The job can't be closed yet. It can be stopped, not finished. What is left:", width)
        return lines + [row for text in left for row in wrap(f"- {text}", width, "", 2)]

    def action_close_job(self) -> None:
        """The closing answers one after another, then the name and a second key."""
        left = self.left()
        if left:
            self._ring()
            stop = named("s", "stop")
            self.entry.say(
                f"Not closed: {len(left)} left, listed above. Escape goes back to that; {stop} stops the job."
            )
            return
        self.answers = {}
        self._ask(0)

    def _ask(self, number: int) -> None:
        if number == len(ANSWERS):
            self._ask_name(named("c", "close-job"), "Closes the job.", self._close)
            return
        key, question = ANSWERS[number]

        def answered(text: str) -> str | None:
            self.answers[key] = text.strip()
            self._ask(number + 1)
            return None

        self.asks.ask(question, answered, hint=GOES_ON)

    def _close(self, made: Draft) -> None:
        def said(key: str) -> str | None:
            return self.answers.get(key) or None

        ending.close_job(made, said("differently"), said("tool_lacked"), said("broke"))

    def action_stop(self) -> None:
        """The reason, then the name and a second key."""

        def reason(text: str) -> str | None:
            if not text.strip():
                return "A job is stopped with a reason; say why."
            self._ring()
            about = f"Stops the job, not finished: {text.strip()}"
            self._ask_name(named("s", "stop"), about, lambda made: ending.stop_job(made, text.strip()))
            return None

        self.asks.ask("Stopped, not finished, because:", reason, hint=GOES_ON)

    def _ring(self) -> None:
        if ends_over(self.desk.job):
            self.app.ring()

    def _ask_name(self, key: str, about: str, fill: Fill) -> None:
        self.asks.second_key("Who ends it?", key, [about], lambda by: self._put(fill, by))

    def _put(self, fill: Fill, by: str) -> None:
        self.desk.put(None, fill, by)
