"""A vehicle's record, before it is written: what will stand on it, and what private may."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.papers import Papers
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.state.job import Job
from jobtrack.pages.job.vehicle_record import record_lines
from jobtrack.pages.own_keys import named
from jobtrack.sheets.vehicle_record.belongs import vehicle_name
from jobtrack.sheets.vehicle_record.list import ToStand, on_the_record

BACK = "Back, with nothing written."
KEYS = {"private-notes": "n", "prices": "p", "hours": "h"}
"""What turns each private thing on or off."""


def _turns(name: str, words: str) -> BindingType:
    help = f"{words.capitalize()} on the record, or off it again; off until you mark them."
    return key(KEYS[name], words, f"include('{name}')", help, records=True)


class VehicleRecordScreen(PageScreen):
    """The list, a key for each private thing, and one that writes the record."""

    desk: JobDesk
    HELP = (
        "What will stand on the record that the owner, a buyer or an inspector gets. Read it first. Private notes, "
        "prices and hours stay off unless you mark them; {write} writes it as a file beside the job, and opens it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "w",
            "write it",
            "write",
            "Write the record into a file beside the job, and open it.",
            records=True,
        ),
        _turns("private-notes", "private notes"),
        _turns("prices", "prices"),
        _turns("hours", "hours"),
        key("escape", "back", "leave", BACK),
        ALL_KEYS,
        JOB,
        RECKONER,
        QUIT,
        also("b", "leave", BACK),
        REST,
    ]

    def __init__(self, file: OpenJob, vehicle: str) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.papers = Papers(self.desk)
        self.vehicle = vehicle
        self.including: set[str] = set()
        self._counted: tuple[Job, frozenset[str], ToStand] | None = None
        """Of which state, and with what marked, the list was made last: it is as much work as the record."""

    def draw(self) -> None:
        """What would stand on it now."""
        self.desk.draw_frame()
        keys = [named(letter, f"include-{name}") for name, letter in KEYS.items()]
        name = vehicle_name(self.desk.job, self.vehicle)
        self.page.show(record_lines(name, self._to_stand(), self.including, keys, self.page.room))

    def _to_stand(self) -> ToStand:
        job, including = self.desk.job, frozenset(self.including)
        if self._counted is None or self._counted[0] is not job or self._counted[1] != including:
            self._counted = job, including, on_the_record(job, self.vehicle, including)
        return self._counted[2]

    def action_include(self, name: str) -> None:
        """Mark a private thing for the record, or take the mark away."""
        (self.including.discard if name in self.including else self.including.add)(name)
        self.entry.forget()
        self.entry.say("")
        self.draw()

    def action_write(self) -> None:
        """Write what is listed, and open it."""
        self.papers.vehicle_record(self.vehicle, frozenset(self.including))
