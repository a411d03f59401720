"""The far view: another way to draw the step's screen, with the same keys and the same things asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.binding import Binding

from jobtrack.app.keys import cap
from jobtrack.app.parts.step import asked
from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.job.state.job import RELEASED
from jobtrack.pages.far.last_recorded import last_recorded
from jobtrack.pages.far.page import Far, far_lines
from jobtrack.pages.job.conditions import open_names
from jobtrack.pages.pressing import Place, blocks, places
from jobtrack.pages.step.hazards import hazard_lines, whole_job_lines
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import headed, step_name

BLOCKS = {
    "answer('yes')": "yes",
    "answer('no')": "no",
    "next_line": "next",
    "finish": "finished",
    "undo": "undo",
    "unsafe": "unsafe now",
}
"""The actions that have a large block each, in their order, with its word."""


class FarView:
    """Draws the page of a step, and large blocks to be pressed, where the far view is on."""

    def __init__(self, at: AtHand, entry: EntryLine) -> None:
        self._at = at
        self._entry = entry

    @property
    def typed(self) -> str | None:
        """What is being typed for the chosen line; None while nothing is."""
        item, asking = self._at.item, self._entry.asking
        if item is None or item.yes_or_no or asking is None or asking.echo is None:
            return None
        return self._entry.text

    def lines(self, width: int, rows: int) -> list[Line]:
        """The page, as large as so many rows allow; the hazard messages whole, where somebody has to see them first."""
        at = self._at
        title = headed(step_name(at.here), at.job.state(at.step))
        if at.hazards_whole:
            of_job = whole_job_lines(at.job, width, at.job_whole)
            return [*wrap(title, width, "strong"), *hazard_lines(at.here.step.hazard, width), *of_job]
        question = self._question()
        what, wanted, more = (question, "", []) if question else asked.far(at)
        unit = at.item.unit if at.item is not None else None
        last = None if question else last_recorded(at.job, at.here, at.shown)  # else read as its answer
        tags = tuple(open_names(at.job, at.here))
        return far_lines(
            Far(title, what, wanted, tuple(filter(None, more)), self.typed, unit, last, tags), width, rows
        )

    def keys(self, keys: Sequence[Binding]) -> list[Binding]:
        """The keys of the step, the way back first."""
        back = [replace(one, description="page again") for one in keys if one.action == "far"]
        return [*back, *(one for one in keys if one.action != "far")]

    def _question(self) -> str:
        """What is asked in between, before anything more is asked of the step."""
        entry = self._entry
        if entry.waiting is not None:
            return "".join(entry.waiting.about[:1]).rstrip(":")
        if entry.asking is not None and self.typed is None:
            return " ".join(one.plain for one in entry.asking.label)
        return ""

    def blocks(self, keys: Sequence[Binding], width: int) -> tuple[list[Line], list[list[Place]]]:
        """Blocks for what the keys do now, and where each of them lies."""
        first = {one.action: cap(one) for one in reversed(keys)}
        shown = self._asked() or [
            (first[action], word) for action, word in self._blocks().items() if action in first
        ]
        rows, at = blocks(shown, width)
        return [line(row, "strong") for row in rows], [at] * len(rows)

    def _blocks(self) -> dict[str, str]:
        """Where the hold is asked for, its block stands in the place of no, which answers nothing there."""
        hold = self._at.job.hold(self._at.step)
        if self._at.item is not None or hold is None or hold.state == RELEASED:
            return BLOCKS
        held = {"answer('no')": ("release", "release")}
        return dict(held.get(action, (action, word)) for action, word in BLOCKS.items())

    def _asked(self) -> list[tuple[str, str]]:
        """What the keys do while something is asked."""
        entry = self._entry
        row = entry.asking.key_row if entry.asking else entry.waiting.keys() if entry.waiting else ""
        return [(one.key, one.words) for one in places(row) if one.key]
