"""Several questions one after another on the entry line; the last Enter records, Escape cancels all of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.session import Fill
from jobtrack.app.widgets.entry import Ask
from jobtrack.pages.typeset import wrap
from jobtrack.pages.wording import NOT_RECORDED_YET
from jobtrack.units import UnitError

LAST = f"Enter records it, Escape cancels. {NOT_RECORDED_YET}"
ON = "Enter goes on, Escape cancels."


@dataclass(frozen=True, slots=True)
class Question:
    """One of them."""

    label: str
    needed: str = ""
    """What is said where nothing is typed; empty: it may be left."""
    start: str = ""
    said: Callable[[list[str]], str] = lambda texts: ""
    """What was understood by the answers so far, this one the last. Raises ValueError, UnitError."""


class Asking:
    """Asks one after another, and says what was understood."""

    LAST = LAST
    """What Enter does behind the last answer."""

    def __init__(self, desk: JobDesk, questions: Sequence[Question]) -> None:
        self._desk = desk
        self._questions = questions

    def begin(self) -> None:
        """Ask the first."""
        self._ask([])

    def _ask(self, texts: list[str], start: str = "") -> None:
        screen, question = self._desk.screen, self._questions[len(texts)]
        many = f"{len(texts) + 1} of {len(self._questions)}: " if self._questions[1:] else ""
        screen.entry.ask(Ask(
            wrap(f"{many}{question.label}", screen.room, "strong"),
            lambda text: self._answered([*texts, text.strip()]),
            self._about(texts), start or question.start, lambda text: self._echo([*texts, text.strip()]),
        ))  # fmt: skip

    def _about(self, texts: list[str]) -> list[str]:
        """What was understood so far."""
        return [self._understood(texts)] if texts and self._understood(texts) else []

    def _understood(self, texts: list[str]) -> str:
        return self._questions[len(texts) - 1].said(texts)

    def _echo(self, texts: list[str]) -> str:
        """What is understood by the answer that is being typed, and what Enter does."""
        try:
            said = self._understood(texts)
        except (ValueError, UnitError) as error:
            return str(error) if texts[-1] else self._keys(texts)
        return f"{said} {self._keys(texts)}".strip()

    def _keys(self, texts: list[str]) -> str:
        return self.LAST if len(texts) == len(self._questions) else ON

    def _answered(self, texts: list[str]) -> str | None:
        question = self._questions[len(texts) - 1]
        if question.needed and not texts[-1]:
            return question.needed
        try:
            question.said(texts)
        except (ValueError, UnitError) as error:
            return str(error)
        if len(texts) < len(self._questions):
            self._ask(texts)
            return None
        return self._ended(texts)

    def _ended(self, texts: list[str]) -> str | None:
        """All are answered; what is refused is given back, and the last answer stays in its field."""
        raise NotImplementedError

    def _back(self) -> None:
        """The line is as before the questions."""
        self._desk.screen.entry.idle()
        self._desk.screen.draw()
        self._desk.screen.entry.say("")


class Series(Asking):
    """Asks, and records what was answered in one entry."""

    def __init__(
        self,
        desk: JobDesk,
        step: str | None,
        questions: Sequence[Question],
        fill: Callable[[list[str]], Fill],
    ) -> None:
        """`fill`: from the answers, trimmed, to what is recorded."""
        super().__init__(desk, questions)
        self._step = step
        self._fill = fill

    def _ended(self, texts: list[str]) -> str | None:
        desk = self._desk
        refused = desk.record(self._step, self._fill(texts), then=desk.answer_with)
        if refused is None:
            self._back()
        return refused
