"""The few drawings that say more than words, and the photos of the job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jobtrack.job.acts.doing import PhotoAct
from jobtrack.sheets.drawings.on_paper import pictures_in
from jobtrack.sheets.paper.blocks import Block, Paragraph, Photo, Section
from jobtrack.sheets.vehicle_record.page import Page, section

NOT_THERE = "it isn't in the job's folder of photos"
Shown = Mapping[str, Photo | str]
"""By name as recorded: the photo, or why it can't be shown."""


def pictures(page: Page) -> Section:
    """Drawings of the steps that were worked on: what was changed, and where a reading lies that isn't within."""
    steps = [one for one in page.on.steps if one.id in page.worked_on]
    found = [picture for one in steps for picture in pictures_in(page.job, one, page.shown)]
    return section("Drawings", found)


def photos(page: Page, shown: Shown) -> Section:
    """The photos, each with where, by whom and when it was taken in."""
    return section("Photos", _photos(page, shown), none="No photo is recorded.")


def _photos(page: Page, shown: Shown) -> Iterator[Block]:
    for done in page.of_kind(PhotoAct):
        name = done.act.photo if isinstance(done.act, PhotoAct) else ""
        found, where = shown.get(name, NOT_THERE), f"{page.where(done.entry.step)} ({page.who(done.entry)})"
        if isinstance(found, Photo):
            yield Photo(found.data, found.mime, f"{where}, photo {name}")
        else:
            yield Paragraph(f"{where}: photo {name} can't be shown: {found}.")


def photo_names(page: Page) -> list[str]:
    """The photos that belong to the vehicle, by their names as recorded."""
    return [done.act.photo for done in page.of_kind(PhotoAct) if isinstance(done.act, PhotoAct)]
