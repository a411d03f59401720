"""What stands against a step or a job in words: missing, outside, out of order, in disagreement."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack import units
from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.steps import FinishedAct, NotNeededAct
from jobtrack.job.state import order
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, RELEASED_BEFORE, TO_COME, Job, person
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import OUTSIDE, TOO_CLOSE, WHEN_TOO_CLOSE, Limits
from jobtrack.template.plan import PlannedStep
from jobtrack.units.rounding import said_beside


def step_problems(job: Job, step: str) -> list[str]:
    """What stands against a step, a sentence each."""
    planned = job.steps[step]
    begun = job.state(step) in (IN_HAND, FINISHED, LOOK_AGAIN)
    found = [f"look again: {why}" for why in job.why_look_again(step)]
    found += _answers(job, planned, done=job.state(step) in (FINISHED, LOOK_AGAIN))
    found += _hold(job, planned, done=job.state(step) == FINISHED)
    if begun and order.wanted(job, planned) is False:
        found.append("done though what it depends on says that it isn't needed")
    found += _not_needed(job, planned)
    return found + order.out_of_order(job, planned)


def left_open(job: Job, step: str) -> list[str]:
    """What finishing a step now would leave open: no reading, outside, no answer, no, not released."""
    planned = job.steps[step]
    return [*_answers(job, planned, done=True), *_hold(job, planned, done=True)]


def _answers(job: Job, planned: PlannedStep, done: bool) -> list[str]:
    return [*_readings(job, planned, done), *_ticks(job, planned, done)]


def _readings(job: Job, planned: PlannedStep, done: bool) -> Iterator[str]:
    for name, reading in planned.step.reading.items():
        standing = job.places.reading(planned.id, name) if reading.from_ is None else None
        label = reading.say or name
        if standing is not None and not standing.agreed:
            yield f"{label}: a disagreement, {both_sides(standing)}; it has no value until somebody settles it"
        elif done and standing is not None and not standing.acts:
            yield f"{label}: no reading"
        elif standing is not None and 0 < len(standing.values) < (reading.times or 1):
            yield f"{label}: {len(standing.values)} of {reading.times} readings taken"
        yield from _verdict(job, planned, name, label)


def _verdict(job: Job, planned: PlannedStep, name: str, label: str) -> Iterator[str]:
    verdict = job.now.verdict(planned.id, name)
    if verdict not in (OUTSIDE, TOO_CLOSE):
        return
    limits = job.now.limits(planned.id, name)
    unit = planned.step.reading[name].unit
    value = job.now.reading_value(planned.id, name)
    beside = (limits.low, limits.high)
    shown = (
        said_beside(value, beside, unit)
        if value is not None
        else job.places.reading(planned.id, name).written
    )
    advice = f"; {WHEN_TOO_CLOSE}" if verdict == TOO_CLOSE else ""
    yield f"{label}: {shown} is {verdict} ({_between(limits, unit)}{advice})"


def _between(limits: Limits, unit: str | None) -> str:
    """ "22.5 to 24.5 mm", "at least 54 mm", "at most 254 mm"."""
    low, high = (units.show(one, unit) if one is not None else "" for one in (limits.low, limits.high))
    if low and high:
        return f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"


def both_sides(standing: Standing) -> str:
    """What stands at one place, each value as typed and whose it is."""
    return " and ".join(f"{done.act.as_dict().get('typed', '?')} ({done.entry.by})" for done in standing.acts)


def _ticks(job: Job, planned: PlannedStep, done: bool) -> Iterator[str]:
    for name, tick in planned.step.tick.items():
        standing = job.places.tick(planned.id, name)
        if not standing.agreed:
            yield headed(tick.ask, "a disagreement; it counts as no")
        elif standing.acts and standing.value is not True:
            yield headed(tick.ask, "no")
        elif done and not standing.acts:
            yield headed(tick.ask, "not answered")


def headed(title: str, text: str) -> str:
    """A title and what stands there; a question ends in its own mark."""
    return f"{title}{'' if title.endswith('?') else ':'} {text}"


def _hold(job: Job, planned: PlannedStep, done: bool) -> Iterator[str]:
    hold = job.hold(planned.id)
    if hold is None:
        return
    if hold.state == RELEASED_BEFORE:
        yield f"hold released before a change: {hold.ask}"
    elif hold.release is None and done:
        yield f"hold not released: {hold.ask}"
    elif hold.release is not None and _released_by_the_same(job, planned, hold.release.entry.by):
        yield "hold released by the one who finished the step: not seen by a second person"


def _released_by_the_same(job: Job, planned: PlannedStep, by: str) -> bool:
    return any(
        isinstance(done.act, FinishedAct) and person(done.entry.by) == person(by)
        for done in job.view.in_step(planned.id)
    )


def _not_needed(job: Job, planned: PlannedStep) -> Iterator[str]:
    acts = job.view.in_step(planned.id)
    if job.state(planned.id) == IN_HAND and any(isinstance(done.act, NotNeededAct) for done in acts):
        yield "marked not needed by somebody who hadn't seen what was done in it"


def job_problems(job: Job) -> list[str]:
    """What stands against the job as a whole."""
    found = [*job.about.remarks, *(f"{name}: {text}" for name, text in _givens(job))]
    found += [
        f"{done.entry.by} recorded something in an entry that this program doesn't know; "
        "this list may be incomplete"
        for done in job.view.of_kind(UnknownAct)
    ]
    return found + _beside_the_end(job)


def _givens(job: Job) -> Iterator[tuple[str, str]]:
    for name in job.plan.givens:
        if not job.places.given(name).agreed:
            yield name, "a disagreement; it counts as not known"


def _beside_the_end(job: Job) -> list[str]:
    """What no closing of a closed job has seen."""
    closings = job.view.of_kind(JobClosedAct)
    if not closings or job.ended != "closed":
        return []
    seen = 0
    for done in closings:
        seen |= 1 << job.view.bit(done.entry)
        for end in done.act.of if isinstance(done.act, JobClosedAct) else ():
            bit = job.view.history.bit(end)
            if bit is not None and bit in job.view:
                seen |= job.view.ancestors[end] | 1 << bit
    unseen = [
        entry
        for entry in job.view.counting_entries()
        if not seen >> job.view.bit(entry) & 1
        and any(not isinstance(act, DueDoneAct | NoteAct) for act in entry.did)
    ]
    left = [f"recorded beside the closing: {entry.step or 'job'}, by {entry.by}" for entry in unseen]
    return left + [
        f"closed, but {step} is {job.state(step)}"
        for step in job.steps
        if any(act.work for entry in unseen if entry.step == step for act in entry.did)
        and job.state(step) not in (FINISHED, TO_COME)
    ]
