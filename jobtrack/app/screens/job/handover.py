"""Handing a half-finished job over."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.papers import Papers
from jobtrack.app.parts.questions import Questions, too_long
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Told
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import people
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import person
from jobtrack.job.time.clock import times
from jobtrack.pages.job.handing_over import asked_of_giver, giving_words
from jobtrack.pages.own_keys import named

if TYPE_CHECKING:
    from jobtrack.sheets.paper.blocks import Sheet

NOT_NAMED = "(not named yet)"
TO_WHOM = "Enter goes on; your own name leaves it to yourself for later. Escape cancels."
EMPTY = "Enter goes on, and leaves it empty where nothing is typed. Escape cancels: nothing is recorded."
NOTHING_RECORDED = "Back, with nothing recorded."


class HandoverScreen(PageScreen):
    """The sheet as the next person will see it; then to whom, and a second key."""

    desk: JobDesk
    HELP = (
        "The sheet that the next person will read, as the job stands now. Read it first, to its end; then "
        "{hand-over} asks whom it goes to, and what you want to say with it: what holds the vehicle up, who decides, "
        "what was promised, what was tried, what else. A second {hand-over} records that it is handed over, and the "
        "sheet is written beside the job and opened."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("h", "hand over", "hand_over", "Hand over: to whom, what you say with it, then {} again."),
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
        self.papers = Papers(self.desk)
        self.asks = Questions(self)
        self.to = NOT_NAMED
        self.said: dict[str, str] = {}
        """What the giver says with it, by the keys of the act."""
        self.before: dict[str, str] = {}
        """What was typed before it was cancelled: it stands in the fields the next time."""

    def draw(self) -> None:
        """The sheet as it would be handed over now."""
        from jobtrack.pages.paper import paper_lines

        self.desk.draw_frame()
        self.page.show(paper_lines(self._sheet(), self.page.room))

    def _sheet(self) -> Sheet:
        from jobtrack.sheets.handover.sheet import handover_sheet

        by, now = self.session.by or NOT_NAMED, self.session.now()
        return handover_sheet(self.desk.job, by, self.to, self.said, self.session.shown, now)

    def action_hand_over(self) -> None:
        """Ask to whom."""
        self.asks.with_name(lambda: self.asks.ask("To whom is it handed over?", self._named, hint=TO_WHOM))

    def dropped(self) -> None:
        """Cancelled: the sheet is as before, too."""
        self.before |= self.said
        self.to, self.said = NOT_NAMED, {}
        super().dropped()

    def _named(self, name: str) -> str | None:
        self.taking.same_press("enter")  # an Enter that follows it at once answers no question
        if not name.strip():
            return "Type a name: a job is handed over to somebody."
        if refused := too_long(" ".join(name.split())):
            return refused
        self.to, self.said = " ".join(name.split()), {}
        self.draw()
        self._ask(0)
        return None

    def _ask(self, number: int) -> None:
        """What the giver says with it, one after the other; the last Enter comes to the second key."""
        questions = asked_of_giver(self.session.by or "", self.to)
        if number == len(questions):
            self._confirm()
            return
        name, question = questions[number]
        start = self.before.get(name, "")

        def answered(text: str) -> str | None:
            twice = self.taking.same_press("enter")
            if twice and text.strip() == start:
                return f"That Enter came with the one before. {EMPTY}"
            self.said[name] = " ".join(text.split())
            self.draw()
            self._ask(number + 1)
            return None

        many = f"{number + 1} of {len(questions)}: " if questions[1:] else ""
        self.asks.ask(f"{many}{question}", answered, hint=EMPTY, start=start)

    def _confirm(self) -> None:
        about = giving_words(self.session.by or "", self.to, self.said)
        about += ["Your clock goes off with it."] if self._clock_is_open() else []
        self.entry.confirm(SecondKey(about, named("h", "hand-over"), self._record))

    def _clock_is_open(self) -> bool:
        """Whether the giver's clock runs, or is on a break: any entry would end that."""
        return person(self.session.by or "") in {person(name) for name in times(self.desk.file.meant).running}

    def _record(self) -> None:
        open_clock, to, said, sheet = self._clock_is_open(), self.to, dict(self.said), self._sheet()

        def fill(made: Draft) -> None:
            people.hand_over(made, to, said)
            if open_clock:
                people.clock(made, "off")

        def write(told: Told) -> None:
            if told.recorded:
                self.papers.write("handover", sheet, told.text)

        self.desk.put(None, fill, then=write)
