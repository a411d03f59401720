"""Checks: ids are words that somebody can read on a sheet and type on the command line."""

from __future__ import annotations

import re
from collections.abc import Iterator

from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.schema.values import ID
from jobtrack.template.model import Step, Template
from jobtrack.template.plan import Plan

_WORD = re.compile(r"[a-z]{2}")
_INSIDE = ("reading", "tick", "work_out", "compare", "part", "torque", "weld")


def check_own_id(plan: Plan) -> Iterator[Problem]:
    """The template's own id is an id: it stands in commands."""
    name = plan.template.id
    if name.strip() and not re.fullmatch(ID, name):
        better = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "a word in small letters"
        why = f"the id {name[:60]!r} has something else in it than small letters, digits and single hyphens"
        yield Problem(("id",), why, f"Write {better}")


def check_readable(plan: Plan) -> Iterator[Problem]:
    """An id has a word in it, not a letter or a number alone."""
    for key in _ids(plan.template):
        name = key[-1]
        if not _WORD.search(name):
            yield remark(
                key, f"the id {name} is no word", "Name it by what it is: it stands on sheets and in commands"
            )


def _ids(template: Template) -> Iterator[Key]:
    for table in ("vehicle", "set", "condition", "stage", "part", "due_afterwards"):
        yield from ((table, name) for name in getattr(template, table))
    yield from (("given", *name.split(".")) for name in template.given)
    for base, step in template.step.items():
        yield ("step", base)
        yield from _in_step(base, step)


def _in_step(base: str, step: Step) -> Iterator[Key]:
    for table in _INSIDE:
        yield from (("step", base, table, name) for name in getattr(step, table))
