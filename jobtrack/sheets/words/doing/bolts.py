"""Bolts and runs in words: how far they are, what isn't counted, and that nobody knows how many there are."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from jobtrack.job.doing.tightening import FINGER, NOTHING, SNUG, number_of
from jobtrack.job.remarks.of_step import Besides
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.named import Naming
from jobtrack.sheets.words.sentences import joined
from jobtrack.sheets.words.values.readings import given_words
from jobtrack.template.model import MOST_BOLTS


def uncounted_words(job: Job, given: str, called: Naming) -> str:
    """That nobody knows how many bolts there are, and what says it: "how many bolts isn't known yet: Wheel studs"."""
    name = called.given(given)
    if given not in job.plan.givens:
        return f"how many bolts isn't known: {name} is no given"
    standing = job.places.given(given)
    if not standing.agreed:
        return f"how many bolts isn't known: {name} is in disagreement"
    if standing.value is None:
        return f"how many bolts isn't known yet: {name}"
    wanted = f"wanted is a whole number from 1 to {MOST_BOLTS}"
    return f"how many bolts isn't known: {name} is {given_words(job, given)}, {wanted}"


def besides_words(job: Job, found: Besides, called: Naming) -> str:
    """Bolts that are recorded and that the given doesn't count: "bolt 6 snug, though Wheel studs is 5"."""
    said = bolts_words((bolt.name, bolt.reached) for bolt in found.bolts)
    return f"{said}, though {called.given(found.given)} is {given_words(job, found.given)}"


def bolts_words(bolts: Iterable[tuple[str, int]]) -> str:
    """How far bolts are tightened, those as far as each other together: "bolts 1 and 3 at stage 2"."""
    groups: dict[int, list[str]] = {}
    for name, reached in bolts:
        groups.setdefault(reached, []).append(name)
    return "; ".join(f"{counted('bolt', names)} {far_words(reached)}" for reached, names in groups.items())


def far_words(reached: int) -> str:
    """How far a bolt is tightened."""
    early = {NOTHING: "without an entry", FINGER: "finger tight", SNUG: "snug"}
    return early.get(reached) or f"at stage {reached}"


def runs_words(runs: Sequence[str]) -> str:
    """Runs of a weld: "run 2", "runs 2 and 3"."""
    return counted("run", runs)


def counted(what: str, names: Sequence[str]) -> str:
    """Names in a row, numbers in their order: "bolt 3", "bolts 1 and 3", "bolts 1 to 10"."""
    numbers = sorted(number for name in names if (number := number_of(name)) is not None)
    rest = [name for name in names if number_of(name) is None]
    in_a_row = numbers[2:] and numbers[-1] - numbers[0] == len(numbers) - 1
    said = [f"{numbers[0]} to {numbers[-1]}"] if in_a_row else [str(number) for number in numbers]
    return f"{what}{'s' if names[1:] else ''} {joined([*said, *rest])}"
