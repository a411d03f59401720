"""Checks on words: hazard messages, what a step does, empty sentences, promises nobody can keep."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from jobtrack.schema.fields import fields_of
from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.template.checks.names import unknown
from jobtrack.template.model import Hazard
from jobtrack.template.plan import Plan

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""The signal words of ANSI Z535.6."""

DOES = (
    "lifts", "lowers", "under", "drives", "cuts", "grinds", "welds", "heats", "bleeds", "opens-fuel", "near-fuel",
    "frees-spring", "brake-dust", "battery", "airbag", "solvent",
)  # fmt: skip
_ASKED_BEFORE = {"lifts", "welds", "bleeds", "brake-dust"}
_PROMISES = re.compile(
    r"\b(safe|safely|legal|legally|roadworthy|approved|certified|guaranteed|permitted|allowed|fit for|ok|okay"
    r"|all clear|good to go|passed)\b",
    re.IGNORECASE,
)
_NO_SENTENCE = {"source", "answered", "for_", "version", "use", "unit", "since"}


def check_hazards(plan: Plan) -> Iterator[Problem]:
    """A hazard message has one of four signal words and no empty part."""
    places: list[tuple[Key, tuple[Hazard, ...]]] = [(("hazard",), plan.template.hazard)]
    places += [(("step", base, "hazard"), step.hazard) for base, step in plan.template.step.items()]
    for key, hazards in places:
        for hazard in hazards:
            if hazard.signal not in SIGNALS:
                yield unknown(key, hazard.signal, "signal word", SIGNALS)
            if not all(part.strip() for part in (hazard.hazard, hazard.does, hazard.avoid)):
                yield Problem(
                    key,
                    "a part of a hazard message is empty",
                    "Say the hazard, what it does, how to avoid it",
                )


def check_does(plan: Plan) -> Iterator[Problem]:
    """What a step does is from the list, and has its hazard message; the template asks others first."""
    done: set[str] = set()
    for base, step in plan.template.step.items():
        for key, kinds in (("does", step.does), ("not_beside", step.not_beside)):
            for kind in kinds:
                if kind not in DOES:
                    yield unknown(("step", base, key), kind, "kind of work", DOES)
        if step.does and not step.hazard:
            yield remark(
                ("step", base, "does"), f"it {step.does[0]}, and has no hazard message", "Add hazard = [[…]]"
            )
        done |= set(step.does)
    asked = sorted(done & _ASKED_BEFORE)
    if asked and plan.template.ask_first is None:
        yield Problem(
            ("id",), f"the work {' and '.join(asked)}, and nobody is asked first",
            'Add ask_first = "…", the question to those who decide, or ask_first = true',
        )  # fmt: skip


def check_complete(plan: Plan) -> Iterator[Problem]:
    """There is a step; a step has one hold at most; every vehicle and sentence has words."""
    if not plan.template.step:
        yield Problem((), "the template has no step", "Add [step.ID] with stage and title")
    for base, step in plan.template.step.items():
        if step.hold is not None and step.go_or_stop is not None:
            yield Problem(
                ("step", base, "go_or_stop"), "a step has one hold at most", "Keep hold or go_or_stop"
            )
    for key, text in texts((), plan.template):
        if not text.strip() and key[-1] not in {"do", "hazard"}:
            yield Problem(key, "nothing is written here", "Write the words, or remove the key")


def check_promises(plan: Plan) -> Iterator[Problem]:
    """A template says what to do and to look at, not what is allowed or safe: a remark."""
    for key, text in texts((), plan.template):
        found = _PROMISES.search(text)
        if found and key[-1].rstrip("_") not in _NO_SENTENCE:
            yield remark(
                key, f"“{found[0]}” promises what nobody here can know", "Say what is to be seen or measured"
            )


def check_helper(plan: Plan) -> Iterator[Problem]:
    """`helper_alone` doesn't go with work that needs several people."""
    for base, step in plan.template.step.items():
        if step.helper_alone and step.people > 1:
            yield Problem(
                ("step", base, "helper_alone"), f"the step needs {step.people} people", "Keep one of the two"
            )


def texts(key: Key, value: Any) -> Iterator[tuple[Key, str]]:
    """Every text of the template with the key it stands under."""
    if isinstance(value, str):
        yield key, value
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield from texts((*key, *(name.split(".") if key == ("given",) else [name])), inner)
    elif isinstance(value, (tuple, list)):
        for inner in value:
            yield from texts(key, inner)
    elif isinstance(value, Struct):
        for each in fields_of(type(value)):
            under = key if isinstance(value, Hazard) else (*key, each.key)
            yield from texts(under, getattr(value, each.name))
