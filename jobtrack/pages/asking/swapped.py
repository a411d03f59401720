"""Which readings of the two sides change places, with their values."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.state.job import Job
from jobtrack.sheets.words.values.readings import measured_words
from jobtrack.template.plan import PlannedStep


def two_sides(job: Job, planned: PlannedStep) -> tuple[PlannedStep, ...]:
    """The step on both sides; empty where it isn't done on two."""
    both = job.plan.by_base.get(planned.base, ())
    return tuple(both) if len(both) == 2 else ()


def swap_lines(job: Job, planned: PlannedStep) -> list[str]:
    """A line a reading that was taken on either side: what each side has after the swap."""
    return list(_lines(job, two_sides(job, planned)))


def _lines(job: Job, both: tuple[PlannedStep, ...]) -> Iterator[str]:
    if not both:
        return
    one, other = both
    for name, reading in one.step.reading.items():
        if reading.from_ is not None:
            continue
        here, there = (measured_words(job, side, name) or "no reading" for side in both)
        if {here, there} != {"no reading"}:
            yield f"{reading.say or name}: {one.member} gets {there}, {other.member} gets {here}"
