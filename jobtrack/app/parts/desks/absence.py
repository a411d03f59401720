"""Somebody comes back to a running clock: one question about the time away, and never while they work."""

from __future__ import annotations

from datetime import datetime

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import people, said
from jobtrack.job.state.job import person
from jobtrack.job.time import absence
from jobtrack.job.time.absence import Gap
from jobtrack.pages.job.others import away_question, not_away
from jobtrack.pages.own_keys import named


class Absence:
    """Asks after a long silence, as soon as nothing is being typed."""

    def __init__(self, screen: PageScreen) -> None:
        self._screen = screen
        self._back: datetime | None = None
        """When somebody came back: the job was opened, the machine woke, a key came after a long silence."""
        self._tick: datetime | None = None
        self._key: datetime | None = None
        self._typing_until: datetime | None = None
        """Until when somebody may still be in the middle of something, so that no key of theirs answers a question."""

    def start(self) -> None:
        """The job was opened."""
        self._back = self._tick = self._key = self._screen.session.now()

    def key_came(self) -> None:
        """A key was pressed."""
        now = self._screen.session.now()
        if self._key is not None and now - self._key >= absence.QUIET:
            self._back = now
        self._key = now
        self._typing_until = now + absence.STILL_TYPING

    def look(self, desk: JobDesk) -> None:
        """Once a second: ask, where there is something to ask."""
        now = self._screen.session.now()
        if self._tick is not None and now - self._tick >= absence.QUIET:
            self._back = now
        self._tick = now
        self._ask(desk)

    def _ask(self, desk: JobDesk) -> None:
        by, back = self._screen.session.by, self._back
        if by is None or back is None or self._busy():
            return
        self._back = None
        found = absence.gap(desk.job, by, back)
        asked = self._screen.session.asked
        if found is None or (silence := (desk.job.about.id, person(by), found.since)) in asked:
            return
        asked.add(silence)
        yes, no = named("y", "answer-yes"), named("n", "answer-no")
        question = SecondKey(
            away_question(found), yes, lambda: _was_working(desk, found, by), not_away(yes, no),
            ((no, lambda: _was_away(desk, found, by)),),
            f"{yes} yes, it counts   {no} no, a break   Escape asks no more",
        )  # fmt: skip
        self._screen.entry.confirm(question)

    def _busy(self) -> bool:
        if self._screen.entry.busy or self._screen.app.screen is not self._screen:
            return True
        return self._typing_until is not None and self._screen.session.now() < self._typing_until


def _was_working(desk: JobDesk, found: Gap, by: str) -> None:
    text = f"Worked on this from {found.since:%H:%M} to {found.until:%H:%M}, without an entry."
    desk.put(None, lambda made: said.note(made, text), by)


def _was_away(desk: JobDesk, found: Gap, by: str) -> None:
    """A break from the last entry on; where nothing was entered since the return, the clock on from there."""
    refused = desk.record(
        None, lambda made: people.clock(made, "break"), by, found.since, then=desk.answer_with
    )
    if refused is None and found.running:
        on = desk.record(None, lambda made: people.clock(made, "on"), by, found.until, then=desk.answer_with)
        refused = on
    desk.screen.entry.idle()
    desk.screen.draw()
    desk.screen.entry.say(refused or "")
