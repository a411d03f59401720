"""The answer of a working-out; from here it goes into a reading or a note."""

from __future__ import annotations

from jobtrack.app.reckoner_place import Place, Reckoned
from jobtrack.app.screens.base import Command
from jobtrack.app.screens.choose import ChooseScreen
from jobtrack.app.screens.reckoner.choosing import Reckoning
from jobtrack.app.session import record
from jobtrack.job.acts.said import NoteAct
from jobtrack.pages.reckoner.list import Pick
from jobtrack.pages.reckoner.working import answer_lines, for_reading, note_text, picture_lines
from jobtrack.pages.typeset import Line
from jobtrack.units import shown
from jobtrack.workings.answers import Answer

INTO_READING = Command(
    "p", "put into the reading", "put_in", "Put a result into the chosen reading; Enter there records it."
)
INTO_NOTE = Command("t", "put into a note", "note", "Record a note: what went in, the results, the source.")

NO_READING = "No reading is chosen in the step: go back to it, choose one with Up and Down, then x again."


class AnswerScreen(Reckoning):
    """Results, sentence, source, hazards, remarks."""

    COMMANDS_HERE = (
        Command("Escape", "change the inputs", "back", "Back to what goes in; all of it is kept."),
        Command("b", "leave", "leave_it", "Leave the reckoner: back to where you were."),
        Command("q", "quit", "quit", "End the program."),
        Command("Up", "", "up", "Scroll up.", shown=False),
        Command("Down", "", "down", "Scroll down.", shown=False),
    )

    def __init__(self, place: Place, pick: Pick, found: Answer) -> None:
        super().__init__(place)
        self.pick = pick
        self.found = found
        self.noted = False

    @property
    def commands(self) -> tuple[Command, ...]:
        """Only a job takes a note; only a step's page takes a number."""
        number = (INTO_READING,) if self.from_where.takes_number else ()
        note = (INTO_NOTE,) if self.from_where.file else ()
        return (*number, *note, *self.COMMANDS_HERE)

    def draw(self) -> None:
        self.draw_frame(f"Reckoner: {self.pick.name}")
        self.page.show(self._lines(self.page.room))

    def _lines(self, width: int) -> list[Line]:
        return [*answer_lines(self.found, width), *picture_lines(self.found, width)]

    def up(self) -> None:
        self.page.scroll_up(animate=False)

    def down(self) -> None:
        self.page.scroll_down(animate=False)

    def leave_it(self) -> None:
        """Leave the reckoner altogether."""
        self.dismiss(Reckoned())

    def dropped(self) -> None:
        """What was being asked is dropped; the answer stays."""
        self.entry.idle()
        self.draw()
        self.entry.say("Cancelled: nothing is recorded.")

    def put_in(self) -> None:
        """Choose the result where several fit, and give it to the step's entry field."""
        item = self.from_where.item
        if item is None:
            self.entry.say(NO_READING)
            return
        found = for_reading(self.found, item.unit)
        if not found:
            kind = f"in {shown(item.unit)}" if item.unit else "a plain number"
            self.entry.say(f"“{item.label}” is {kind}; no result of this working-out can be given so.")
        elif len(found) == 1:
            self._give(found[0][1])
        else:
            self._choose(f"Which result goes into “{item.label}”?", found)

    def _choose(self, title: str, found: list[tuple[str, str]]) -> None:
        def chosen(number: int | None) -> None:
            if number is not None:
                self._give(found[number][1])

        self.app.push_screen(ChooseScreen(title, [f"{name}: {text}" for name, text in found]), chosen)

    def _give(self, text: str) -> None:
        self.dismiss(Reckoned(text, note_text(self.found)))

    def note(self) -> None:
        """Record it as a note on the step at hand, else on the job; once."""
        if self.noted:
            self.entry.say("This answer stands in a note already.")
            return
        self.with_name(self._note)

    def _note(self) -> None:
        file = self.from_where.file
        if file is None:
            return
        text = note_text(self.found)
        told = record(file, self.bench, self.from_where.step, lambda made: made.add(NoteAct(text)))
        self.noted = told.taken
        self.entry.idle()
        self.draw()
        self.entry.tell(told.text) if told.taken else self.entry.say(told.text)
