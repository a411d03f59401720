"""Labour hours summed over jobs: by step, stage, person, vehicle, job, template or month."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from jobtrack.record.clock import NO_STEP, Stretch, TypedHours, times, without_overlap
from jobtrack.record.job import NOT_NEEDED, Job, person
from jobtrack.template.plan import VEHICLE_SET

NO_VEHICLE = "(no vehicle)"
Worked = Stretch | TypedHours


@dataclass(frozen=True, slots=True)
class Group:
    """Hours worked under one heading; estimated None where a template can't say (a person, a month)."""

    key: str
    hours: float
    estimated_hours: float | None


@dataclass(frozen=True, slots=True)
class Labour:
    total_hours: float
    groups: tuple[Group, ...]
    running: tuple[str, ...] = ()


def labour(jobs: Sequence[Job], per: str) -> Labour:
    """The hours of some jobs. One person is never counted twice at one time, over all of them."""
    by_id = {job.about.id: job for job in jobs}
    found = [times(job) for job in by_id.values()]
    worked: list[Worked] = list(without_overlap(one for each in found for one in each.stretches))
    worked += [one for each in found for one in each.typed]
    running = tuple(dict.fromkeys(name for each in found for name in each.running))
    return Labour(sum(one.hours for one in worked), tuple(_groups(by_id, worked, per)), running)


def _groups(jobs: dict[str, Job], worked: Iterable[Worked], per: str) -> list[Group]:
    key = KEYS[per]
    hours: dict[str, float] = {}
    names: dict[str, str] = {}
    for one in worked:
        name = key(jobs[one.job], one)
        name = names.setdefault(person(name), name) if per == "person" else name
        hours[name] = hours.get(name, 0.0) + one.hours
    estimates = _estimates(jobs.values(), per) if per in ESTIMATED else {}
    keys = [*hours, *(name for name in estimates if name not in hours)]
    return [Group(name, hours.get(name, 0.0), estimates.get(name)) for name in keys]


def _estimates(jobs: Iterable[Job], per: str) -> dict[str, float]:
    """Three-point means of the steps that aren't *not needed*, under the same headings."""
    sums: dict[str, float] = {}
    for job in jobs:
        for planned in job.steps.values():
            if job.state(planned.id) == NOT_NEEDED or len(planned.step.minutes) != 3:
                continue
            short, likely, long = planned.step.minutes
            name = ESTIMATED[per](job, planned.id)
            sums[name] = sums.get(name, 0.0) + (short + 4 * likely + long) / 6 / 60
    return sums


def _stage(job: Job, step: str) -> str:
    return job.steps[step].step.stage if step in job.steps else NO_STEP


def _vehicle(job: Job, step: str) -> str:
    planned = job.steps.get(step)
    return planned.member or NO_VEHICLE if planned and planned.set == VEHICLE_SET else NO_VEHICLE


ESTIMATED: dict[str, Callable[[Job, str], str]] = {
    "step": lambda _job, step: step,
    "stage": _stage,
    "vehicle": _vehicle,
    "job": lambda job, _step: job.about.title,
    "template": lambda job, _step: job.plan.template.id,
}


def _of_step(of: Callable[[Job, str], str]) -> Callable[[Job, Worked], str]:
    return lambda job, one: of(job, one.step)


KEYS: dict[str, Callable[[Job, Worked], str]] = {
    **{per: _of_step(of) for per, of in ESTIMATED.items()},
    "person": lambda _job, one: one.person,
    "month": lambda _job, one: one.month,
}
