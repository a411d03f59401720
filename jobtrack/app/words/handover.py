"""Handing over and taking over: what the next person must see first."""

from __future__ import annotations

import re
from collections.abc import Iterator

from jobtrack.app.paper import Line, line, wrap
from jobtrack.app.words.conditions import all_lines
from jobtrack.app.words.plain import day_and_time, of_member, step_name, steps_named
from jobtrack.record.conditions import OpenCondition
from jobtrack.record.entries import HandoverAct, MarkAct
from jobtrack.record.history import Done
from jobtrack.record.job import IN_HAND, LOOK_AGAIN, Job
from jobtrack.record.problems import step_problems
from jobtrack.sheets.handover import WALK_ROUND


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
        wrap(f"Handed over by {given.entry.by} to {to}, {day_and_time(given.entry.at)}.", width, "strong"),
        [*wrap("Recorded as open", width, "strong"), *all_lines(job, width)],
        [*wrap("Don'ts", width, "strong"), *_bulleted([*walk_round(dont=True), *donts(job)], width)],
        [*wrap("In hand", width, "strong"), *_bulleted(in_hand(job), width)],
        [
            *wrap("Together, before the giver leaves", width, "strong"),
            *_bulleted(walk_round(dont=False), width),
        ],
    )
    return [row for part in parts if len(part) > 1 or part is parts[0] for row in (*part, line())]


def _bulleted(texts: list[str], width: int) -> list[Line]:
    return [row for text in texts for row in wrap(f"- {text}", width, "", 2)]


def walk_round(dont: bool) -> list[str]:
    """What two people do together at the vehicle, or what nobody does before that."""
    texts = [text.removeprefix("- ") for text in WALK_ROUND]
    return [text for text in texts if text.startswith("Don't") is dont]


def donts(job: Job) -> list[str]:
    """The steps that a condition recorded as open stops, each with the tags of what is open."""
    found = []
    for planned in job.steps.values():
        open_here = [named for name in planned.step.not_while for one in job.open_conditions
                     for named in _by_tag(one, name)]  # fmt: skip
        if open_here and not job.settled(planned.id):
            found.append(f"Don't begin: {step_name(planned)}. Open: {', '.join(open_here)}.")
    return found


def _by_tag(one: OpenCondition, name: str) -> Iterator[str]:
    """A condition by its tag, where it has this name; what a damaged entry may have opened, too."""
    if name in (one.id, one.name):
        yield of_member(one.tag or one.text, one.member)
    for each in one.perhaps:
        if name in (each.id, each.name):
            yield f"perhaps {of_member(each.tag or each.text, each.member)}"


def in_hand(job: Job) -> list[str]:
    """The steps in hand or to be looked at again, where inside them, and what stands against them."""
    found = []
    for planned in job.steps.values():
        if job.state(planned.id) in (IN_HAND, LOOK_AGAIN):
            marks = [f"{done.act.mark} ({done.entry.by})" for done in job.view.in_step(planned.id)
                     if isinstance(done.act, MarkAct)]  # fmt: skip
            where = f"; at {marks[-1]}" if marks else ""
            against = "".join(f"; {steps_named(job, text)}" for text in step_problems(job, planned.id))
            found.append(f"{step_name(planned)}: {job.state(planned.id)}{where}{against}")
    return found


def recorded_readings(job: Job) -> list[tuple[str, str, str]]:
    """Every reading that has been taken: its step, its id, and what to call it, the latest step last."""
    return [(planned.id, name, f"{reading.say or name}, {step_name(planned)}")
            for planned in job.steps.values() for name, reading in planned.step.reading.items()
            if reading.from_ is None and job.places.reading(planned.id, name).acts]  # fmt: skip
