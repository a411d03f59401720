"""Handing over and taking over: what the next person must see first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.acts.said import MarkAct
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, Job, person
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import NO_CONDITION, day_and_time, headed, step_name
from jobtrack.sheets.handover.donts import WALK_ROUND, donts
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.sentences import tag_or_words

STANDS_UNTIL = "The job says so until that is closed, or somebody takes over having seen it."


GIVER_SAYS = (
    ("holds_up", "What holds the vehicle up, and when was it shaken?"),
    ("decides", "Who decides what, and until when can they be reached?"),
    ("promised", "What was promised, and to whom?"),
    ("tried", "What was tried and didn't work?"),
    ("says", "What else do you want to say?"),
)
"""What the giver is asked, by the key under which the handover has it."""


def asked_of_giver(by: str, to: str) -> tuple[tuple[str, str], ...]:
    """What is asked: of whoever leaves the job to themselves for the morning only what holds the vehicle up."""
    return GIVER_SAYS[:1] if person(by) == person(to) else GIVER_SAYS


def giving_words(by: str, to: str, said: Mapping[str, str]) -> list[str]:
    """What the second key records of a handover."""
    whole = f"Handed over by {by} to {to}."
    for_oneself = f"Left by {by}, to carry on with it later."
    words = "; ".join(f"{name.replace('_', ' ')}: {said[name]}" for name, _ in GIVER_SAYS if said.get(name))
    return [
        for_oneself if person(by) == person(to) else whole,
        *([f"In your words: {words}"] if words else []),
    ]


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


def given_lines(job: Job, given: Done, width: int) -> list[Line]:
    """Who hands over, to whom and when, above what is open."""
    to = given.act.to if isinstance(given.act, HandoverAct) else ""
    said = f"Not taken over yet. Handed over by {given.entry.by} to {to}, {day_and_time(given.entry.at)}."
    nothing = [] if job.open_conditions else wrap(NO_CONDITION, width)
    return [*wrap(said, width, "strong"), line(), *wrap("Recorded as open", width, "strong"), *nothing]


def seen_words(one: OpenCondition, seen: bool) -> str:
    """An open condition, and whether the comer has said that they have seen it."""
    return f"{'Open, seen' if seen else 'Open, not seen yet'}: {condition_sentence(one)}"


def beside_open(job: Job, width: int) -> list[Line]:
    """What stands below what is open: what not to begin, what is in hand and where inside it."""
    parts = (
        [*wrap("Don'ts", width, "strong"), *_bulleted(donts(job), width)],
        [*wrap("In hand", width, "strong"), *_bulleted(in_hand(job), width)],
        [*wrap("Together, before the giver leaves", width, "strong"), *_bulleted(WALK_ROUND, width)],
    )
    # No empty row at the end: it would have to be scrolled to before the page counts as read.
    return [row for part in parts if len(part) > 1 for row in (line(), *part)]


def taking_over_words(by: str, unseen: Sequence[OpenCondition], again: str) -> list[str]:
    """What the second key says of who takes over: what they haven't seen, and which reading they took again."""
    names = ", ".join(dict.fromkeys(map(tag_or_words, unseen)))
    seen = f"{by} (as typed) has seen all that is recorded as open and takes over."
    not_seen = f"{by} (as typed) takes over without having seen: {names}. {STANDS_UNTIL}"
    return [not_seen if unseen else seen, again or "No reading was taken again."]


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
