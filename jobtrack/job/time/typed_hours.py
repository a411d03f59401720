"""Hours typed afterwards: whose, for which day, and how they are spread over the steps touched on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.people import WorkedAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job, person

NO_STEP = "(no step)"


class TypedHours(Struct, frozen=True):
    """The share of one step in hours that somebody typed afterwards."""

    job: str
    person: str
    step: str
    exact: Fraction
    day: str
    """As 2031-04-02: the day they are for."""

    @property
    def hours(self) -> float:
        """The same as a plain number, for what is shown; sums are made of `exact`."""
        return float(self.exact)

    @property
    def month(self) -> str:
        """As 2031-04."""
        return self.day[:7]


class Amount(Struct, frozen=True):
    """Hours as somebody typed them. Typed in a step they are that step's; else they are spread equally."""

    job: str
    person: str
    by: str
    hours: float
    day: str
    step: str | None
    touched: tuple[str, ...] = ()
    """The steps that the person recorded something in on that day, in the order of the file."""

    def shares(self) -> Iterator[TypedHours]:
        """The hours by step; together exactly what was typed."""
        steps: Sequence[str] = [self.step] if self.step else self.touched or [NO_STEP]
        for step in steps:
            yield TypedHours(self.job, self.person, step, Fraction(self.hours) / len(steps), self.day)


def amounts(job: Job) -> tuple[Amount, ...]:
    """The amounts typed that count, in the order of the file."""
    touched = _touched(job)
    return tuple(_amount(job, done, touched) for done in job.view.of_kind(WorkedAct))


def taken_back(job: Job) -> tuple[Amount, ...]:
    """The amounts that were typed and undone: they count no more, and stay readable."""
    counting = {done.name for done in job.view.of_kind(WorkedAct)}
    undone = [done for done in job.view.of_kind(WorkedAct, undone=True) if done.name not in counting]
    return tuple(_amount(job, done, {}) for done in undone)


Touched = dict[tuple[str, str], tuple[str, ...]]
"""By person and day."""


def _amount(job: Job, done: Done, touched: Touched) -> Amount:
    act, entry = done.act, done.entry
    assert isinstance(act, WorkedAct)
    whose, day = act.for_ or entry.by, act.on_day or entry.at.date().isoformat()
    steps = touched.get((person(whose), day), ())
    return Amount(job.about.id, whose, entry.by, act.worked, day, entry.step, steps)


def _touched(job: Job) -> Touched:
    """The steps that each person recorded something in, by the day where it was recorded."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for entry in job.view.counting_entries():
        if entry.step is not None and _touches(entry):
            day = entry.at.date().isoformat()
            found.setdefault((person(entry.by), day), {})[entry.step] = None
    return {key: tuple(steps) for key, steps in found.items()}


def _touches(entry: Entry) -> bool:
    """Whether an entry did anything in its step but type hours, with what that opened, or take something back."""
    typed = any(isinstance(act, WorkedAct) for act in entry.did)
    nothing = (WorkedAct, UndoesAct, OpensAct) if typed else (UndoesAct,)
    return any(not isinstance(act, nothing) for act in entry.did)
