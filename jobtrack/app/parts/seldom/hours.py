"""Hours typed afterwards, one's own or a helper's."""

from __future__ import annotations

from datetime import date

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import too_long
from jobtrack.app.parts.series import Question, Series
from jobtrack.job.compose import people
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.asking.hours import day_meant, hours_read, hours_text, hours_words, worked_words


class Hours:
    """How many, whose, of which day: all shown back before Enter records it for the job as a whole."""

    def __init__(self, desk: JobDesk) -> None:
        self._desk = desk

    def begin(self) -> None:
        """Ask the three."""
        Series(self._desk, None, [
            Question("How many hours? As 2.5 or 2 h 30 min", "Type the hours; Escape cancels.", said=self._many),
            Question(f"Whose? Enter alone: {self._me}", said=self._whose),
            Question("Which day? Enter alone: today; 1: yesterday; or a date", said=self._day),
        ], lambda texts: lambda made: self._fill(made, *texts)).begin()  # fmt: skip

    @property
    def _me(self) -> str:
        return self._desk.screen.session.by or ""

    @property
    def _today(self) -> date:
        return self._desk.screen.session.now().date()

    def _many(self, texts: list[str]) -> str:
        return f"= {hours_words(hours_read(texts[0]))}."

    def _whose(self, texts: list[str]) -> str:
        if refused := too_long(texts[1]):
            raise ValueError(refused)
        return f"{hours_words(hours_read(texts[0]))} by {texts[1] or self._me}."

    def _day(self, texts: list[str]) -> str:
        today = self._today
        return worked_words(hours_read(texts[0]), texts[1] or self._me, day_meant(texts[2], today), today)

    def _fill(self, made: Draft, many: str, whose: str, day: str) -> None:
        of_today = None if not day else day_meant(day, self._today).isoformat()
        people.worked(made, hours_text(many), whose or None, of_today)
