"""What is asked of a plan again and again: found once and kept with it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from jobtrack.template.plan import Plan

Fact = TypeVar("Fact")


def kept(find: Callable[[Plan], Fact]) -> Callable[[Plan], Fact]:
    """A fact of a plan that is found when it is first asked for, and kept as long as the plan is."""
    name = f"{find.__module__}.{find.__qualname__}"

    @wraps(find)
    def ask(plan: Plan) -> Fact:
        facts = vars(plan)
        if name not in facts:
            facts[name] = find(plan)
        found: Fact = facts[name]
        return found

    return ask
