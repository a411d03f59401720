"""All steps that are to be looked at again: which of them somebody has looked at, and one reason why they stand."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.listing import Listing
from jobtrack.app.parts.questions import Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.compose import steps
from jobtrack.pages.asking.look_again import step_heading, steps_to_look_at, why_lines
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import counted

BACK = "Back, with nothing recorded."
HOW = (
    "Look at each on the vehicle: {} for one that is still right, {} to leave it; then Enter and the reason."
)
NOTHING = "Nothing is to be looked at again. Escape goes back."


def _how() -> str:
    return HOW.format(named("y", "looked-yes"), named("n", "looked-no"))


class LookAgainScreen(PageScreen):
    """Each step with why; what is marked as looked at is recorded in one entry."""

    desk: JobDesk
    HELP = (
        "Every step that something recorded since has unsettled, each with why. Look at each on the vehicle and "
        "mark those that are still right; Enter asks for one reason for all of them."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("y", "looked at, stands", "looked('yes')", "The marked step was looked at and is still right."),
        key("n", "leave it", "looked('no')", "The marked step is left as it is."),
        key("enter", "the reason", "reason", "Say why those that were looked at stand; that records them."),
        key("escape", "back", "leave", BACK),
        JOB,
        RECKONER,
        ALL_KEYS,
        also("*", "looked('yes')", "Yes, on the number pad."),
        also("/", "looked('no')", "No, on the number pad."),
        also("b", "leave", BACK),
        QUIT,
        *ARROWS,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.listing = Listing(self.page, self.entries, self.before)
        self.looked_at: set[str] = set()

    @property
    def listed(self) -> list[str]:
        """The steps of the page."""
        return steps_to_look_at(self.desk.job)

    def draw(self) -> None:
        """Each step with its reasons as they are now."""
        self.desk.draw_frame()
        self.listing.draw()
        if not self.entry.busy:
            self.entry.idle()

    def before(self) -> list[Line]:
        """How many there are, and what to do."""
        many = counted(len(self.listed), "step")
        head = wrap(f"To be looked at again: {many if self.listed else 'no step'}.", self.page.room, "strong")
        return [*head, *(wrap(_how(), self.page.room) if self.listed else []), line()]

    def entries(self) -> list[list[Line]]:
        """A step each, and under it why."""
        return [self._entry(number, step) for number, step in enumerate(self.listed)]

    def _entry(self, number: int, step: str) -> list[Line]:
        job, width = self.desk.job, self.page.room
        lines = self.listing.marked(number, step_heading(job, step, step in self.looked_at), width)
        return lines + [
            row
            for why in why_lines(job, step, self.session.shown)
            for row in wrap(f"    - {why}", width, "", 6)
        ]

    def action_mark(self, by: int) -> None:
        """Choose another step."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def action_looked(self, stands: str) -> None:
        """The marked step stands, or is left; the marker stays, so that a key pressed twice does it once."""
        if not self.listed:
            return
        step = self.listed[self.listing.chosen]
        (self.looked_at.add if stands == "yes" else self.looked_at.discard)(step)
        self.draw()

    def action_reason(self) -> None:
        """Ask why they stand."""
        chosen = self._chosen()
        if not chosen:
            choose = f"choose one with Up and Down, then {named('y', 'looked-yes')}."
            self.entry.say(f"No step is marked as looked at: {choose}" if self.listed else NOTHING)
            return
        label = f"{counted(len(chosen), 'step')} looked at, and still right, because:"
        self.asks.with_name(lambda: self.asks.ask(label, self._because))

    def _chosen(self) -> list[str]:
        return [step for step in self.listed if step in self.looked_at]

    def _because(self, text: str) -> str | None:
        """Record them with their reason; what is refused keeps the text."""
        if not text.strip():
            return "Type why they stand; Escape cancels."
        chosen = self._chosen()
        # Of one step it stands in that step; of several it is about the job.
        step = chosen[0] if len(chosen) == 1 else None
        refused = self.desk.record(
            step, lambda made: steps.stands(made, text.strip(), chosen), then=self.desk.answer_with
        )
        if refused is None:
            self.entry.idle()
            self.draw()
        return refused
