"""What can be done now: by one person, by two, side by side; and what waits, for what.

Nothing here says that work may begin: only that neither the order, nor what is recorded as open, nor a part
that isn't here stops a step, and that nothing in the template keeps two steps apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from msgspec import Struct

from jobtrack.job.doing.parts import PartOf, parts_of
from jobtrack.job.state import order
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, NEXT, TO_COME, Job
from jobtrack.template.plan import PlannedStep

PART, UNKNOWN = "part", "unknown"
"""What a step may wait for besides the kinds of `order.Blocker`: a part that isn't here, something not known yet."""
NEEDS_SAYING = frozenset({
    "lifts", "lowers", "under", "drives", "cuts", "grinds", "welds", "heats", "bleeds", "opens-fuel", "near-fuel",
    "frees-spring", "airbag",
})  # fmt: skip
"""Kinds of work by which a second person gets hurt: a step that does one goes beside nothing, unless its template
says in `not_beside` what it doesn't go beside. Common practice, no source."""
OVER_SOMEBODY = frozenset({"lifts", "lowers", "drives", "welds", "opens-fuel"})
"""What nobody does while another is under a vehicle, whatever a template says. Common practice, no source."""
COMPARED = 24
"""So many of the steps that one person can do are held against each other; more are no list to choose from."""


class SideBySide(Struct, frozen=True):
    """Two steps of one person each that nothing keeps apart, the earlier of the plan first."""

    one: str
    other: str


class Waiting(Struct, frozen=True):
    """A step and everything that it waits for, in the order in which it was found."""

    step: str
    for_: tuple[order.Blocker, ...]


class CanBeDone(Struct, frozen=True):
    """Steps by id, each list in the order of the plan. The first four don't overlap."""

    in_hand: tuple[str, ...] = ()
    look_again: tuple[str, ...] = ()
    by_one: tuple[str, ...] = ()
    by_more: tuple[str, ...] = ()
    """Steps for which the template asks two people or more."""
    side_by_side: tuple[SideBySide, ...] = ()
    waiting: tuple[Waiting, ...] = ()


def can_be_done(job: Job) -> CanBeDone:
    """What the record gives for the question what to do now; of a job that has ended, nothing."""
    if job.ended is not None:
        return CanBeDone()
    waiting = tuple(_waiting(job))
    stopped = {one.step for one in waiting}
    open_steps = [one for one in job.steps.values() if one.id not in stopped]
    in_hand, again, next_ = ([one for one in open_steps if job.state(one.id) == state]
                             for state in (IN_HAND, LOOK_AGAIN, NEXT))  # fmt: skip
    by_one = [one for one in open_steps if one.step.people < 2 and job.state(one.id) in (IN_HAND, NEXT)]
    return CanBeDone(
        _ids(in_hand),
        _ids(again),
        _ids(one for one in next_ if one.step.people < 2),
        _ids(one for one in next_ if one.step.people > 1),
        tuple(_pairs(by_one)),
        waiting,
    )


def _ids(steps: Iterable[PlannedStep]) -> tuple[str, ...]:
    return tuple(one.id for one in steps)


# Side by side


def _pairs(steps: Sequence[PlannedStep]) -> Iterator[SideBySide]:
    for one, other in combinations(steps[:COMPARED], 2):
        if side_by_side(one, other):
            yield SideBySide(one.id, other.id)


def side_by_side(one: PlannedStep, other: PlannedStep) -> bool:
    """Whether nothing in the template keeps two steps apart that are done at the same time."""
    return not _one_by_one(one, other) and _bears(one, other) and _bears(other, one)


def _one_by_one(one: PlannedStep, other: PlannedStep) -> bool:
    """Two members of a stage of which one is brought to its end first."""
    return one.stage.one_by_one and one.step.stage == other.step.stage and one.member != other.member


def _bears(here: PlannedStep, other: PlannedStep) -> bool:
    """Whether a step bears what the other does and leaves open meanwhile."""
    does, step = set(other.step.does), here.step
    if NEEDS_SAYING & set(step.does) and not step.not_beside:
        return False
    if "under" in step.does and does & OVER_SOMEBODY:
        return False
    return not does & set(step.not_beside) and not _stopped_by(here, other)


def _stopped_by(here: PlannedStep, other: PlannedStep) -> bool:
    """Whether beginning the other opens what this one isn't to be done under."""
    opened = {name for one in other.step.opens for name in (one, f"{one}.{other.member}")}
    return bool(opened & set(here.step.not_while))


# Waiting


def _waiting(job: Job) -> Iterator[Waiting]:
    """The steps to come, and those that only a part keeps from being next in earnest."""
    outstanding = [one for one in parts_of(job) if one.outstanding]
    begun = {
        one.step.stage for one in job.steps.values() if job.state(one.id) in (IN_HAND, LOOK_AGAIN, FINISHED)
    }
    for planned in job.steps.values():
        if job.state(planned.id) in (TO_COME, NEXT):
            parts = _parts(planned, outstanding, planned.step.stage in begun)
            before = (*_unknown(job, planned), *order.blockers(job, planned), *parts)
            if before:
                yield Waiting(planned.id, tuple(dict.fromkeys(before)))


def _unknown(job: Job, planned: PlannedStep) -> Iterator[order.Blocker]:
    """What isn't known yet of that on which it depends whether the step is needed."""
    for name in planned.only_when:
        ref = job.plan.resolve(name, planned)
        if ref is None or job.now.source.standing(ref).value is None:
            yield order.Blocker(UNKNOWN, ref.name if ref is not None else name)


def _parts(planned: PlannedStep, outstanding: Iterable[PartOf], stage_begun: bool) -> Iterator[order.Blocker]:
    """Its own parts that are recorded as missing or on their way; what should be here before its stage begins."""
    for part in outstanding:
        gates = part.planned is not None and part.planned.before == planned.step.stage and not stage_begun
        if gates or (part.buying and part.name in planned.step.part):
            yield order.Blocker(PART, part.name)
