"""Handing over and taking over: what the next person must see first."""

from __future__ import annotations

import re
from collections.abc import Iterable

from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.acts.said import MarkAct
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, Job
from jobtrack.pages.job.conditions import all_lines
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import day_and_time, headed, step_name
from jobtrack.sheets.handover.donts import WALK_ROUND, donts
from jobtrack.sheets.words.problems import with_names


def sheet_lines(text: str, width: int) -> list[Line]:
    """The Markdown sheet as plain rows, headings in bold."""
    found: list[Line] = []
    for row in text.splitlines():
        plain = _unescaped(row.lstrip("#*").strip("*").strip() if row[:1] in "#*" else row.replace("**", ""))
        found += wrap(plain, width, "strong" if row.startswith("#") else "", 2) if plain else [line()]
    return found


def _unescaped(text: str) -> str:
    """Without the strokes that keep people's text literal in Markdown."""
    out, skip = "", False
    for character in re.sub("`(@+)`", r"\1", text):
        skip = character == "\\" and not skip
        out += "" if skip else character
    return out


def take_over_lines(job: Job, given: Done, width: int) -> list[Line]:
    """Who hands over, what is open, what not to begin, what is in hand and where inside it."""
    to = given.act.to if isinstance(given.act, HandoverAct) else ""
    parts = (
        wrap(
            f"Not taken over yet. Handed over by {given.entry.by} to {to}, {day_and_time(given.entry.at)}.",
            width,
            "strong",
        ),
        [*wrap("Recorded as open", width, "strong"), *all_lines(job, width)],
        [*wrap("Don'ts", width, "strong"), *_bulleted(donts(job), width)],
        [*wrap("In hand", width, "strong"), *_bulleted(in_hand(job), width)],
        [*wrap("Together, before the giver leaves", width, "strong"), *_bulleted(WALK_ROUND, width)],
    )
    rows = [row for part in parts if len(part) > 1 or part is parts[0] for row in (*part, line())]
    return rows[:-1]  # an empty row at the end would have to be scrolled to before the page counts as read


def _bulleted(texts: Iterable[str], width: int) -> list[Line]:
    return [row for text in texts for row in wrap(f"- {text}", width, "", 2)]


def in_hand(job: Job) -> list[str]:
    """The steps in hand or to be looked at again, where inside them, and what stands against them."""
    found = []
    for planned in job.steps.values():
        if job.state(planned.id) in (IN_HAND, LOOK_AGAIN):
            marks = [f"{done.act.mark} ({done.entry.by})" for done in job.view.in_step(planned.id)
                     if isinstance(done.act, MarkAct)]  # fmt: skip
            where = f"; at {marks[-1]}" if marks else ""
            against = "".join(f"; {text}" for text in with_names(job, step_problems(job, planned.id)))
            found.append(headed(step_name(planned), f"{job.state(planned.id)}{where}{against}"))
    return found


def recorded_readings(job: Job) -> list[tuple[str, str, str]]:
    """Every reading that has been taken: its step, its id, and what to call it, the latest step last."""
    return [(planned.id, name, f"{reading.say or name}, {step_name(planned)}")
            for planned in job.steps.values() for name, reading in planned.step.reading.items()
            if reading.from_ is None and job.places.reading(planned.id, name).acts]  # fmt: skip
