"""A screen about a job: its file followed, its frame drawn, things recorded, and the clock asked about at the end."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime

from rich.cells import cell_len

from jobtrack.app.disk.open_job import Found, OpenJob
from jobtrack.app.parts.desks.desk import Desk
from jobtrack.app.reckoner_place import ReckonerPlace
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Fill, Told, record
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.compose import people
from jobtrack.job.state.job import Job, person
from jobtrack.job.time.clock import times
from jobtrack.pages.job.conditions import JOB_KEY, MOST, tag_lines, top_lines
from jobtrack.pages.job.last_line import last_line, short_clock_words
from jobtrack.pages.job.list import not_taken_over
from jobtrack.pages.job.others import others_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, line, shortened, under, wrap
from jobtrack.sheets.words.about_file import taken_up_line
from jobtrack.template.plan import PlannedStep

QUIT_KEYS = "End with the clock: o off, b on a break, l left on. Escape stays here."
TAKEN_UP = "What had waited is recorded now."
FOLLOW_EVERY = 1.0
"""Seconds between two looks at the file for what others have added."""

Then = Callable[[Told], None]


def nothing_more(told: Told) -> None:
    """What was recorded needs nothing said beyond its own line."""


class JobDesk(Desk):
    """One open job under a screen."""

    def __init__(self, screen: PageScreen, file: OpenJob) -> None:
        self.screen = screen
        self.file = file
        self._says_on_the_way = False
        """Whether what is on its way was handed over on another screen, and is said on this one."""
        self._says_kept = False
        """Whether this screen says of something that it waits, which is untrue once the file has taken it."""
        self._says_unreadable = False

    @property
    def job(self) -> Job:
        """The state of the job, as far as it is recorded."""
        return self.file.job

    def start(self) -> None:
        """Look at the file from now on, and draw anew when the state has grown."""
        self.screen.set_interval(FOLLOW_EVERY, self.follow)
        self.file.grown.subscribe(self.screen, self._grown, immediate=True)

    def resumed(self) -> None:
        """Show the state as it is by now, and what was handed over on the screen above and isn't on the disk yet."""
        self.screen.draw()
        if self.file.on_the_way:
            self.tell("")
            self._says_on_the_way = True

    def place(self) -> ReckonerPlace:
        """The job, and the step at hand: this screen's, else that of the screen it was opened from."""
        under = [one.desk.here for one in self.screen.app.screen_stack if isinstance(one, PageScreen)]
        steps = [here for here in under if here is not None]
        return ReckonerPlace(self.file, steps[-1].id if steps else None)

    def draw_frame(self, here: PlannedStep | None = None, pinned: Sequence[Line] = ()) -> None:
        """What the file has against it, open conditions, whose clock runs and what comes next."""
        room, tall = self.screen.room, self.screen.tall
        self.screen.show_part("head", [*_head(self.file, here, room, tall), *pinned])
        # A sentence cut short could promise something, so a low terminal has none of what comes next.
        self.screen.show_part("last", wrap(last_line(self.job, here), room) if tall else [])
        self.screen.show_keys()

    def beside_keys(self) -> str:
        """Whose clock runs, where it stands nowhere else."""
        return "" if self.screen.tall else short_clock_words(self.job, self.screen.session.by)

    def _grown(self, file: OpenJob) -> None:
        """The state has changed; what is being typed stays."""
        if self.screen.app.screen is self.screen:
            self.screen.draw()
        if self._says_on_the_way:
            self._says_on_the_way = bool(self.file.on_the_way)
            self.tell("")
        if self._says_kept and not self.file.waits:
            self._says_kept = False
            self.tell(TAKEN_UP)

    def tell(self, text: str, stays: bool = False) -> None:
        """What was done last, and behind it all that is still on its way to the disk."""
        on_the_way = self.file.on_the_way
        self.screen.entry.tell(f"{text} {on_the_way}".strip(), stays or bool(on_the_way))

    # Following the file

    def follow(self) -> None:
        """Look for what others have added."""
        if self.screen.app.screen is self.screen:
            self.file.look(self._looked)

    def _looked(self, found: Found, before: Job) -> None:
        if found.unreadable or self._says_unreadable:
            self.screen.entry.say(found.unreadable)
        self._says_unreadable = bool(found.unreadable)
        if not found.unreadable and (found.changed or found.taken_up) and not self.screen.entry.busy:
            taken_up = taken_up_line(found.taken_up) if found.taken_up else ""
            self.screen.entry.tell(taken_up or others_words(before, self.job))

    # Recording

    def put(
        self, step: str | None, fill: Fill, by: str | None = None, then: Then = nothing_more
    ) -> str | None:
        """Record, and say what came of it; what is refused is said, and given back.

        `then` is called when it is on the disk, or kept because it can't be.
        """

        def told(what: Told) -> None:
            self.answer_with(what)
            then(what)

        self.screen.entry.idle()
        refused = self.record(step, fill, by, then=told)
        self.screen.draw()
        self.screen.entry.say(refused or "")
        return refused

    def record(
        self,
        step: str | None,
        fill: Fill,
        by: str | None = None,
        at: datetime | None = None,
        *,
        then: Then,
    ) -> str | None:
        """Hand something over to be recorded: said as not yet recorded until `then` is told; or why it is refused."""
        refused = record(self.file, self.screen.session, step, fill, by, at, then=then)
        if refused is None:
            self.tell("")
        return refused

    def answer_with(self, told: Told) -> None:
        """Say what came of recording, apart from what is asked now."""
        self.screen.entry.hint_anew()
        self._says_kept = told.kept
        self.tell(told.text, told.kept)

    # Numbers that belong to no line of the page

    def number(self, start: str) -> None:
        """A field of its own keeps a number's letters from acting as keys."""
        self.misplaced(start, ["Nothing is measured on this page."])

    def misplaced(
        self, start: str, about: list[str], others: Mapping[str, Callable[[], None]] | None = None
    ) -> None:
        """A field for a number where none can be recorded: Enter says so, and all that is typed stays in it."""
        hint = f"{'Up or Down gives it to a reading; ' if others else ''}Escape cancels."
        self.screen.entry.ask(Ask(
            [line("A number can't be recorded here.", "strong")],
            lambda text: f"Not recorded: {text.strip()}. {hint}", about, start, lambda text: hint,
            others=others or {}, key_row="Escape cancels   Enter records nothing here",
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
        self.screen.entry.confirm(SecondKey(
            [f"The clock of {self.screen.session.by} is on."], "o", lambda: left_with("off"), QUIT_KEYS, others,
            "o clock off   b break   l left on   Escape stay here",
        ))  # fmt: skip

    def clock_is_on(self) -> bool:
        """Whether the clock of who is there runs in this job."""
        mine = person(self.screen.session.by or "")
        found = times(self.file.meant)
        return mine in {person(name) for name in found.running if name not in found.on_break}


def _head(file: OpenJob, here: PlannedStep | None, room: int, tall: bool) -> list[Line]:
    """What the file has against it, and the open conditions; a row each on a low terminal."""
    said = [*(not_taken_over(file.job) if here is not None else []), *file.trouble]
    trouble = [row for text in said for row in wrap(text, room, "strong")]
    *top, last = top_lines(file.job, room, MOST, here) if tall else tag_lines(file.job, room, here)
    return [*(trouble if tall else _trouble_line(said, room)), *top, under(last, room)]


def _trouble_line(trouble: Sequence[str], room: int) -> list[Line]:
    """The first of it on one row, and the key of the page where all of it stands."""
    if not trouble:
        return []
    more = f" and {len(trouble) - 1} more" if trouble[1:] else ""
    whole = f"{trouble[0]}{more}"
    tail = f" … {named(JOB_KEY, 'job-page')} shows it"
    short = whole if cell_len(whole) <= room else shortened(trouble[0], room - len(more + tail)) + more + tail
    return [line(short.replace("… …", "…"), "strong")]
