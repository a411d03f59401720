"""The labour hours of a job as a picture for a sheet."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.hours.labour import labour
from jobtrack.job.state.job import FINISHED, Job
from jobtrack.job.time.clock import Stretch, total_hours, without_overlap
from jobtrack.job.time.clock import times as worked
from jobtrack.job.time.typed_hours import TypedHours
from jobtrack.pictures.labour import labour_scale
from jobtrack.pictures.tolerance import Said
from jobtrack.sheets.paper.blocks import Picture
from jobtrack.sheets.words.hours import hours_words


def labour_picture(job: Job, counts: Callable[[str], object] = bool, shop: float | None = None) -> Picture:
    """Template, shop and this job on one scale.

    `counts`: of which steps, by id, the hours are counted. `shop`: hours that they took in this shop, where known.
    """
    steps = {one.key: one.estimated_hours for one in labour([job], "step").groups if counts(one.key)}
    estimates = {step: hours for step, hours in steps.items() if hours}
    whole = sum(estimates.values())
    done = sum(hours for step, hours in estimates.items() if job.state(step) == FINISHED)
    note = f"Of the template's {hours_words(whole)}, {hours_words(done)} are for the steps that are finished."
    drawing = labour_scale(_said(whole), _said(shop), _said(_worked(job, counts)))
    return Picture(drawing, "Labour hours beside the template's", note if whole else "")


def _worked(job: Job, counts: Callable[[str], object]) -> float:
    found = worked(job)
    every: list[Stretch | TypedHours] = [*without_overlap(found.stretches), *found.typed]
    return total_hours([one for one in every if counts(one.step)])


def _said(hours: float | None) -> Said | None:
    return Said(hours, hours_words(hours)) if hours else None
