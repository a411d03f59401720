"""Handing a half-finished job over, and taking it over."""

from __future__ import annotations

from jobtrack import units
from jobtrack.app.screens.base import Command
from jobtrack.app.screens.choose import ChooseScreen
from jobtrack.app.screens.on_job import JOB, OnJob
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.compose import people, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import person
from jobtrack.pages.job.handing_over import recorded_readings, sheet_lines, take_over_lines
from jobtrack.pages.job.list import waiting_handover
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import READING, Item
from jobtrack.pages.step.table import reading_wanted
from jobtrack.pages.typeset import line, wrap
from jobtrack.store.file.writer import JobFile


class HandoverScreen(OnJob):
    """The sheet as the next person will see it; then to whom, and a second key."""

    COMMANDS_HERE = (
        Command("h", "hand over", "hand_over", "Hand over: to whom, then h again."),
        Command("Escape", "back", "leave", "Back, with nothing recorded."),
        JOB,
        Command("?", "all keys", "keys", "This page."),
        Command("b", "", "leave", "Back, with nothing recorded.", shown=False),
        Command("q", "quit", "quit", "End the program."),
    )

    def __init__(self, file: JobFile) -> None:
        super().__init__(file)
        self.to = "(not named yet)"

    def draw(self) -> None:
        from jobtrack.sheets.handover.page import handover_markdown

        self.draw_frame()
        sheet = handover_markdown(self.job, self.bench.by or "(not named yet)", self.to)
        self.page.show(sheet_lines(sheet, self.page.room))

    def hand_over(self) -> None:
        """Ask to whom."""
        self.with_name(
            lambda: self.ask("To whom is it handed over?", self._to, hint="Enter goes on, Escape cancels.")
        )

    def _to(self, name: str) -> str | None:
        if not name.strip():
            return "Type a name: a job is handed over to somebody."
        self.to = " ".join(name.split())
        self.draw()
        about = [f"Handed over by {self.bench.by} to {self.to}."]
        self.entry.confirm(SecondKey(about, "h", self._record))
        return None

    def _record(self) -> None:
        self.put(None, lambda made: people.hand_over(made, self.to))


class TakeOverScreen(OnJob):
    """What is open, what not to begin, what is in hand; then one reading again, the name, a second key."""

    COMMANDS_HERE = (
        Command(
            "i", "I take over", "take_over", "Take the job over: read to the end, your name, then i again."
        ),
        Command("a", "one reading again", "again", "Take one of the readings again before you take over."),
        Command("Escape", "look only", "leave", "Look only: the job isn't taken over."),
        JOB,
        Command("?", "all keys", "keys", "This page."),
        Command("b", "", "leave", "Look only.", shown=False),
        Command("q", "quit", "quit", "End the program."),
    )

    def __init__(self, file: JobFile) -> None:
        super().__init__(file)
        self.again_of: tuple[str, str, str] | None = None
        """Step, reading and what was typed."""
        self.read = False
        """Whether the page has been in sight to its end."""

    def draw(self) -> None:
        self.draw_frame()
        given = waiting_handover(self.job)
        if given is None:
            self.page.show([line("No handover waits to be taken over.", "strong")])
            return
        self.page.show(take_over_lines(self.job, given, self.page.room))

    def _scroll(self, key: str) -> None:
        super()._scroll(key)
        self.call_after_refresh(self._look)

    def _look(self) -> None:
        self.read = self.read or self.page.at_end

    def again(self) -> None:
        """Choose a reading and type it anew; it is recorded with the taking over."""
        found = recorded_readings(self.job)
        if not found:
            self.entry.say("No reading is recorded yet.")
            return

        def chosen(number: int | None) -> None:
            if number is not None:
                self._measure(*found[number])

        self.app.push_screen(
            ChooseScreen("Which reading is taken again?", [text for *_, text in found]), chosen
        )

    def _measure(self, step: str, name: str, label: str) -> None:
        here = self.job.steps[step]
        item = Item(READING, name, label, here.step.reading[name].unit)

        def typed(text: str) -> str | None:
            try:
                units.read(text, item.unit)
            except units.UnitError as error:
                return str(error)
            self.again_of = (step, name, text)
            self.entry.idle()
            self.entry.say(f"Taken again: {label}, {text.strip()}. It is recorded when you take over: i.")
            return None

        about = [reading_wanted(self.job, here, item)]
        self.entry.ask(Ask(wrap(label, self.room, "strong"), typed, about, "",
                           lambda text: entering.echo(self.job, here, item, text)))  # fmt: skip

    def take_over(self) -> None:
        """Ask the name, then wait for the second key; the page comes first, to its end."""
        self._look()
        given = waiting_handover(self.job)
        if not self.read:
            self.entry.say("What is open goes on below: PageDown to its end, then i takes the job over.")
        elif given is None or not isinstance(given.act, HandoverAct):
            self.entry.say("No handover waits to be taken over.")
        else:
            self._ask_name(given.act.to)

    def _ask_name(self, to: str) -> None:
        """The name of the person that it was handed to stands there, if they are here; anybody else types theirs."""
        known = self.bench.by if person(self.bench.by or "") == person(to) else None

        def named(text: str) -> str | None:
            by = " ".join(text.split()) or known
            if by is None:
                return f"It was handed to {to}: type your own name."
            self._confirm(by, to)
            return None

        alone = f"Enter alone: {known}. " if known else ""
        hint = f"{alone}Then i records it; Escape cancels."
        self.ask("Who takes over?", named, [f"Handed to {to}."], hint, known or "")

    def _confirm(self, by: str, to: str) -> None:
        other = [] if person(by) == person(to) else [f"It was handed to {to}; you are {by}."]
        about = [*other, f"{by} (as typed) has seen all that is recorded as open and takes over."]
        self.entry.confirm(SecondKey(about, "i", lambda: self._record(by)))

    def _record(self, by: str) -> None:
        again = self.again_of

        def fill(made: Draft) -> None:
            if again is not None:
                values.reading(made, again[1], [again[2]])
            people.take_over(made)

        told = self.put(again[0] if again else None, fill, by)
        if told.taken:
            self.bench.by = by
            self.entry.say("Escape goes to the step.")
