"""Handing a half-finished job over."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import GOES_ON, Questions, too_long
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import people
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import person
from jobtrack.job.time.clock import times
from jobtrack.pages.job.handing_over import sheet_lines
from jobtrack.pages.own_keys import named

NOT_NAMED = "(not named yet)"
NOTHING_RECORDED = "Back, with nothing recorded."


class HandoverScreen(PageScreen):
    """The sheet as the next person will see it; then to whom, and a second key."""

    desk: JobDesk
    HELP = (
        "The sheet that the next person will read, as the job stands now. Read it first, to its end; then "
        "{hand-over} asks whom it goes to, and a second {hand-over} records that it is handed over."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("h", "hand over", "hand_over", "Hand over: to whom, then {} again."),
        RECKONER,
        key("escape", "back", "leave", NOTHING_RECORDED),
        JOB,
        ALL_KEYS,
        also("b", "leave", NOTHING_RECORDED),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.to = NOT_NAMED

    def draw(self) -> None:
        """The sheet as it would be handed over now."""
        from jobtrack.sheets.handover.page import handover_markdown

        self.desk.draw_frame()
        sheet = handover_markdown(self.desk.job, self.session.by or NOT_NAMED, self.to)
        self.page.show(sheet_lines(sheet, self.page.room))

    def action_hand_over(self) -> None:
        """Ask to whom."""
        self.asks.with_name(lambda: self.asks.ask("To whom is it handed over?", self._named, hint=GOES_ON))

    def _named(self, name: str) -> str | None:
        if not name.strip():
            return "Type a name: a job is handed over to somebody."
        if refused := too_long(" ".join(name.split())):
            return refused
        self.to = " ".join(name.split())
        self.draw()
        about = [f"Handed over by {self.session.by} to {self.to}."]
        about += ["Your clock goes off with it."] if self._clock_is_open() else []
        self.entry.confirm(SecondKey(about, named("h", "hand-over"), self._record))
        return None

    def _clock_is_open(self) -> bool:
        """Whether the giver's clock runs, or is on a break: any entry would end that."""
        return person(self.session.by or "") in {person(name) for name in times(self.desk.file.meant).running}

    def _record(self) -> None:
        open_clock = self._clock_is_open()

        def fill(made: Draft) -> None:
            people.hand_over(made, self.to)
            if open_clock:
                people.clock(made, "off")

        self.desk.put(None, fill)
