"""What stands against a step: missing, outside, out of order, in disagreement. Put into words at the edge."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from jobtrack.job.acts.base import Plain
from jobtrack.job.acts.steps import FinishedAct, NotNeededAct
from jobtrack.job.doing.tightening import Bolt, tightening
from jobtrack.job.doing.welding import welding
from jobtrack.job.remarks.waits import TooSoon, too_soon
from jobtrack.job.state import order
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, RELEASED_BEFORE, Job, person
from jobtrack.job.state.look_again import Reason
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import OUTSIDE, TOO_CLOSE, Limits, Number
from jobtrack.template.plan import PlannedStep

APART, NO, NOT_ANSWERED = "apart", "no", "not answered"
"""What a check has against it; apart: several answered it, not knowing of each other, and differ."""
NOT_RELEASED, BY_THE_SAME = "not released", "by the same"
"""What a hold has against it, besides `RELEASED_BEFORE`."""
NOT_WANTED, MARKED_UNSEEN = "not wanted", "marked unseen"
"""Work though the step isn't needed: by what it depends on, or marked so by somebody who hadn't seen the work."""


class LookAgain(Struct, frozen=True):
    """A reason why a step is to be looked at again."""

    step: str
    why: Reason


class Disagreement(Struct, frozen=True):
    """A reading that several recorded, not knowing of each other; it has no value until somebody settles it."""

    step: str
    reading: str
    sides: Standing


class NoReading(Struct, frozen=True):
    """A reading that wasn't taken."""

    step: str
    reading: str


class TooFew(Struct, frozen=True):
    """A reading taken fewer times than the template asks."""

    step: str
    reading: str
    taken: int
    asked: int


class NotWithin(Struct, frozen=True):
    """A reading that is outside its limits or too close to one to call; numbers in its unit."""

    step: str
    reading: str
    value: Number | None
    written: Plain | None
    """As it was typed, for what has no value: a bound."""
    limits: Limits
    verdict: str


class Check(Struct, frozen=True):
    """A check without a yes."""

    step: str
    tick: str
    answer: str
    """`APART`, `NO` or `NOT_ANSWERED`."""


class NotTightened(Struct, frozen=True):
    """Bolts of a torque line that aren't recorded at the last stage, each with how far it is tightened."""

    step: str
    torque: str
    bolts: tuple[tuple[str, int], ...]
    """Names and stages; below the first, `FINGER`, `SNUG` or `NOTHING`."""


class NotCounted(Struct, frozen=True):
    """A torque line of which nobody knows how many bolts it has: by its given's full name."""

    step: str
    torque: str
    given: str


class Besides(Struct, frozen=True):
    """Bolts that are recorded of a torque line beside those that its given counts."""

    step: str
    torque: str
    given: str
    bolts: tuple[Bolt, ...]


class NotWelded(Struct, frozen=True):
    """Runs of a weld that nothing is recorded of."""

    step: str
    weld: str
    runs: tuple[str, ...]


class Hold(Struct, frozen=True):
    """A hold that isn't released, or not as a hold is meant to be."""

    step: str
    ask: str
    release: str
    """`RELEASED_BEFORE`, `NOT_RELEASED` or `BY_THE_SAME`."""


class NotNeeded(Struct, frozen=True):
    """Work in a step that isn't needed."""

    step: str
    why: str
    """`NOT_WANTED` or `MARKED_UNSEEN`."""


OfValue = Disagreement | NoReading | TooFew | NotWithin | Check
OfDoing = NotTightened | NotCounted | Besides | NotWelded
OfStep = LookAgain | OfValue | OfDoing | TooSoon | Hold | NotNeeded | order.OutOfOrder


def step_problems(job: Job, step: str) -> list[OfStep]:
    """What stands against a step."""
    planned = job.steps[step]
    state = job.state(step)
    return [
        *(LookAgain(step, why) for why in job.why_look_again(step)),
        *_answers(job, planned, done=state in (FINISHED, LOOK_AGAIN)),
        *_hold(job, planned, done=state == FINISHED),
        *_not_needed(job, planned, state),
        *order.out_of_order(job, planned),
    ]


