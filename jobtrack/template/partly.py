"""What can be read of a template in which some tables can't."""

from __future__ import annotations

from typing import Any

from jobtrack.schema.problem import Key, Problem
from jobtrack.template.model import FORMAT

_NEEDED = {"format": FORMAT, "id": "unread", "title": "Unread"}


def without(data: dict[str, Any], places: set[Key]) -> dict[str, Any]:
    """The data without what stands at these places, keys at the top or tables one below."""
    part = {
        name: _others(table, {place[1] for place in places if place[:1] == (name,) and len(place) > 1})
        for name, table in data.items()
        if (name,) not in places
    }
    return {**_NEEDED, **part}


def _others(table: Any, names: set[str]) -> Any:
    if not isinstance(table, dict) or not names:
        return table
    return {name: each for name, each in table.items() if name not in names}


def names_one_of(problem: Problem, lost: set[str]) -> bool:
    """Whether the problem is that something is named which was left out; its reason begins with that name."""
    first = problem.why.partition(" ")[0]
    return first.partition(".")[0] in lost
