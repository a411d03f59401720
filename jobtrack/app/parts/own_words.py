"""Something recorded in somebody's own words: the question, and the text kept where it is refused."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.job.compose import conditions
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.wording import step_name


def record_words(
    desk: JobDesk,
    asks: Questions,
    step: str | None,
    label: str,
    fill: Callable[[Draft, str], None],
    empty: bool = False,
    about: Sequence[str] = (),
    start: str = "",
) -> None:
    """Ask for words and record them in a step, or beside the steps; what is refused keeps the text."""

    def typed(text: str) -> str | None:
        if not text.strip() and not empty:
            return "Nothing is typed; Escape cancels."
        refused = desk.put(step, lambda made: fill(made, text.strip()))
        if refused is not None:
            asks.ask(label, typed, about, start=text)
            desk.screen.entry.say(refused)
        return None

    asks.with_name(lambda: asks.ask(label, typed, about, start=start))


def ask_unsafe(desk: JobDesk, asks: Questions, step: str | None) -> None:
    """What is unsafe right now, on whichever page somebody stands."""
    where = f"at “{step_name(desk.job.steps[step])}”" if step is not None else "in this job"
    ask = f"Unsafe right now, {where} - what is it? It becomes an open condition."
    record_words(desk, asks, step, ask, conditions.opens)
