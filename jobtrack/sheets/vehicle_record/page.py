"""What every part of the record goes by: the job, what belongs to the vehicle, what is marked for it, units, times."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from datetime import datetime
from functools import cached_property

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section
from jobtrack.sheets.vehicle_record.belongs import OnRecord
from jobtrack.sheets.vehicle_record.private import all_said
from jobtrack.sheets.words.sentences import step_name
from jobtrack.sheets.words.zones import Times
from jobtrack.units.chosen import Chosen


class Page:
    """One record in the making."""

    def __init__(self, job: Job, vehicle: str, including: Collection[str], shown: Chosen) -> None:
        self.job, self.vehicle, self.including, self.shown = job, vehicle, including, shown
        self.on = OnRecord(job, vehicle)
        self.times = Times(job)
        self.notes: list[str] = []
        """Whose each limit is and where figures come from, by their number, from 1."""

    def note(self, text: str) -> str:
        """The number of a note, the same text once."""
        if text not in self.notes:
            self.notes.append(text)
        return str(self.notes.index(text) + 1)

    def when(self, at: datetime) -> str:
        """A time with its year, and its zone where that isn't the sheet's."""
        return self.times.said(at, year=True)

    def who(self, entry: Entry) -> str:
        """ "Nell Orrick, 3 Apr 2031 09:10"."""
        return f"{entry.by}, {self.when(entry.at)}"

    def of_kind(self, kind: type[Act]) -> list[Done]:
        """The acts of a kind that belong to the vehicle, without what stays off."""
        mine = (done for done in self.job.view.of_kind(kind) if self.on.entry(done.entry))
        return list(all_said(mine, self.including))

    def where(self, step: str | None) -> str:
        """A step's name; of one that isn't in the job any more its id."""
        planned = self.job.steps.get(step or "")
        return step_name(planned) if planned is not None else step or "the job as a whole"

    @cached_property
    def worked_on(self) -> set[str]:
        """The vehicle's steps in which something was recorded that is work."""
        return {
            one.id for one in self.on.steps if any(done.act.work for done in self.job.view.in_step(one.id))
        }


def section(
    title: str, blocks: Iterable[Block], *, none: str = "", sections: Sequence[Section] = ()
) -> Section:
    """A section; where nothing stands in it, what is said instead."""
    found = tuple(blocks)
    return Section(title, found or ((Paragraph(none),) if none and not sections else ()), tuple(sections))
