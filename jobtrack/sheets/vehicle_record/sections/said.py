"""What was said on the way: agreed, noted, known of the vehicle; and hours, where they are marked for the record."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.state.history import Done
from jobtrack.job.time.clock import Stretch, hours_by, times, total_hours, without_overlap
from jobtrack.job.time.typed_hours import TypedHours
from jobtrack.sheets.drawings.hours import labour_picture
from jobtrack.sheets.paper.blocks import Block, Named, Point, Points, Section, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.vehicle_record.private import HOURS
from jobtrack.sheets.words.hours import hours_words
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import raised
from jobtrack.sheets.words.values.readings import given_words


def agreed(page: Page) -> Section:
    """Who agreed to what, and how."""
    points = tuple(Point(_agreed(page, done)) for done in page.of_kind(AgreedAct))
    return section("Agreed", [Points(points)] if points else [], none="Nothing is recorded as agreed.")


def _agreed(page: Page, done: Done) -> str:
    words = raised(done.act.words().removeprefix("agreed, "))
    return f"{words} ({page.where(done.entry.step)}; {page.who(done.entry)})"


def notes(page: Page) -> Section:
    """Every note that may stand here, with its step."""
    points = tuple(Point(note_words(page, done)) for done in page.of_kind(NoteAct))
    return section("Notes", [Points(points)] if points else [], none="No note is recorded for it.")


def note_words(page: Page, done: Done) -> str:
    """A note with where, by whom and when it was written."""
    assert isinstance(done.act, NoteAct)
    private = "private note, " if done.act.private else ""
    return f"{page.where(done.entry.step)}: {done.act.note} ({private}{page.who(done.entry)})"


def known(page: Page) -> Section:
    """What is known of the vehicle and of the job, and who said it."""
    rows = tuple(_known(page))
    head = ("What was asked", "Answered", "By, when")
    return section("Known of the vehicle", [Table(head, rows, "small")] if rows else [], none="Nothing is.")


def _known(page: Page) -> Iterator[tuple[Text, ...]]:
    for name in page.job.plan.givens:
        standing = page.job.places.given(name)
        if standing.acts and page.on.given(name):
            by = " / ".join(dict.fromkeys(page.who(done.entry) for done in standing.acts))
            yield given_name(page.job, name), given_words(page.job, name), by


def hours(page: Page) -> Section:
    """The labour hours in the vehicle's steps, where they are marked for the record."""
    worked = hours_worked(page)
    people = tuple((name, hours_words(number)) for name, number in hours_by(worked, "person").items())
    named = Named((("In all", hours_words(total_hours(worked))), *people))
    blocks: list[Block] = [named, labour_picture(page.job, page.on.place)] if worked else []
    return section("Labour hours", blocks, none="No time is recorded.")


def hours_worked(page: Page) -> list[Stretch | TypedHours]:
    """The time that belongs to the vehicle's steps."""
    found = times(page.job)
    worked: list[Stretch | TypedHours] = [*without_overlap(found.stretches), *found.typed]
    return [one for one in worked if page.on.place(one.step)]


def wants_hours(page: Page) -> bool:
    """Whether hours are marked for the record."""
    return HOURS in page.including