def left_open(job: Job, step: str) -> list[OfStep]:
    """What finishing a step now would leave open: no reading, outside, no answer, no, bolts and runs, the hold."""
    planned = job.steps[step]
    return [*_answers(job, planned, done=True), *_hold(job, planned, done=True)]


def _answers(job: Job, planned: PlannedStep, done: bool) -> Iterator[OfValue | OfDoing | TooSoon]:
    yield from _readings(job, planned, done)
    yield from _ticks(job, planned, done)
    yield from _torques(job, planned, done)
    yield from _welds(job, planned) if done else ()


def _readings(job: Job, planned: PlannedStep, done: bool) -> Iterator[OfValue]:
    for name, reading in planned.step.reading.items():
        if reading.from_ is None:
            yield from _taken(job.places.reading(planned.id, name), planned, name, done)
        yield from _verdict(job, planned, name)


def _taken(standing: Standing, planned: PlannedStep, name: str, done: bool) -> Iterator[OfValue]:
    """Whether a reading that somebody takes was taken, often enough and alike."""
    asked = planned.step.reading[name].times or 1
    if not standing.agreed:
        yield Disagreement(planned.id, name, standing)
    elif done and not standing.acts:
        yield NoReading(planned.id, name)
    elif 0 < len(standing.values) < asked:
        yield TooFew(planned.id, name, len(standing.values), asked)


def _verdict(job: Job, planned: PlannedStep, name: str) -> Iterator[NotWithin]:
    verdict = job.now.verdict(planned.id, name)
    if verdict not in (OUTSIDE, TOO_CLOSE):
        return
    value, limits = job.now.reading_value(planned.id, name), job.now.limits(planned.id, name)
    written = job.places.reading(planned.id, name).written if value is None else None
    yield NotWithin(planned.id, name, value, written, limits, verdict)


def _ticks(job: Job, planned: PlannedStep, done: bool) -> Iterator[Check | TooSoon]:
    for name in planned.step.tick:
        if (soon := too_soon(job, planned, name)) is not None:
            yield soon
        standing = job.places.tick(planned.id, name)
        if not standing.agreed:
            yield Check(planned.id, name, APART)
        elif standing.acts and standing.value is not True:
            yield Check(planned.id, name, NO)
        elif done and not standing.acts:
            yield Check(planned.id, name, NOT_ANSWERED)


def _torques(job: Job, planned: PlannedStep, done: bool) -> Iterator[OfDoing]:
    for name in planned.step.torque:
        found = tightening(job, planned, name)
        if done and found.left:
            yield NotTightened(planned.id, name, tuple((bolt.name, bolt.reached) for bolt in found.left))
        if done and not found.counted and found.given:
            yield NotCounted(planned.id, name, found.given)
        if found.counted and found.beyond and found.given:
            yield Besides(planned.id, name, found.given, found.beyond)


def _welds(job: Job, planned: PlannedStep) -> Iterator[NotWelded]:
    for name in planned.step.weld:
        if runs := welding(job.view, planned, name).left:
            yield NotWelded(planned.id, name, runs)


def _hold(job: Job, planned: PlannedStep, done: bool) -> Iterator[Hold]:
    hold = job.hold(planned.id)
    if hold is None:
        return
    if hold.state == RELEASED_BEFORE:
        yield Hold(planned.id, hold.ask, RELEASED_BEFORE)
    elif hold.release is None and done:
        yield Hold(planned.id, hold.ask, NOT_RELEASED)
    elif hold.release is not None and _released_by_the_same(job, planned, hold.release.entry.by):
        yield Hold(planned.id, hold.ask, BY_THE_SAME)


def _released_by_the_same(job: Job, planned: PlannedStep, by: str) -> bool:
    return any(
        isinstance(done.act, FinishedAct) and person(done.entry.by) == person(by)
        for done in job.view.in_step(planned.id)
    )


def _not_needed(job: Job, planned: PlannedStep, state: str) -> Iterator[NotNeeded]:
    if state in (IN_HAND, FINISHED, LOOK_AGAIN) and order.wanted(job, planned) is False:
        yield NotNeeded(planned.id, NOT_WANTED)
    acts = job.view.in_step(planned.id)
    if state == IN_HAND and any(isinstance(done.act, NotNeededAct) for done in acts):
        yield NotNeeded(planned.id, MARKED_UNSEEN)
