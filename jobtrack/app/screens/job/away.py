"""Somebody comes back to a running clock: one question about the time away, and never while they work."""

from __future__ import annotations

from datetime import datetime

from textual import events

from jobtrack.app.screens.on_job import OnJob
from jobtrack.app.session import record
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import people
from jobtrack.job.state.job import person
from jobtrack.job.time import absence
from jobtrack.job.time.absence import Gap
from jobtrack.pages.job.others import NOT_AWAY, away_question


class Away(OnJob):
    """A screen that asks after a long silence, as soon as nothing is being typed."""

    _back: datetime | None = None
    """When somebody came back: the job was opened, the machine woke, a key came after a long silence."""
    _tick: datetime | None = None
    _key: datetime | None = None
    _typing_until: datetime | None = None
    """Until when somebody may still be in the middle of something, so that no key of theirs answers a question."""

    def on_mount(self) -> None:
        self._back = self._tick = self._key = self.bench.now()

    def follow(self) -> None:
        super().follow()
        now = self.bench.now()
        if self._tick is not None and now - self._tick >= absence.QUIET:
            self._back = now
        self._tick = now
        self._ask()

    def press(self, event: events.Key) -> None:
        now = self.bench.now()
        if self._key is not None and now - self._key >= absence.QUIET:
            self._back = now
        self._key = now
        self._typing_until = now + absence.STILL_TYPING
        super().press(event)

    def _ask(self) -> None:
        by, back = self.bench.by, self._back
        busy = self.entry.asking is not None or self.entry.waiting is not None or self.app.screen is not self
        if by is None or back is None or busy:
            return
        if self._typing_until is not None and self.bench.now() < self._typing_until:
            return
        self._back = None
        found = absence.gap(self.job, by, back)
        if found is None or (self.job.about.id, person(by), found.since) in self.bench.asked:
            return
        self.bench.asked.add((self.job.about.id, person(by), found.since))
        question = SecondKey(
            away_question(found), "y", lambda: self._was_working(found, by), NOT_AWAY,
            (("n", lambda: self._was_away(found, by)),), "y yes, it counts   n no, a break   Escape asks no more",
        )  # fmt: skip
        self.entry.confirm(question)

    def _was_working(self, found: Gap, by: str) -> None:
        text = f"Worked on this from {found.since:%H:%M} to {found.until:%H:%M}, without an entry."
        self.put(None, lambda made: made.add(NoteAct(text)), by)

    def _was_away(self, found: Gap, by: str) -> None:
        """A break from the last entry on; where nothing was entered since the return, the clock on from there."""
        told = record(self.file, self.bench, None, lambda made: people.clock(made, "break"), by, found.since)
        if told.taken and found.running:
            told = record(self.file, self.bench, None, lambda made: people.clock(made, "on"), by, found.until)
        self.entry.idle()
        self.draw()
        self.answer_with(told)
