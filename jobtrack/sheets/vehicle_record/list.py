"""What will stand on a record, before it is written: counts by heading, and what private is in it or left off."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from datetime import UTC, datetime

from msgspec import Struct

from jobtrack.job.acts.doing import BuyingAct
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.job.time.clock import total_hours
from jobtrack.sheets.paper.blocks import (
    Block,
    Named,
    Paragraph,
    Photo,
    Picture,
    Points,
    Section,
    Sheet,
    Table,
)
from jobtrack.sheets.vehicle_record.page import Page
from jobtrack.sheets.vehicle_record.pictures import Shown
from jobtrack.sheets.vehicle_record.private import HOURS, MAY_BE_INCLUDED, PRICES, PRIVATE_NOTES
from jobtrack.sheets.vehicle_record.sections.said import hours_worked
from jobtrack.sheets.vehicle_record.sheet import vehicle_record
from jobtrack.sheets.words.hours import hours_words
from jobtrack.units.chosen import METRIC_FIRST

IN_WORDS = (
    "A price, an hour or a name that somebody typed into a note or an agreement stands there as typed: "
    "look through these before the record is given away."
)

FIGURE = re.compile(r"\d")
LARGE_OR_HOURS = re.compile(r"(?i)\d{3}|\d[\d .,/-]{5}|\d ?(h|hrs?|hours?)\b")


class PrivateThing(Struct, frozen=True):
    """One private thing: under which name it may be included, what it is, and whether it is."""

    name: str
    what: str
    included: bool


class ToStand(Struct, frozen=True):
    """What will stand on a record."""

    headings: tuple[tuple[str, int], ...]
    private: tuple[PrivateThing, ...]
    typed: tuple[str, ...] = ()
    """Notes and agreements on it in which a price, an hour or a telephone number may have been typed."""

    def words(self) -> list[str]:
        """The list in rows, for whoever says yes or no to it."""
        counts = [f"{title}: {number}" for title, number in self.headings]
        marked = [f"In it, as marked: {one.what}" for one in self.private if one.included]
        off = [f"Left off ({one.name}): {one.what}" for one in self.private if not one.included]
        none = [] if self.private else ["Nothing private is recorded."]
        return [*counts, *marked, *off, *none, IN_WORDS, *self.typed]


def on_the_record(job: Job, vehicle: str, including: Collection[str], photos: Shown | None = None) -> ToStand:
    """Counted on the record itself, as it would be written."""
    at = job.view.entries[-1].at if job.view.entries else datetime(2000, 1, 1, tzinfo=UTC)
    sheet = vehicle_record(job, vehicle, including, photos or {}, METRIC_FIRST, at)
    return ToStand(
        tuple(_counts(sheet)),
        tuple(_private(job, vehicle, including)),
        tuple(_typed(job, vehicle, including)),
    )


def _typed(job: Job, vehicle: str, including: Collection[str]) -> Iterator[str]:
    """What somebody has to look through: agreements with a figure in them, notes with a large one or hours."""
    page = Page(job, vehicle, including, METRIC_FIRST)
    for done in sorted((*page.of_kind(NoteAct), *page.of_kind(AgreedAct)), key=_order):
        match done.act:
            case NoteAct(note=text) if LARGE_OR_HOURS.search(text):
                yield f"Typed in {page.where(done.entry.step)}: {text}"
            case AgreedAct() as act if FIGURE.search(act.words()):
                yield f"Typed in {page.where(done.entry.step)}: {act.words()}"


def _counts(sheet: Sheet) -> Iterator[tuple[str, int]]:
    return ((one.title, _things(one)) for one in sheet.sections)


def _things(one: Section) -> int:
    return sum(map(_in_block, one.blocks)) + sum(map(_things, one.sections))


def _in_block(block: Block) -> int:
    """How many things a block holds; a row that goes across a table is its heading."""
    match block:
        case Table(head=head, rows=rows):
            return sum(len(row) == len(head) for row in rows)
        case Points(points=points):
            return len(points)
        case Named(rows=rows):
            return len(rows)
        case Photo() | Picture():
            return 1
        case Paragraph(text=str(text)) if "can't be shown" in text:
            return 1
        case _:
            return 0


def _private(job: Job, vehicle: str, including: Collection[str]) -> Iterator[PrivateThing]:
    """Every private thing that belongs to the vehicle, by name."""
    page = Page(job, vehicle, MAY_BE_INCLUDED, METRIC_FIRST)
    found = [*_notes(page), *_prices(page), *_hours(page)]
    return (PrivateThing(name, what, name in including) for name, what in found)


def _notes(page: Page) -> Iterator[tuple[str, str]]:
    for done in page.of_kind(NoteAct):
        if isinstance(done.act, NoteAct) and done.act.private:
            yield PRIVATE_NOTES, f"private note in {page.where(done.entry.step)}, {page.who(done.entry)}"


def _prices(page: Page) -> Iterator[tuple[str, str]]:
    for done in sorted((*page.of_kind(BuyingAct), *page.of_kind(AgreedAct)), key=_order):
        match done.act:
            case BuyingAct(part=part, price=price) if price:
                yield PRICES, f"price of {part}, {page.who(done.entry)}"
            case AgreedAct(agreed=who, amount=amount) if amount:
                yield PRICES, f"amount agreed with {who}, {page.who(done.entry)}"


def _order(done: Done) -> tuple[int, str, str, int]:
    return done.order


def _hours(page: Page) -> Iterator[tuple[str, str]]:
    if worked := hours_worked(page):
        yield HOURS, f"labour hours, {hours_words(total_hours(worked))} in all"
