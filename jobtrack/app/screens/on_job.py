"""What the screens of one job share: its conditions on top, its last line, and following its file."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from jobtrack.app.reckoner_place import Place
from jobtrack.app.screens.base import Card, Command
from jobtrack.app.session import LOCK_WAIT, Fill, Told, record
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.compose import people
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.clock import times
from jobtrack.pages.job.conditions import JOB_KEY, MOST, top_lines
from jobtrack.pages.job.last_line import clock_words, last_line
from jobtrack.pages.job.others import others_words
from jobtrack.pages.step.entering import NUMBER_STARTS
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.sheets.words.about_file import file_lines, locks_line, taken_up_line
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.template.plan import PlannedStep

QUIT_KEYS = "End with the clock: o off, b on a break, l left on. Escape stays here."
FOLLOW_EVERY = 1.0
"""Seconds between two looks at the file for what others have added."""

JOB = Command(
    JOB_KEY, "job", "job_page", "The job: all that is open, its hazards, what is recorded beside the steps."
)
REST = Command("v", "", "rest", "All of what was said last, where it was cut short.", shown=False)
PINNED = ((40, 10), (30, 6), (0, 4))
"""From how many rows of a terminal on the hazard messages that stay in sight may take how many."""


class OnJob(Card):
    """A screen over one open job file."""

    RECKONS = True

    @property
    def commands(self) -> tuple[Command, ...]:
        """The screen's own, and the one that shows what was cut short."""
        return (*super().commands, REST)

    def __init__(self, file: JobFile) -> None:
        super().__init__()
        self.file = file

    @property
    def job(self) -> Job:
        return self.file.job

    @property
    def here(self) -> PlannedStep | None:
        """The step that the screen is about, if any."""
        return None

    def on_mount(self) -> None:
        self.set_interval(FOLLOW_EVERY, self.follow)

    def on_screen_resume(self) -> None:
        self.draw()

    def follow(self) -> None:
        """Take in what others have added; what is being typed stays."""
        if self.app.screen is not self:
            return
        before = self.job
        try:
            changed = self.file.refresh()
        except JobFileError as error:
            self.entry.say(str(error))
            return
        taken_up = self._take_up()
        if changed or taken_up:
            self.draw()
            if self.entry.asking is None and self.entry.waiting is None:
                self.entry.tell(taken_up or others_words(before, self.job))

    def _take_up(self) -> str:
        """Record what waits, where the file takes it by now; what to say of it."""
        try:
            taken = self.file.take_up(LOCK_WAIT)
        except NotRecorded:
            return ""
        return taken_up_line(len(taken)) if taken else ""

    def draw_frame(self) -> None:
        """What the file has against it, open conditions, whose clock runs and what comes next."""
        most = 2 if self.short else MOST
        trouble = [
            row
            for text in (*file_lines(self.file), *locks_line(self.file))
            for row in wrap(text, self.room, "strong")
        ]
        self.show_part("head", [*trouble, *top_lines(self.job, self.room, most, self.here), *self.pinned()])
        # A sentence cut short could promise something, so a short terminal has none of them.
        last = clock_words(self.job) if self.short else last_line(self.job, self.here)
        self.show_part("last", wrap(last, self.room))
        self.show_keys()

    def pinned(self) -> list[Line]:
        """What stays in sight under the open conditions, on any part of the page."""
        return []

    def job_page(self) -> None:
        """The page of what holds for the whole job."""
        from jobtrack.app.screens.job.job_page import JobPage

        self.app.push_screen(JobPage(self.file))

    def place(self) -> Place:
        """The job, and the step at hand: this screen's, else that of the screen it was opened from."""
        steps = [one.here for one in self.app.screen_stack if isinstance(one, OnJob) and one.here is not None]
        return Place(self.file, steps[-1].id if steps else None)

    def put(self, step: str | None, fill: Fill, by: str | None = None) -> Told:
        """Record, show what is now, and say what came of it."""
        told = record(self.file, self.bench, step, fill, by)
        self.entry.idle()
        self.draw()
        self.answer_with(told)
        return told

    def take(self, pressed: str) -> bool:
        """A number belongs to no line of this page: a field of its own keeps its letters from acting as keys."""
        if len(pressed) == 1 and pressed in NUMBER_STARTS:
            self.misplaced(pressed, ["Nothing is measured on this page."])
            return True
        return False

    def misplaced(
        self, start: str, about: list[str], others: Mapping[str, Callable[[], None]] | None = None
    ) -> None:
        """A field for a number where none can be recorded: Enter says so, and all that is typed stays in it."""
        hint = f"{'Up or Down gives it to a reading; ' if others else ''}Escape cancels. Nothing is recorded."
        self.entry.ask(Ask(
            [line("A number can't be recorded here.", "strong")],
            lambda text: f"Not recorded: {text.strip()}. {hint}", about, start, lambda text: hint,
            others=others or {}, foot="Escape cancels   Enter records nothing here",
        ))  # fmt: skip

    def quit(self) -> None:
        """End the program; where one's own clock is on, ask first what becomes of it."""
        if not self.clock_is_on():
            super().quit()
            return
        others = (("b", lambda: self._quit_with("break")), ("l", super().quit))
        self.entry.confirm(SecondKey(
            [f"The clock of {self.bench.by} is on."], "o", lambda: self._quit_with("off"), QUIT_KEYS, others,
            "o clock off   b break   l left on   Escape stay here",
        ))  # fmt: skip

    def clock_is_on(self) -> bool:
        """Whether the clock of who is there runs in this job."""
        mine = person(self.bench.by or "")
        return mine in {person(name) for name in times(self.job).running}

    def _quit_with(self, what: str) -> None:
        if self.put(None, lambda made: people.clock(made, what)).taken:
            super().quit()

    def answer_with(self, told: Told) -> None:
        """Say what came of recording: apart from what is asked now, or why it wasn't taken."""
        if told.taken:
            self.entry.say("")
            self.entry.tell(told.text, stays=told.kept)
        else:
            self.entry.say(told.text)
