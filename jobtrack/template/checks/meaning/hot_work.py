"""Checks on hot work: approval asked, a fire watch left open and of one length, no cleaner beside an arc."""

from __future__ import annotations

import re
from collections.abc import Iterator

from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.template.checks.meaning.hazards import hot, messages
from jobtrack.template.checks.meaning.kinds import KINDS, done, pattern
from jobtrack.template.checks.meaning.own_words import sentences, things
from jobtrack.template.checks.names import ASK_FIRST_CONDITION
from jobtrack.template.model import Step
from jobtrack.template.plan import Plan

_WATCH = ("fire", "watcher", "last (?:spark|arc|flame|run|bead)")
_DRIED = ("(?:let|until|wait till) (?:it |is |it is )*dr(?:y|ies)", "dries", "dried(?: off)?")
_HOW_LONG = (r"(half an hour)", r"(?:(an|one)|(\d+)) (min(?:utes?)?|h(?:ours?)?)(?:'s)?")


def fire_watches(plan: Plan) -> list[str]:
    """The conditions that say that somebody watches for fire."""
    words = pattern(("fire(?:-watch)?",))
    return [
        name
        for name, one in plan.template.condition.items()
        if words.search(f"{name}. {one.text}. {one.tag}")
    ]


def check_watched(plan: Plan) -> Iterator[Problem]:
    """Hot work leaves a fire watch open."""
    known = fire_watches(plan)
    for base, step in plan.template.step.items():
        kinds = hot(step)
        if kinds and not set(known) & set(step.opens):
            mend = (
                f"Add {known[0]} to opens"
                if known
                else "Declare a condition that says fire watch, add it to opens"
            )
            yield remark(
                ("step", base, "opens"), f"it {KINDS[kinds[0]].phrase}, and opens no fire watch",
                f"{mend}, and close it in a step where somebody has watched",
            )  # fmt: skip


def check_approved(plan: Plan) -> Iterator[Problem]:
    """Hot work isn't begun while the question about approval is open."""
    for base, step in plan.template.step.items() if plan.template.ask_first is not None else ():
        kinds = hot(step)
        if kinds and ASK_FIRST_CONDITION not in step.not_while:
            yield remark(
                ("step", base, "not_while"),
                f"it {KINDS[kinds[0]].phrase}, and doesn't wait for the answer of those who are asked first",
                f'Add "{ASK_FIRST_CONDITION}" to not_while',
            )  # fmt: skip


def check_solvent(plan: Plan) -> Iterator[Problem]:
    """A step that throws sparks uses no solvent, dye or cleaner, or says that it is dry by then."""
    kind = KINDS["solvent"]
    for base, step in plan.template.step.items():
        found = kind.said_in(done(sentences(step)), things(step)) if hot(step) else ""
        dried = pattern(_DRIED).search(f"{sentences(step)} {messages(step)}")
        if hot(step) and not dried and (found or "solvent" in step.does):
            word = f"“{found}”" if found else "a solvent"
            yield remark(
                ("step", base, "do"), f"{word} is used in the same step as arc, sparks or flame",
                "Put it in a step of its own, or say that it dries before the first spark; never with chlorine in it",
            )  # fmt: skip


def check_one_length(plan: Plan) -> Iterator[Problem]:
    """The fire watch has one length throughout: where it is shorter than elsewhere, a remark."""
    found = list(_lengths(plan))
    longest = max((length for _, length in found), default=0)
    for key, length in found:
        if length < longest:
            yield remark(
                key, f"a fire watch of {length:g} min here, and of {longest:g} min elsewhere in the template",
                "Say one length everywhere; the local rule comes first",
            )  # fmt: skip


def _lengths(plan: Plan) -> Iterator[tuple[Key, float]]:
    for base, step in plan.template.step.items():
        for key, text in _texts(step):
            for length in _minutes(text):
                yield ("step", base, *key), length
        for name, tick in step.tick.items():
            if tick.wait is not None and pattern(_WATCH).search(tick.ask):
                yield ("step", base, "tick", name, "wait"), float(tick.wait.minutes)


def _texts(step: Step) -> Iterator[tuple[Key, str]]:
    yield ("do",), step.do
    yield from ((("hazard",), f"{one.hazard}, {one.avoid}") for one in step.hazard)
    yield from ((("tick", name), tick.ask) for name, tick in step.tick.items())


def _minutes(text: str) -> Iterator[float]:
    """How long a fire watch lasts by a text, in minutes: a time in a sentence that speaks of one."""
    for sentence in re.split(r"[.;:?!]", text):
        found = pattern(_HOW_LONG).search(sentence) if pattern(_WATCH).search(sentence) else None
        if found and found[1]:
            yield 30
        elif found:
            count = int(found[3]) if found[3] else 1
            yield count * (60 if found[4].startswith("h") else 1)
