"""What can be done now in words: how many people a step takes, what goes beside it, and what neither promises."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from jobtrack.job.doing.can_be_done import COMPARED, SideBySide
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import step_name

RINGS = (
    "Alone in the shop: nothing under a vehicle and no hot work without somebody who rings at a set time "
    "(common practice, no source)."
)
WANTS_SOMEBODY = frozenset({"under", "cuts", "grinds", "welds", "heats"})
"""Kinds of work that nobody does alone in a shop without somebody who rings."""
HELPER = "a helper may do it alone"
SIDE_BY_SIDE = (
    "Nothing in the template keeps these apart. Look at the vehicle, and tell each other what is lifted, moved, lit "
    "or opened before you begin."
)


def takes(job: Job, step: str) -> str:
    """How many people a step takes, and whether a helper may do it alone."""
    here = job.steps[step].step
    people = f"{here.people} people" if here.people > 1 else ""
    hoist = "hoist or trolley" if here.hoist else ""
    helper = HELPER if here.helper_alone else ""
    return "; ".join(filter(None, (people, hoist, helper)))


def wants_somebody(job: Job, steps: Iterable[str]) -> bool:
    """Whether one of some steps is work that nobody does alone without somebody who rings."""
    return any(WANTS_SOMEBODY & set(job.steps[step].step.does) for step in steps)


def with_helper(job: Job, step: str) -> str:
    """A step by its name, and whether a helper may do it alone."""
    planned = job.steps[step]
    return f"“{step_name(planned)}”{f' ({HELPER})' if planned.step.helper_alone else ''}"


def apart_words(pairs: Sequence[SideBySide]) -> str:
    """What standing side by side means, and how many steps were looked at where those are many."""
    many = len({step for pair in pairs for step in (pair.one, pair.other)}) >= COMPARED
    return SIDE_BY_SIDE + (f" Only the first {COMPARED} steps are held against each other." if many else "")
