"""Labour hours summed over jobs: by step, stage, person, vehicle, job, template or month."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from fractions import Fraction

from msgspec import Struct

from jobtrack.job.remarks.of_time import TimeProblem, TypedRemark, overlaps, time_problems, typed_remarks
from jobtrack.job.state.job import NOT_NEEDED, Job, person
from jobtrack.job.time.clock import Stretch, by_month, rounded, times, total_hours, without_overlap
from jobtrack.job.time.runs import clocks
from jobtrack.job.time.typed_hours import NO_STEP, TypedHours
from jobtrack.template.plan import VEHICLE_SET

NO_VEHICLE = "(no vehicle)"
Worked = Stretch | TypedHours


class Group(Struct, frozen=True):
    """Hours worked under one heading; estimated None where a template can't say (a person, a month)."""

    key: str
    hours: float
    estimated_hours: float | None


class OfJob(Struct, frozen=True):
    """A remark about the hours of one job; its title where there are several jobs."""

    title: str | None
    remark: TimeProblem | TypedRemark


class BetweenJobs(Struct, frozen=True):
    """A time in which one person's clock was on in two jobs, by their titles. It is counted once, in the later."""

    person: str
    start: datetime
    end: datetime
    earlier: str
    later: str


class Labour(Struct, frozen=True):
    """`overlaps` says where a person's clock was on twice; `remarks` what else the hours don't say themselves."""

    total_hours: float
    groups: tuple[Group, ...]
    running: tuple[str, ...] = ()
    on_break: tuple[str, ...] = ()
    overlaps: tuple[OfJob | BetweenJobs, ...] = ()
    remarks: tuple[OfJob, ...] = ()


def labour(jobs: Sequence[Job], per: str) -> Labour:
    """The hours of some jobs. One person is never counted twice at one time, over all of them."""
    by_id = _each_once(jobs)
    found = [times(job) for job in by_id.values()]
    worked: list[Worked] = list(without_overlap(one for each in found for one in each.stretches))
    worked += [one for each in found for one in each.typed]
    return Labour(
        total_hours(worked),
        tuple(_groups(by_id, worked, per)),
        tuple(dict.fromkeys(name for each in found for name in each.running)),
        tuple(dict.fromkeys(name for each in found for name in each.on_break)),
        tuple(_overlaps(by_id)),
        tuple(_titled(by_id, typed_remarks)),
    )


def _each_once(jobs: Sequence[Job]) -> dict[str, Job]:
    """The jobs by id. Copies of one job are joined: what stands in both counts once, what stands in one counts."""
    found: dict[str, Job] = {}
    for job in jobs:
        known = found.get(job.about.id)
        same = known is not None and known.about.hash == job.about.hash
        found[job.about.id] = known.with_more(job.view.entries, known.damage) if known and same else job
    return found


def _titled(
    jobs: dict[str, Job], remarks: Callable[[Job], Sequence[TimeProblem | TypedRemark]]
) -> Iterator[OfJob]:
    """The remarks about each job."""
    for job in jobs.values():
        title = job.about.title if len(jobs) > 1 else None
        yield from (OfJob(title, one) for one in remarks(job))


def _overlaps(jobs: dict[str, Job]) -> Iterator[OfJob | BetweenJobs]:
    """Where a person's time is counted once though two clocks have it, in one job and over all."""
    yield from _titled(jobs, time_problems)
    for one in overlaps(clock for job in jobs.values() for clock in clocks(job)):
        if one.earlier.job != one.later.job:
            earlier, later = (jobs[span.job].about.title for span in (one.earlier, one.later))
            yield BetweenJobs(one.person, one.start, one.end, earlier, later)


def _groups(jobs: dict[str, Job], worked: Iterable[Worked], per: str) -> list[Group]:
    key = KEYS[per]
    if per == "month":
        worked = _by_month(worked)
    hours: dict[str, Fraction] = {}
    names: dict[str, str] = {}
    for one in worked:
        name = key(jobs[one.job], one)
        name = names.setdefault(person(name), name) if per == "person" else name
        hours[name] = hours.get(name, Fraction()) + one.exact
    estimates = _estimates(jobs.values(), per) if per in ESTIMATED else {}
    keys = [*hours, *(name for name in estimates if name not in hours)]
    return [Group(name, rounded(hours.get(name, Fraction())), estimates.get(name)) for name in keys]


def _by_month(worked: Iterable[Worked]) -> Iterator[Worked]:
    for one in worked:
        yield from by_month([one]) if isinstance(one, Stretch) else [one]


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
