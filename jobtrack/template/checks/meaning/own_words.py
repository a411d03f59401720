"""Checks: what a step says of itself stands in `does`, and what it forbids itself it doesn't do."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.meaning.kinds import HOT, KINDS, done, pattern
from jobtrack.template.model import Step
from jobtrack.template.plan import Plan

_FUEL = (
    "(?:fuel |petrol |diesel )?tanks?",
    "fuel (?:line|hose|pipe|filter)s?",
    "petrol",
    "diesel",
    "gas bottles?",
)
_OTHER_TANKS = ("(?:air|water|header|washer|wash|expansion) tanks?",)
_NOBODY_UNDER = (
    r"nobody (?:is |goes |stands |lies )?(?:under|underneath|below) (?:it|the \w+)(?= ?[.!?]|$)",
)


def sentences(step: Step) -> str:
    """What a step says of itself: its title, what to do, what is looked at."""
    return " . ".join([step.title, step.do, *(tick.ask for tick in step.tick.values())])


def things(step: Step) -> str:
    """What it takes: tools and consumables."""
    return ", ".join([*step.tools, *step.consumables])


def check_said(plan: Plan) -> Iterator[Problem]:
    """A kind of work that a step's own words name stands in `does`."""
    for base, step in plan.template.step.items():
        said, with_ = done(sentences(step)), things(step)
        for name, kind in KINDS.items():
            named = name in step.does or any(other in step.does for other in kind.or_else)
            word = "" if named else _word(step, name, said, with_)
            if word:
                yield remark(
                    ("step", base, "does"), f"“{word}” says that it {kind.phrase}, and does doesn't name that",
                    f'Add "{name}" to does, or say why not: answered.does = "…"',
                )  # fmt: skip


def _word(step: Step, name: str, said: str, with_: str) -> str:
    """The words of a step that say it does work of this kind; empty if none do."""
    if name == "welds" and step.weld:
        return f"weld.{next(iter(step.weld))}"
    if name == "near-fuel" and set(step.does) & set(HOT):
        found = pattern(_FUEL).search(pattern(_OTHER_TANKS).sub(" ", sentences(step)))
        return found[0] if found else ""
    return KINDS[name].said_in(said, with_)


def check_nobody_under(plan: Plan) -> Iterator[Problem]:
    """A step that has somebody under the vehicle doesn't say at the same time that nobody is."""
    for base, step in plan.template.step.items():
        if "under" in step.does and (found := pattern(_NOBODY_UNDER).search(step.do)):
            yield remark(
                ("step", base, "do"), f"“{found[0]}”, and does says that somebody goes under",
                "Say when nobody is under it, as “while the weight comes on”, or do what is under it in another step",
            )  # fmt: skip
