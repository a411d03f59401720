"""What was written on paper, typed in afterwards: when it was done, for all that is recorded until Escape."""

from __future__ import annotations

from datetime import datetime

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.series import Asking, Question
from jobtrack.pages.asking.hours import day_meant
from jobtrack.pages.asking.on_paper import day_and_time, done_at


class OnPaper(Asking):
    """Asks the day and the time, and sets them for this sitting; nothing is recorded by it."""

    LAST = "Enter sets it until Escape ends it; nothing is recorded yet. Escape cancels."

    def __init__(self, desk: JobDesk) -> None:
        super().__init__(desk, [
            Question("On which day was it done? Enter alone: today; 1: yesterday; or a date", said=self._day),
            Question("At what time of that day? As 16:20", "Type the time of day, as 16:20; Escape cancels.",
                     said=self._time),
        ])  # fmt: skip

    def _day(self, texts: list[str]) -> str:
        day = day_meant(texts[0], self._desk.screen.session.now().date())
        return f"On {day:%A} {day.day} {day:%B %Y}."

    def _time(self, texts: list[str]) -> str:
        return f"{day_and_time(self._done_at(texts))}."

    def _done_at(self, texts: list[str]) -> datetime:
        day, clock = texts
        return done_at(day, clock, self._desk.screen.session.now())

    def _ended(self, texts: list[str]) -> None:
        self._desk.screen.session.on_paper = self._done_at(texts)
        self._back()
