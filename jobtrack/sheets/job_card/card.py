"""A job as its card shows it: the state, the units, the times; and what every part of the card says alike."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from jobtrack import units
from jobtrack.job.about import About
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Blank, Inline, Text
from jobtrack.sheets.words.zones import Times
from jobtrack.units.chosen import Chosen

WHO = 14
"""Letters of a frame for a name and a time."""


class Card(Struct, frozen=True):
    """What goes onto a card."""

    job: Job
    """As it is recorded; for an empty card the same job with nothing in it."""
    shown: Chosen
    times: Times
    empty: bool

    def whose(self, done: Iterable[Done]) -> str:
        """Who recorded some acts, when each was done, and when it was typed in where that was later."""
        return "; ".join(dict.fromkeys(self.of_entry(one.entry) for one in done))

    def of_entry(self, entry: Entry) -> str:
        """ "Ada, 15 May 15:40, typed in 16 May 08:10"."""
        later = f", typed in {self.times.said(entry.typed_at)}" if entry.typed_at else ""
        return f"{entry.by}, {self.times.said(entry.at)}{later}"


def nothing_recorded(job: Job) -> Job:
    """The same job before its first entry, with the steps that somebody has added."""
    return Job.fold(About(job.about.id, job.about.title, job.plan, job.about.hash), ())


def frame(unit: str | None, letters: int = 8) -> Blank:
    """An empty frame with its unit."""
    return Blank(_unit(unit), letters)


def _unit(unit: str | None) -> str:
    """A unit as it is shown; as it stands, where a template has one that nobody knows."""
    try:
        return units.shown(unit)
    except units.UnitError:
        return unit or ""


def frames(unit: str | None, many: int) -> Text:
    """Empty frames in a row, each with its unit behind it."""
    row: list[Inline] = []
    for number in range(many):
        row += [" ", frame(unit)] if number else [frame(unit)]
    return tuple(row)
