"""Names as people say them in the place of ids: of steps, readings, checks and givens."""

from __future__ import annotations

import re

from jobtrack.record.conditions import of_member
from jobtrack.record.job import Job
from jobtrack.sheets.lines import joined, step_name
from jobtrack.template.plan import PlannedStep, Ref

_STEPS = re.compile(r"(?P<before>.*: )(?P<ids>[^:;]+?)(?P<behind>|; a clock .*)", re.S)
"""A sentence that ends in ids of steps."""
_ONE = tuple(
    re.compile(one, re.S)
    for one in (
        r"(?P<before>look again: (?:the limits of )?)(?P<id>\S+)(?P<behind> .*)",
        r"(?P<before>closed, but )(?P<id>\S+)(?P<behind> is .*)",
        r"(?P<before>recorded beside the closing: )(?P<id>\S+)(?P<behind>, by .*)",
        r"(?P<before>.* are counted in )(?P<id>\S+)(?P<behind>, where .*)",
        r"(?P<before>)(?P<id>\S+)(?P<behind>: a disagreement; it counts as not known)",
    )
)
"""The sentences of the record in which an id of a step, a value or a given stands."""


def given_name(job: Job, name: str) -> str:
    """What a given is called, with the vehicle whose it is."""
    vehicle, _, own = name.rpartition(".")
    return of_member(job.plan.givens[name].ask, None if own == "name" else vehicle)


def own_name(job: Job, ref: Ref) -> str:
    """What a given, a reading or a check is called in its own step."""
    if ref.kind == "given":
        return given_name(job, ref.name)
    step = job.steps[ref.step or ""].step
    return step.tick[ref.item].ask if ref.kind == "tick" else step.reading[ref.item].say or ref.item


def ref_name(job: Job, ref: Ref) -> str:
    """What a given, a reading or a check is called, a reading and a check with their step."""
    there = job.steps.get(ref.step or "")
    return f"{own_name(job, ref)}, {step_name(there)}" if there else own_name(job, ref)


def steps_named(job: Job, text: str, here: PlannedStep | None = None) -> str:
    """A sentence of the record (of the step `here`) with titles and names in the place of ids.

    Scripts rely on the ids, so the record itself keeps them.
    """
    for pattern in _ONE:
        found = pattern.fullmatch(text)
        name = _name(job, found["id"], here) if found else None
        if found and name:
            return f"{found['before']}{name}{found['behind']}"
    found = _STEPS.fullmatch(text)
    titles = _titles(job, found["ids"]) if found else ""
    return f"{found['before']}{titles}{found['behind']}" if found and titles else text


def _name(job: Job, id: str, here: PlannedStep | None) -> str | None:
    """What an id stands for: the title of a step, a value by its name; None where it stands for nothing."""
    if id in job.steps:
        return step_name(job.steps[id])
    ref = job.plan.resolve(id, here)
    if ref is None or ref.kind == "result":
        return None
    return own_name(job, ref) if here and ref.step == here.id else f"“{ref_name(job, ref)}”"


def _titles(job: Job, ids: str) -> str:
    """The titles of steps for their ids; empty where one of these is none."""
    steps = [job.steps.get(name) for name in ids.split(", ")]
    names = [step_name(one) for one in steps if one is not None]
    if len(names) < len(steps):
        return ""
    return names[0] if len(names) == 1 else joined([f"“{one}”" for one in names])
