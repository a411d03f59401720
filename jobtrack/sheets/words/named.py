"""What steps, readings, checks and givens are called: by their ids for scripts, by names as people say them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from jobtrack.job.state.conditions import OpenCondition, of_member
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import joined, step_name, tag_or_words
from jobtrack.template.plan import Ref


class Naming(Protocol):
    """How a sentence calls what it speaks of."""

    def step(self, id: str) -> str:
        """One step."""

    def steps(self, ids: Sequence[str]) -> str:
        """Several steps in a row."""

    def given(self, name: str) -> str:
        """A given."""

    def value(self, ref: Ref, here: str) -> str:
        """A given, a reading or a check, in a sentence about the step `here`."""

    def reading(self, step: str, name: str) -> str:
        """A reading in a sentence about its own step."""

    def condition(self, one: OpenCondition) -> str:
        """An open condition."""


class Ids:
    """By ids, which scripts rely on."""

    def step(self, id: str) -> str:
        """An expanded step's id."""
        return id

    def steps(self, ids: Sequence[str]) -> str:
        """Several, with commas."""
        return ", ".join(ids)

    def given(self, name: str) -> str:
        """The given's full name."""
        return name

    def value(self, ref: Ref, here: str) -> str:
        """The canonical name of a reading, a check, a given or a result, wherever it is said."""
        return ref.name

    def reading(self, step: str, name: str) -> str:
        """A reading's id in its step."""
        return name

    def condition(self, one: OpenCondition) -> str:
        """The name by which it is closed."""
        return one.name


class Names:
    """By titles and names, as people say them; what isn't in the job any more by its id."""

    def __init__(self, job: Job) -> None:
        self.job = job

    def step(self, id: str) -> str:
        """A step's title with its side or vehicle."""
        return step_name(self.job.steps[id]) if id in self.job.steps else id

    def steps(self, ids: Sequence[str]) -> str:
        """Several, in quotation marks; one alone without them; by their ids where one isn't in the job any more."""
        if len(ids) == 1:
            return self.step(ids[0])
        known = all(one in self.job.steps for one in ids)
        return joined([f"“{self.step(one)}”" for one in ids]) if known else ", ".join(ids)

    def given(self, name: str) -> str:
        """What the given asks, in quotation marks, with the vehicle whose it is."""
        return f"“{given_name(self.job, name)}”"

    def value(self, ref: Ref, here: str) -> str:
        """What a value is called: within its own step by that name alone, elsewhere with the step."""
        return own_name(self.job, ref) if ref.step == here else f"“{ref_name(self.job, ref)}”"

    def reading(self, step: str, name: str) -> str:
        """What the template calls a reading; its id where it says nothing."""
        return self.job.steps[step].step.reading[name].say or name

    def condition(self, one: OpenCondition) -> str:
        """Its tag, or its words where it has none, with the side or vehicle."""
        return tag_or_words(one)


def given_name(job: Job, name: str) -> str:
    """What a given is called, with the vehicle whose it is; its id where the template has no such given."""
    if name not in job.plan.givens:
        return name
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
