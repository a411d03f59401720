"""Left and right were confused: the readings of the two sides change places."""

from __future__ import annotations

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.app.session import draft
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import steps
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.asking.swapped import swap_lines, two_sides
from jobtrack.pages.asking.unsettles import unsettles
from jobtrack.pages.own_keys import named
from jobtrack.sheets.words.sentences import joined

HINT = "Enter swaps them; any other key leaves them as they are."


class Swapping:
    """Shows what each side would have, and what that unsettles; then Enter."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._desk = desk
        self._asks = asks

    def begin(self) -> None:
        """Show it, where there is anything to swap."""
        job, here, entry = self._desk.file.meant, self._desk.here, self._desk.screen.entry
        both = two_sides(job, here)
        if not both:
            entry.say("This step isn't done on two sides: type a wrong value again on its own line.")
            return
        lines = swap_lines(job, here)
        if not lines:
            sides = joined([one.member or one.id for one in both])
            entry.say(f"No reading is recorded in this step, {sides}: type the values first.")
            return
        self._asks.with_name(lambda: self._ask(lines))

    def _ask(self, lines: list[str]) -> None:
        session, step, entry = self._desk.screen.session, self._desk.at.step, self._desk.screen.entry
        try:
            made = draft(self._desk.file, session, step, steps.swap)
        except Refused as error:
            entry.say(str(error))
            return
        about = [
            "The two sides were confused:",
            *lines,
            unsettles(made.before, made.job, self._desk.screen.session.shown),
        ]
        tapped_twice = ((named("l", "swap"), lambda: None),)
        entry.confirm(SecondKey(
            about, "enter", self._swap, HINT, tapped_twice, "Enter swap them   Escape leave them as they are",
        ))  # fmt: skip

    def _swap(self) -> None:
        self._desk.put(self._desk.at.step, steps.swap)
