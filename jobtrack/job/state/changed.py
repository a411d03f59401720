"""Where in a job something may follow from the entries that a later state has and an earlier one hasn't.

It may name too much, never too little: who compares both states there finds all that a comparison of the whole job
would find. Where it can't be told from the entries, it is everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Protocol

from msgspec import Struct

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import ReleasedAct, StandsAct, SwappedAct
from jobtrack.job.state.conditions import Condition, condition_of, of_step
from jobtrack.job.state.damage import Damage
from jobtrack.job.state.history import Done, Place, possible_places
from jobtrack.job.state.look_again import looking_at
from jobtrack.job.state.view import View, bits
from jobtrack.template.plan import Plan


class State(Protocol):
    """What is asked of the two states of a job."""

    plan: Plan
    view: View
    damage: tuple[Damage, ...]

    @property
    def ended(self) -> str | None:
        """Closed or stopped; None: it hasn't ended."""
        ...

    def stands(self, step: str) -> bool:
        """Whether the step is finished and stands so."""
        ...


class Touched(Struct, frozen=True):
    """What new entries have to do with: acts that they hold, undo or bring back, and the places and steps of these."""

    acts: tuple[Done, ...]
    places: frozenset[Place]
    steps: frozenset[str]
    """Where any answer about a step, but for what comes before it, may be another one now."""


class Changed(Struct, frozen=True):
    """The expanded steps, in the order of the plan, and the conditions; None: any condition."""

    steps: tuple[str, ...]
    conditions: frozenset[Condition] | None = None


def touched(before: State, after: State) -> Touched | None:
    """What the later state's new entries have to do with; None: that can't be told from them."""
    if _anything(before, after):
        return None
    acts = tuple(_acts(after.view, _recounted(before.view, after.view)))
    places = frozenset(_places(after, acts))
    steps = set(_steps_named(acts)) | {place[1] for place in places}
    for place in places:
        steps |= looking_at(after.plan, place[2] if place[0] == "given" else f"{place[1]}.{place[2]}")
    return Touched(acts, places, frozenset(steps))


def changed(before: State, after: State) -> Changed:
    """Where to look for what differs between two states."""
    found = touched(before, after)
    if found is None:
        return Changed(tuple(before.plan.steps))
    steps = tuple(step for step in after.plan.steps if step in found.steps) if found.steps else ()
    if _lost(before) or _lost(after):
        return Changed(steps)
    return Changed(steps, frozenset(_conditions(before, after, found.acts, steps)))


def _lost(job: State) -> bool:
    """Whether some of the record can't be read: each such stretch stands among the open conditions, too."""
    return bool(job.damage or job.view.missing)


def _anything(before: State, after: State) -> bool:
    """Whether the later state isn't the earlier one and a few entries more.

    So it is where a file was read anew, a step was put in, the job ended, or what entries followed and nobody had
    has come in: then it is what these could see that changes.
    """
    here, there = before.view, after.view
    same = there.history is here.history or there.history.under is here.history
    if not same or here.mask & ~there.mask or before.plan is not after.plan or before.ended != after.ended:
        return True
    return any(there.has(hash) for hash in here.missing)


def _recounted(here: View, there: View) -> Iterator[int]:
    """The new entries, and those that count in one of the views only: an undo, or one with the same id, came in."""
    new = there.mask & ~here.mask
    todo, seen = list(bits(new)), set(bits(new))
    for bit in todo:  # grows meanwhile: what is undone may be an undo itself
        entry = there.history.entry(bit)
        undone = [act.undoes for act in entry.did if isinstance(act, UndoesAct)]
        for other in (other for id in (entry.id, *undone) for other in there.history.of_id(id)):
            if other in there and other not in seen:
                seen.add(other)
                todo.append(other)
    return (bit for bit in todo if new >> bit & 1 or here.counts(bit) != there.counts(bit))


def _acts(view: View, those: Iterable[int]) -> Iterator[Done]:
    for bit in those:
        entry = view.history.entry(bit)
        for index, act in enumerate(entry.did):
            yield Done(act, entry, index)


def _places(job: State, acts: Iterable[Done]) -> Iterator[Place]:
    """Every place at which these acts count, or make others count; a reading may have changed sides."""
    for done in acts:
        swapped = done.act.of if isinstance(done.act, SwappedAct) else ()
        for one in (done, *(other for name in swapped for other in job.view.named(name))):
            for place in possible_places(one):
                yield place
                yield from _other_sides(job.plan, place)


def _other_sides(plan: Plan, place: Place) -> Iterator[Place]:
    planned = plan.steps.get(place[1])
    if planned is not None and place[0] == "reading":
        for other in plan.by_base.get(planned.base, ()):
            yield (place[0], other.id, place[2])


def _steps_named(acts: Iterable[Done]) -> Iterator[str]:
    """The steps in which they were done, or of which they say something."""
    for done in acts:
        if done.entry.step is not None:
            yield done.entry.step
        yield from _names(done.act)


def _names(act: Act) -> tuple[str, ...]:
    match act:
        case StandsAct():
            return act.stands
        case ReleasedAct():
            return (act.released,)
        case _:
            return ()


def _conditions(
    before: State, after: State, acts: Iterable[Done], steps: Iterable[str]
) -> Iterator[Condition]:
    """What these acts open or close, and what is closed only as long as a step stands that stands no more, or again."""
    for done in acts:
        yield from _named_by(after, done)
        yield from of_step(after.plan.steps.get(done.entry.step or ""))
    for step in steps:
        if before.stands(step) != after.stands(step):
            for done in after.view.in_step(step, undone=True):
                yield from _named_by(after, done)


def _named_by(job: State, done: Done) -> Iterator[Condition]:
    if isinstance(done.act, OpensAct):
        yield condition_of(job.plan, done)
    for name in done.act.closes if isinstance(done.act, ClosesAct) else ():
        for one in job.view.named(name):
            yield from (
                [condition_of(job.plan, one)]
                if isinstance(one.act, OpensAct)
                else of_step(job.plan.steps.get(one.entry.step or ""))
            )
