"""The vehicle's record: one sheet for the owner, whoever buys it, and an inspector."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime

from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Section, Sheet, Strong, Text
from jobtrack.sheets.vehicle_record.belongs import vehicle_name, vehicles
from jobtrack.sheets.vehicle_record.page import Page
from jobtrack.sheets.vehicle_record.pictures import Shown, photos, pictures
from jobtrack.sheets.vehicle_record.sections.deviations import deviations, surprises
from jobtrack.sheets.vehicle_record.sections.ending import due, open_still
from jobtrack.sheets.vehicle_record.sections.fasteners import fasteners
from jobtrack.sheets.vehicle_record.sections.looked import NOT_CHECKED, checks, every_step, holds
from jobtrack.sheets.vehicle_record.sections.ratings import ratings
from jobtrack.sheets.vehicle_record.sections.readings import readings, whose, without_limit
from jobtrack.sheets.vehicle_record.sections.replaced import before
from jobtrack.sheets.vehicle_record.sections.said import agreed, hours, known, notes, wants_hours
from jobtrack.sheets.vehicle_record.sections.short import short
from jobtrack.sheets.vehicle_record.sections.work import parts, welds
from jobtrack.sheets.words.sentences import FIRST_WORD
from jobtrack.units.chosen import Chosen

PLAIN_WORDS = (
    "This is what was written down. It is no inspection certificate, approval or warranty. The work did not raise "
    "any rating on the vehicle's plate. Local rules and licensed inspection decide whether it may be driven, "
    "loaded or sold."
)


def vehicle_record(
    job: Job, vehicle: str, including: Collection[str], photos: Shown, shown: Chosen, at: datetime
) -> Sheet:
    """The record of one vehicle of a job; `including`: what private things were marked for it."""
    page = Page(job, vehicle, including, shown)
    return Sheet(
        "vehicle-record", _title(page), _head(page, at), _sections(page, photos), (NOT_CHECKED, FIRST_WORD)
    )


def _title(page: Page) -> str:
    return f"Vehicle record: {vehicle_name(page.job, page.vehicle)}"


def _head(page: Page, at: datetime) -> tuple[Text, ...]:
    job = page.job
    what = job.plan.template.vehicle.get(page.vehicle, "")
    others = [vehicle_name(job, one) for one in vehicles(job.plan) if one != page.vehicle]
    off = len(job.steps) - len(page.on.steps)
    left_off = f"Steps about {' and '.join(others)} are left off: {off}." if off and others else ""
    return (
        (Strong(PLAIN_WORDS),),
        ". ".join(filter(None, (what.rstrip("."), f"Job: {job.about.title}"))) + ".",
        f"Written {page.when(at)}. {page.times.head} {left_off}".strip(),
    )


def _sections(page: Page, shown: Shown) -> tuple[Section, ...]:
    limited, free = (
        readings(page),
        without_limit(page),
    )  # the notes of both stand in one list behind the first
    found = [
        *ratings(page), short(page), open_still(page), due(page), deviations(page), surprises(page), limited,
        whose(page), before(page), checks(page), holds(page), fasteners(page), welds(page), parts(page), agreed(page),
        notes(page), *([hours(page)] if wants_hours(page) else []), known(page), pictures(page), photos(page, shown),
        free, every_step(page),
    ]  # fmt: skip
    return tuple(one for one in found if one.blocks or one.sections)
