"""A job on the desk: its file followed, its frame drawn, things recorded in it, its clock asked about at the end."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime

from jobtrack.app.parts import job_frame
from jobtrack.app.parts.desk import Desk
from jobtrack.app.reckoner_place import Place
from jobtrack.app.screens.base import Card
from jobtrack.app.session import LOCK_WAIT, Fill, Told, record
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.compose import people
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.clock import times
from jobtrack.pages.job.others import others_words
from jobtrack.pages.typeset import Line, line
from jobtrack.sheets.words.about_file import taken_up_line
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.template.plan import PlannedStep

QUIT_KEYS = "End with the clock: o off, b on a break, l left on. Escape stays here."
FOLLOW_EVERY = 1.0
"""Seconds between two looks at the file for what others have added."""

Then = Callable[[Told], None]


def nothing_more(told: Told) -> None:
    """What was recorded needs nothing said beyond its own line."""


class JobDesk(Desk):
    """One open job under a screen."""

    def __init__(self, card: Card, file: JobFile, looked: Callable[[], None] | None = None) -> None:
        """`looked`: what is to be done each time that the file was looked at."""
        self.card = card
        self.file = file
        self._looked = looked

    @property
    def job(self) -> Job:
        """The state of the job, as far as it is recorded."""
        return self.file.job

    def start(self) -> None:
        self.card.set_interval(FOLLOW_EVERY, self.follow)

    def resumed(self) -> None:
        self.card.draw()

    def place(self) -> Place:
        """The job, and the step at hand: this screen's, else that of the screen it was opened from."""
        under = [one.desk.here for one in self.card.app.screen_stack if isinstance(one, Card)]
        steps = [here for here in under if here is not None]
        return Place(self.file, steps[-1].id if steps else None)

    def draw_frame(self, here: PlannedStep | None = None, pinned: Sequence[Line] = ()) -> None:
        """What the file has against it, open conditions, whose clock runs and what comes next."""
        room, short = self.card.room, self.card.short
        self.card.show_part("head", [*job_frame.head(self.file, here, room, short), *pinned])
        self.card.show_part("last", job_frame.last(self.job, here, room, short))
        self.card.show_keys()

    # Following the file

    def follow(self) -> None:
        """Take in what others have added; what is being typed stays."""
        if self.card.app.screen is self.card:
            self._take_in()
        if self._looked is not None:
            self._looked()

    def _take_in(self) -> None:
        before, entry = self.job, self.card.entry
        try:
            changed = self.file.refresh()
        except JobFileError as error:
            entry.say(str(error))
            return
        taken_up = self._take_up()
        if changed or taken_up:
            self.card.draw()
            if not entry.busy:
                entry.tell(taken_up or others_words(before, self.job))

    def _take_up(self) -> str:
        """Record what waits, where the file takes it by now; what to say of it."""
        try:
            taken = self.file.take_up(LOCK_WAIT)
        except NotRecorded:
            return ""
        return taken_up_line(len(taken)) if taken else ""

    # Recording

    def put(
        self, step: str | None, fill: Fill, by: str | None = None, then: Then = nothing_more
    ) -> str | None:
        """Record, show what is now, say what came of it; what is refused is said, and given back."""
        told = self.record(step, fill, by)
        self.card.entry.idle()
        self.card.draw()
        self.answer_with(told)
        if not told.taken:
            return told.text
        then(told)
        return None

    def record(self, step: str | None, fill: Fill, by: str | None = None, at: datetime | None = None) -> Told:
        """Record, and leave it to whoever asks to show it."""
        return record(self.file, self.card.bench, step, fill, by, at)

    def answer_with(self, told: Told) -> None:
        """Say what came of recording: apart from what is asked now, or why it wasn't taken."""
        if told.taken:
            self.card.entry.say("")
            self.card.entry.tell(told.text, stays=told.kept)
        else:
            self.card.entry.say(told.text)

    # Numbers that belong to no line of the page

    def number(self, start: str) -> None:
        """A field of its own keeps a number's letters from acting as keys."""
        self.misplaced(start, ["Nothing is measured on this page."])

    def misplaced(
        self, start: str, about: list[str], others: Mapping[str, Callable[[], None]] | None = None
    ) -> None:
        """A field for a number where none can be recorded: Enter says so, and all that is typed stays in it."""
        hint = f"{'Up or Down gives it to a reading; ' if others else ''}Escape cancels. Nothing is recorded."
        self.card.entry.ask(Ask(
            [line("A number can't be recorded here.", "strong")],
            lambda text: f"Not recorded: {text.strip()}. {hint}", about, start, lambda text: hint,
            others=others or {}, foot="Escape cancels   Enter records nothing here",
        ))  # fmt: skip

    # The end

    def before_quitting(self, leave: Callable[[], None]) -> None:
        """Where one's own clock is on, ask first what becomes of it."""
        if not self.clock_is_on():
            leave()
            return

        def left_with(what: str) -> None:
            self.put(None, lambda made: people.clock(made, what), then=lambda told: leave())

        others = (("b", lambda: left_with("break")), ("l", leave))
        self.card.entry.confirm(SecondKey(
            [f"The clock of {self.card.bench.by} is on."], "o", lambda: left_with("off"), QUIT_KEYS, others,
            "o clock off   b break   l left on   Escape stay here",
        ))  # fmt: skip

    def clock_is_on(self) -> bool:
        """Whether the clock of who is there runs in this job."""
        mine = person(self.card.bench.by or "")
        return mine in {person(name) for name in times(self.job).running}
