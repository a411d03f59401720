"""The sheets of a job: written beside it by the disk's thread, then opened in the system's viewer."""

from __future__ import annotations

from collections.abc import Callable, Collection
from datetime import datetime
from typing import TYPE_CHECKING

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.sheet_files import keep_sheet
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import viewer

if TYPE_CHECKING:
    from jobtrack.sheets.paper.blocks import Sheet


class Papers:
    """Puts the sheets of one job together from the state that is seen; the disk's thread writes and opens them."""

    def __init__(self, desk: JobDesk) -> None:
        self._desk = desk
        self.ways: dict[str, Callable[[], object]] = {
            "record": self._choose_vehicle,
            "wheel": lambda: self._said_first(self._wheel_paper),
            "card": lambda: self._said_first(self._job_card),
            "empty-card": lambda: self._said_first(lambda: self._job_card(empty=True)),
        }
        """By the names among the keys, what each begins."""

    def begin(self, which: str) -> None:
        """One of the sheets, by its name among the keys."""
        self.ways[which]()

    def _said_first(self, make: Callable[[], None]) -> None:
        """That it is being written stands there first, since a long job's card takes a second."""
        self._desk.tell(WRITING)
        self._desk.screen.call_after_refresh(make)

    def _job_card(self, empty: bool = False) -> None:
        """The card of the job: filled in so far, or with empty frames."""
        from jobtrack.sheets.job_card.sheet import job_card

        session = self._desk.screen.session
        sheet = job_card(self._desk.job, session.shown, session.now(), empty)
        self.write("job-card-empty" if empty else "job-card", sheet)

    def _wheel_paper(self) -> None:
        """The paper for the steering wheel; none where no tag is due, which could be taken for an all-clear."""
        from jobtrack.sheets.tag.sheet import NO_TAG, tag_sheet

        session = self._desk.screen.session
        sheet = tag_sheet(self._desk.job, session.by, session.now())
        if sheet is None:
            self._desk.tell("")
            self._desk.screen.entry.say(NO_TAG)
        else:
            self.write("tag", sheet)

    def _choose_vehicle(self) -> None:
        """The page of a vehicle's record; of which, where there are several."""
        from jobtrack.sheets.vehicle_record.belongs import vehicle_name, vehicles

        job, opening, file = self._desk.job, self._desk.screen.app.opening, self._desk.file
        known = vehicles(job.plan)
        if len(known) == 1:
            opening.vehicle_record(file, known[0])
            return
        names = [vehicle_name(job, one) for one in known]
        opening.choose(
            "Whose record is written?", names, lambda number: opening.vehicle_record(file, known[number])
        )

    def vehicle_record(self, vehicle: str, including: Collection[str]) -> None:
        """The record of a vehicle: its photos are read first, by the disk's thread."""
        from jobtrack.sheets.vehicle_record.page import Page
        from jobtrack.sheets.vehicle_record.photo_files import photos_of
        from jobtrack.sheets.vehicle_record.pictures import photo_names
        from jobtrack.sheets.vehicle_record.sheet import vehicle_record

        session, file, job = self._desk.screen.session, self._desk.file, self._desk.job
        names = photo_names(Page(job, vehicle, including, session.shown))
        self._desk.tell(WRITING)
        file.beside(
            lambda: photos_of(file.file.real, names),
            lambda photos: self.write(
                f"vehicle-record-{vehicle}",
                vehicle_record(job, vehicle, including, photos, session.shown, session.now()),
            ),
        )

    def write(self, kind: str, sheet: Sheet, said: str = "") -> None:
        """Write a sheet and show it; `said`: what was recorded just before, which goes on being said."""
        file, at = self._desk.file.file, self._desk.screen.session.now()
        self._desk.tell(f"{said} {WRITING}".strip())
        self._desk.file.beside(
            lambda: _written(file, kind, at, sheet),
            lambda what: self._desk.tell(f"{said} {what}".strip(), stays=True),
        )


WRITING = "The sheet is being written."


def _written(file: JobFile, kind: str, at: datetime, sheet: Sheet) -> str:
    """Write it and open it; in the disk's thread."""
    from jobtrack.sheets.paper.forms import written

    try:
        kept = keep_sheet(file.beside, kind, at, written(sheet, ".html"))
    except JobFileError as error:
        return f"Sheet not written: {error}"
    return f"Sheet written. {viewer.show_sheet(kept)}"
