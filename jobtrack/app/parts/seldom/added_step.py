"""A step that the template doesn't have, before or after the one at hand."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.series import Question, Series
from jobtrack.job.compose import steps
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.wording import step_name
from jobtrack.template.plan import PlannedStep


class AddedStep:
    """Its title; the id is made from it."""

    def __init__(self, desk: JobDesk, here: PlannedStep) -> None:
        self._desk = desk
        self._here = here

    def before(self) -> None:
        """One that comes before."""
        self._ask("before", lambda made, title: self._add(made, title, before=self._here.id))

    def after(self) -> None:
        """One that comes after."""
        self._ask("after", lambda made, title: self._add(made, title, after=self._here.id))

    def _ask(self, where: str, add: Callable[[Draft, str], None]) -> None:
        label = f"A step more, {where} “{step_name(self._here)}”. What is to be done?"
        question = Question(label, "Type what is to be done; Escape cancels.", said=self._named)
        Series(self._desk, None, [question], lambda texts: lambda made: add(made, texts[0])).begin()

    def _named(self, texts: list[str]) -> str:
        return f"Its id: {self._id(texts[0])}." if texts[0] else ""

    def _id(self, title: str) -> str:
        return steps.id_of(title, self._desk.file.meant.steps)

    def _add(self, made: Draft, title: str, after: str | None = None, before: str | None = None) -> None:
        steps.add_step(made, self._id(title), title, after, before)
