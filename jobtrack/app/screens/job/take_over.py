"""Taking a half-finished job over."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack import units
from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import Questions, too_long
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Told
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.compose import people, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import person
from jobtrack.pages.job.handing_over import recorded_readings, take_over_lines
from jobtrack.pages.job.list import waiting_handover
from jobtrack.pages.own_keys import named
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import READING, Item
from jobtrack.pages.step.table import reading_wanted
from jobtrack.pages.typeset import line, wrap


def _key() -> str:
    return named("i", "take-over")


class TakeOverScreen(PageScreen):
    """What is open, what not to begin, what is in hand; then one reading again, the name, a second key."""

    desk: JobDesk
    HELP = (
        "The job was handed over and waits for somebody. Read to the end what is open and what not to begin, "
        "and look at the vehicle; {again} takes one of the readings again. Then {take-over} takes the job "
        "over, with your name and a second {take-over}."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "i", "take it over", "take_over", "Take the job over: read to the end, your name, then {} again."
        ),
        RECKONER,
        key("m", "measure one again", "again", "Take one of the readings again before you take over."),
        key("escape", "look only", "leave", "Look only: the job isn't taken over."),
        JOB,
        ALL_KEYS,
        also("b", "leave", "Look only."),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.again_of: tuple[str, str, str] | None = None
        """Step, reading and what was typed."""
        self.read = False
        """Whether the page has been in sight to its end."""

    def offers(self, action: str) -> bool:
        """Nothing can be taken over where no handover waits."""
        return action not in ("take_over", "again") or waiting_handover(self.desk.job) is not None

    def draw(self) -> None:
        """What the next person must see first, as it stands now."""
        self.desk.draw_frame()
        given = waiting_handover(self.desk.job)
        if given is None:
            self.page.show([line("No handover waits to be taken over.", "strong")])
            return
        self.page.show(take_over_lines(self.desk.job, given, self.page.room))

    def action_scroll_page(self, key: str) -> None:
        """Scroll by hand; the end of the page may come into sight."""
        super().action_scroll_page(key)
        self.call_after_refresh(self._look)

    def _look(self) -> None:
        self.read = self.read or self.page.at_end

    def action_again(self) -> None:
        """Choose a reading and type it anew; it is recorded with the taking over."""
        found = recorded_readings(self.desk.job)
        if not found:
            self.entry.say(f"No reading is recorded that could be taken again; {_key()} takes the job over.")
            return
        texts = [text for *_, text in found]
        self.app.opening.choose(
            "Which reading is taken again?", texts, lambda number: self._measure(*found[number])
        )

    def _measure(self, step: str, name: str, label: str) -> None:
        here = self.desk.job.steps[step]
        item = Item(READING, name, label, here.step.reading[name].unit)

        def typed(text: str) -> str | None:
            try:
                units.read(text, item.unit)
            except units.UnitError as error:
                return str(error)
            self.again_of = (step, name, text)
            self.entry.idle()
            self.entry.say(
                f"Taken again: {label}, {text.strip()}. It is recorded when you take over: {_key()}."
            )
            return None

        job, shown = self.desk.job, self.session.shown
        about = [reading_wanted(job, here, item, shown)]
        self.entry.ask(Ask(wrap(label, self.room, "strong"), typed, about, "",
                           lambda text: entering.echo(job, here, item, text, shown)))  # fmt: skip

    def action_take_over(self) -> None:
        """Ask the name, then wait for the second key; the page comes first, to its end."""
        self._look()
        given = waiting_handover(self.desk.job)
        if not self.read:
            self.entry.say(
                f"What is open goes on below: PageDown to its end, then {_key()} takes the job over."
            )
        elif given is None or not isinstance(given.act, HandoverAct):
            self.entry.say("No handover waits to be taken over; Escape goes to the step.")
        else:
            self._ask_name(given.act.to)

    def _ask_name(self, to: str) -> None:
        """The name of the person that it was handed to stands there, if they are here; anybody else types theirs."""
        known = self.session.by if person(self.session.by or "") == person(to) else None

        def named(text: str) -> str | None:
            by = " ".join(text.split()) or known
            if by is None:
                return f"It was handed to {to}: type your own name."
            if refused := too_long(by):
                return refused
            self._confirm(by, to)
            return None

        hint = f"{f'Enter alone: {known}. ' if known else ''}Then {_key()} records it; Escape cancels."
        self.asks.ask("Who takes over?", named, [f"Handed to {to}."], hint, known or "")

    def _confirm(self, by: str, to: str) -> None:
        other = [] if person(by) == person(to) else [f"It was handed to {to}; you are {by}."]
        about = [*other, f"{by} (as typed) has seen all that is recorded as open and takes over."]
        self.entry.confirm(SecondKey(about, _key(), lambda: self._record(by)))

    def _record(self, by: str) -> None:
        again = self.again_of

        def fill(made: Draft) -> None:
            if again is not None:
                values.reading(made, again[1], [again[2]])
            people.take_over(made)

        def to_the_step(told: Told) -> None:
            if self.app.screen is self:
                self.action_leave()

        if self.desk.put(again[0] if again else None, fill, by, then=to_the_step) is None:
            self.session.by = by
