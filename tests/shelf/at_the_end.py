"""How the jobs of a template's value files stand at their end, held against what the files say and the template has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.conditions import ASK_FIRST, openings
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import FINISHED, NOT_NEEDED, RELEASED, Job, person
from jobtrack.sheets.words.problems import with_ids
from tests.shelf.value_file import ValueFile

Ended = Sequence[tuple[ValueFile, Job]]


def of_one(values: ValueFile, job: Job) -> list[str]:
    """What isn't so at the end of one job."""
    name = values.path.name
    found = [
        *_ended(values, job),
        *_same("outside", sorted(values.outside), sorted(outside(job))),
        *_same("settled", _named(values.settled), sorted(settled(job))),
        *_same("taken_again", _named(values.taken_again), sorted(taken_again(job))),
        *(f"{one}: two values that disagree, not settled" for one in _apart(job)),
    ]
    return [f"{name}: {one}" for one in found]


def _named(name: str) -> list[str]:
    return [name] if name else []


def _same(key: str, wanted: list[str], found: list[str]) -> Iterator[str]:
    yield from (f"{key} says {one}, but it isn't" for one in wanted if one not in found)
    yield from (
        f"{one} is {key.replace('_', ' ')}, but {key} doesn't say so" for one in found if one not in wanted
    )


def _ended(values: ValueFile, job: Job) -> Iterator[str]:
    if (job.ended or "") != values.ended:
        yield f"the job is {job.ended or 'not ended'} at the end, ended says {values.ended or 'not ended'}"
    if values.ended != "closed":
        return
    for step in job.steps:
        if job.state(step) not in (FINISHED, NOT_NEEDED):
            yield f"step {step} is {job.state(step)} when the job is closed"
    for one in job.open_conditions:
        yield f"{one.name} is still open when the job is closed ({one.words})"


def outside(job: Job) -> list[str]:
    """The readings whose verdict is *outside*."""
    return [f"{id}.{name}" for id, planned in job.steps.items() for name in planned.step.reading
            if job.now.verdict(id, name) == "outside"]  # fmt: skip


def settled(job: Job) -> set[str]:
    """What was settled, in readings, checks and givens."""
    return {
        _place(done, done.act.settled)
        for done in job.view.of_kind(SettledAct)
        if isinstance(done.act, SettledAct)
    }


def taken_again(job: Job) -> set[str]:
    """The readings that somebody measured twice, the second time not for a slip of typing."""
    acts = {done.name: done for done in job.view.of_kind(ReadingAct)}
    return {_place(done, done.act.reading) for done in acts.values()
            if isinstance(done.act, ReadingAct) and not done.act.mistyped
            and any(_same_person(done, acts[one]) for one in done.act.replaces if one in acts)}  # fmt: skip


def _same_person(one: Done, other: Done) -> bool:
    return person(one.entry.by) == person(other.entry.by)


def _place(done: Done, name: str) -> str:
    return f"{done.entry.step}.{name}" if done.entry.step else name


def _apart(job: Job) -> list[str]:
    return [f"{id}.{name}" for id, planned in job.steps.items() for name, reading in planned.step.reading.items()
            if reading.from_ is None and not job.places.reading(id, name).agreed]  # fmt: skip


def among_all(ended: Ended) -> list[str]:
    """What none of a template's jobs has come by."""
    if not ended:
        return []
    steps = {id: planned for _, job in ended for id, planned in job.about.plan.steps.items()}
    visited = {id for _, job in ended for id in steps if job.state(id) == FINISHED}
    released = {id for _, job in ended for id in steps if _hold_released(job, id)}
    return [
        *(f"step {id} is finished in no value file" for id in steps if id not in visited),
        *(f"the hold behind {id} is released in no value file"
          for id, planned in steps.items() if planned.hold is not None and id not in released),
        *_conditions([job for _, job in ended]),
        *_kinds(ended),
    ]  # fmt: skip


def _hold_released(job: Job, step: str) -> bool:
    hold = job.hold(step)
    return hold is not None and hold.state == RELEASED


def _conditions(jobs: Sequence[Job]) -> Iterator[str]:
    template = jobs[0].plan.template
    known = [*([ASK_FIRST] if template.ask_first else []), *template.condition]
    opened = {one.id for job in jobs for one in openings(job.plan, job.view)}
    closed = {id for job in jobs for id in _closed(job)}
    for id in known:
        if id not in opened:
            yield f"condition {id} is opened in no value file"
        elif id not in closed:
            yield f"condition {id} is closed in no value file, nor passed to what is due afterwards"


def _closed(job: Job) -> set[str]:
    """The conditions that were opened and aren't open at the end of the job."""
    left = {one.id for one in job.open_conditions}
    return {one.id for one in openings(job.plan, job.view)} - left


def _kinds(ended: Ended) -> Iterator[str]:
    for key, any_of in (
        ("outside", any(values.outside for values, _ in ended)),
        ("settled", any(values.settled for values, _ in ended)),
        ("taken_again", any(values.taken_again for values, _ in ended)),
    ):
        if not any_of:
            yield f"{key}: none in all value files of the template; one is wanted"


def said(values: ValueFile, job: Job) -> Iterable[str]:
    """For a writer of templates: what the job says against its steps at the end, which may be meant."""
    yield f"{values.path.name}: {len(values.rows)} calls, {len(job.steps)} steps; {job.ended or 'not ended'}"
    yield f"  outside: {', '.join(outside(job)) or 'none'}"
    for id in job.steps:
        for words in with_ids(job, step_problems(job, id)):
            yield f"  {id}: {words}"
