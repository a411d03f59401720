"""The labour hours of a job as a picture for a sheet."""

from __future__ import annotations

from jobtrack.hours.labour import labour
from jobtrack.job.state.job import FINISHED, Job
from jobtrack.pictures.labour import labour_scale
from jobtrack.pictures.tolerance import Said
from jobtrack.sheets.paper.blocks import Picture
from jobtrack.sheets.words.hours import hours_words


def labour_picture(job: Job, shop: float | None = None) -> Picture:
    """Template, shop and this job on one scale; `shop`: hours that such a job took in this shop, where known."""
    found = labour([job], "step")
    estimates = {one.key: one.estimated_hours for one in found.groups if one.estimated_hours}
    whole = sum(estimates.values())
    done = sum(hours for step, hours in estimates.items() if job.state(step) == FINISHED)
    note = f"Of the template's {hours_words(whole)}, {hours_words(done)} are for the steps that are finished."
    return Picture(
        labour_scale(_said(whole), _said(shop), _said(found.total_hours)),
        "Labour hours",
        note if whole else "",
    )


def _said(hours: float | None) -> Said | None:
    return Said(hours, hours_words(hours)) if hours else None
