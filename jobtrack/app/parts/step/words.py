"""What is recorded in a step in somebody's own words: the questions for it, and what is made of the answers."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.own_words import ask_unsafe, record_words
from jobtrack.app.parts.questions import Questions
from jobtrack.job.compose import said, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.asking.spared import spared_lines
from jobtrack.pages.doing.bolts import place_words
from jobtrack.pages.wording import step_name


class Words:
    """Asks for words and records them."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._desk = desk
        self._at = desk.at
        self._asks = asks

    def record(
        self,
        label: str,
        fill: Callable[[Draft, str], None],
        empty: bool = False,
        about: Sequence[str] = (),
        start: str = "",
    ) -> None:
        """Ask for words and record them in the step; what is refused keeps the text."""
        record_words(self._desk, self._asks, self._at.step, label, fill, empty, about, start)

    def note(self) -> None:
        """A note on the step."""
        self.record(f"A note on “{step_name(self._at.here)}”:", said.note)

    def private_note(self) -> None:
        """A note on the step that stays off the sheets."""
        self.record(f"A private note on “{step_name(self._at.here)}”, off the sheets:", said.private_note)

    def mark(self) -> None:
        """Where somebody is in the step; it begins with the bolt that was recorded last."""
        ask = f"Where are you in “{step_name(self._at.here)}”? (bolt 3, second stage)"
        self.record(ask, said.mark, start=place_words(self._at.meant, self._at.here))

    def unsafe(self) -> None:
        """What is unsafe right now."""
        ask_unsafe(self._desk, self._asks, self._at.step)

    def stands(self) -> None:
        """Why what is to be looked at again is right as it is."""
        self.record("Looked at again, and still right, because:", steps.stands)

    def not_needed(self) -> None:
        """Why the step isn't needed."""
        ask = "Not needed, because (Enter alone: no reason given):"
        left = spared_lines(self._desk.file.meant, self._at.step)
        self.record(ask, lambda made, text: steps.not_needed(made, text or None), empty=True, about=left)
