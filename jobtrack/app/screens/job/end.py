"""Ending a job: closed, or stopped and not finished."""

from __future__ import annotations

from jobtrack.app.screens.base import Command
from jobtrack.app.screens.on_job import JOB, OnJob
from jobtrack.app.session import Fill, draft
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import ending
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import CLOSED, named
from jobtrack.store.file.writer import JobFile

ANSWERS = (
    ("differently", "What would you do differently? (Enter: nothing to say)"),
    ("tool_lacked", "Which tool did you lack? (Enter: none)"),
    ("broke", "What broke? (Enter: nothing)"),
)
"""The three closing answers, all optional."""


class EndScreen(OnJob):
    """What is left to do, and the two ways in which a job ends."""

    COMMANDS_HERE = (
        Command("c", "close the job", "close", "Close the job: refused while something is left."),
        Command(
            "s",
            "stop, not finished",
            "stop",
            "Stop the job with a reason; what is open stays on the sheet.",
        ),
        Command("Escape", "back", "leave", "Back, with nothing recorded."),
        JOB,
        Command("?", "all keys", "keys", "This page."),
        Command("b", "", "leave", "Back, with nothing recorded.", shown=False),
        Command("q", "quit", "quit", "End the program."),
    )

    def __init__(self, file: JobFile) -> None:
        super().__init__(file)
        self.answers: dict[str, str] = {}

    def left(self) -> list[str]:
        """What keeps the job from being closed."""
        try:
            made = draft(self.file, self.bench, None, lambda made: None, self.bench.by or "nobody yet")
            return ending.left_to_do(made.job)
        except Refused as error:
            return [str(error)]

    def draw(self) -> None:
        self.draw_frame()
        width, left = self.page.room, self.left()
        head = wrap(f"End the job: {self.job.about.title}", width, "strong")
        self.page.show([*head, line(), *(self._left(left, width) if left else wrap(CLOSED, width))])

    def _left(self, left: list[str], width: int) -> list[Line]:
        lines = wrap("The job can't be closed yet. It can be stopped, not finished. What is left:", width)
        return lines + [row for text in left for row in wrap(f"- {named(self.job, text)}", width, "", 2)]

    def close(self) -> None:
        """The closing answers one after another, then the name and a second key."""
        left = self.left()
        if left:
            self.entry.say(f"The job can't be closed yet: {len(left)} left, listed above.")
            return
        self.answers = {}
        self._ask(0)

    def _ask(self, number: int) -> None:
        if number == len(ANSWERS):
            self._ask_name("c", "Closes the job.", self._close)
            return
        key, question = ANSWERS[number]

        def answered(text: str) -> str | None:
            self.answers[key] = text.strip()
            self._ask(number + 1)
            return None

        self.ask(question, answered, hint="Enter goes on, Escape cancels.")

    def _close(self, made: Draft) -> None:
        def said(key: str) -> str | None:
            return self.answers.get(key) or None

        ending.close_job(made, said("differently"), said("tool_lacked"), said("broke"))

    def stop(self) -> None:
        """The reason, then the name and a second key."""

        def reason(text: str) -> str | None:
            if not text.strip():
                return "A job is stopped with a reason; say why."
            about = f"Stops the job, not finished: {text.strip()}"
            self._ask_name("s", about, lambda made: ending.stop_job(made, text.strip()))
            return None

        self.ask("Stopped, not finished, because:", reason, hint="Enter goes on, Escape cancels.")

    def _ask_name(self, key: str, about: str, fill: Fill) -> None:
        def named(by: str) -> None:
            said = [about, f"By {by} (as typed)."]
            self.entry.confirm(SecondKey(said, key, lambda: self._put(fill, by)))

        self.ask_name("Who ends it?", named)

    def _put(self, fill: Fill, by: str) -> None:
        self.put(None, fill, by)
