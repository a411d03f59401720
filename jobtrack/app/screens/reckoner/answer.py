"""The answer of a working-out; from here it goes into a reading or a note."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.keys import ALL_KEYS, QUIT, key
from jobtrack.app.looks.terminal import draws_plain
from jobtrack.app.parts.desks.reckoner_desk import ReckonerDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.app.reckoner_place import Reckoned, ReckonerPlace
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Told, record
from jobtrack.job.compose import said
from jobtrack.pages.own_keys import named
from jobtrack.pages.reckoner.list import Pick
from jobtrack.pages.reckoner.working import answer_lines, for_reading, note_text, picture_lines
from jobtrack.pages.typeset import Line
from jobtrack.units import shown
from jobtrack.workings.answers import Answer

NO_READING = "No reading is chosen in the step: go back to it, choose one with Up and Down, then {} again."


class AnswerScreen(PageScreen):
    """Results, sentence, source, hazards, remarks."""

    desk: ReckonerDesk
    HELP = (
        "The answer, its source, and what it doesn't cover: read the remarks before you use the figure. {put-"
        "in} puts a result into the reading at hand, where Enter records it; {note} records it all as a note."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "p",
            "put into the reading",
            "put_in",
            "Put a result into the chosen reading; Enter there records it.",
        ),
        key("t", "put into a note", "note", "Record a note: what went in, the results, the source."),
        key("escape", "change the inputs", "back", "Back to what goes in; all of it is kept."),
        key("b", "leave", "leave_reckoner", "Leave the reckoner: back to where you were."),
        ALL_KEYS,
        QUIT,
        key("up", "", "scroll_row(-1)", "Scroll up.", shown=False),
        key("down", "", "scroll_row(1)", "Scroll down.", shown=False),
    ]

    def __init__(self, place: ReckonerPlace, pick: Pick, found: Answer) -> None:
        super().__init__()
        self.desk = ReckonerDesk(self, place)
        self.asks = Questions(self)
        self.pick = pick
        self.found = found
        self.noted = False

    def offers(self, action: str) -> bool:
        """Only a job takes a note; only a step's page takes a number."""
        place = self.desk.opened_at
        return {"put_in": place.takes_number, "note": place.file is not None}.get(action, True)

    def draw(self) -> None:
        """The answer, and under it its picture where there is one."""
        self.desk.draw_frame(f"Reckoner: {self.pick.name}")
        self.page.show(self._lines(self.page.room))

    def _lines(self, width: int) -> list[Line]:
        answer = answer_lines(self.found, width, self.session.shown)
        return [*answer, *picture_lines(self.found, width, draws_plain(), self.session.shown)]

    def action_scroll_row(self, by: int) -> None:
        """A row up or down."""
        (self.page.scroll_up if by < 0 else self.page.scroll_down)(animate=False)

    def action_back(self) -> None:
        """Back to what goes in."""
        self.dismiss(None)

    def action_leave_reckoner(self) -> None:
        """Leave the reckoner altogether."""
        self.dismiss(Reckoned())

    def action_put_in(self) -> None:
        """Choose the result where several fit, and give it to the step's entry field."""
        item = self.desk.opened_at.item
        if item is None:
            self.entry.say(NO_READING.format(named("x", "reckoner")))
            return
        found = for_reading(self.found, item.unit)
        if not found:
            kind = f"in {shown(item.unit)}" if item.unit else "a plain number"
            note = f"{named('t', 'note')} makes a note of it"
            self.entry.say(f"“{item.label}” is {kind}; no result here can be given so: {note}.")
        elif len(found) == 1:
            self._give(found[0][1])
        else:
            self._choose(f"Which result goes into “{item.label}”?", found)

    def _choose(self, title: str, found: list[tuple[str, str]]) -> None:
        texts = [f"{name}: {text}" for name, text in found]
        self.app.opening.choose(title, texts, lambda number: self._give(found[number][1]))

    def _give(self, text: str) -> None:
        self.dismiss(Reckoned(text, note_text(self.found)))

    def action_note(self) -> None:
        """Record it as a note on the step at hand, else on the job; once."""
        if self.noted:
            self.entry.say("This answer stands in a note already; Escape changes what goes in.")
            return
        self.asks.with_name(self._note)

    def _note(self) -> None:
        file = self.desk.opened_at.file
        if file is None:
            return
        text, step = note_text(self.found), self.desk.opened_at.step
        refused = record(file, self.session, step, lambda made: said.note(made, text), then=self._told)
        self.noted = refused is None
        self.entry.idle()
        self.draw()
        self.entry.tell(file.on_the_way) if refused is None else self.entry.say(refused)

    def _told(self, told: Told) -> None:
        self.entry.tell(told.text)
