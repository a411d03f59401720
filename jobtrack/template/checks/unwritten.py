"""Checks on what was begun and isn't written yet: a text that is only …, a hazard message in its usual words."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.words import texts
from jobtrack.template.plan import Plan
from jobtrack.template.usual import USUAL

TO_WRITE = ("…", "...")
"""What stands for words that are still to come."""


def check_unwritten(plan: Plan) -> Iterator[Problem]:
    """No text is left at its dots: a remark."""
    for key, text in texts((), plan.template):
        if text.strip() in TO_WRITE:
            yield remark(key, "this is still to be written", "Write the words, or remove the key")


def check_usual(plan: Plan) -> Iterator[Problem]:
    """A hazard message is the step's own, not the one that stands beside its kind of work by itself: a remark."""
    usual = {row for one in USUAL.values() for row in one.rows}
    for base, step in plan.template.step.items():
        for row in step.hazard:
            if row in usual:
                yield remark(
                    ("step", base, "hazard"),
                    f"“{row.hazard}” has the usual words for such work, not this step's",
                    "Say what can happen in this one, or why they fit under answered",
                )
