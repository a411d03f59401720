"""Taking a half-finished job over."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack import units
from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, JOB, QUIT, RECKONER, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.listing import Listing
from jobtrack.app.parts.questions import Questions, too_long
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Told
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.compose import people, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import person
from jobtrack.pages.job.handing_over import (
    beside_open,
    given_lines,
    recorded_readings,
    seen_words,
    taking_over_words,
)
from jobtrack.pages.job.list import waiting_handover
from jobtrack.pages.own_keys import named
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import READING, Item
from jobtrack.pages.step.table import reading_wanted
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.sheets.words.sentences import worst_first


def _key() -> str:
    return named("i", "take-over")


class TakeOverScreen(PageScreen):
    """What is open, each marked as seen by a key; one reading again, the name, a second key."""

    desk: JobDesk
    HELP = (
        "The job was handed over and waits for somebody. Look at each thing that is open on the vehicle and press "
        "{seen-yes} for it; read to the end what not to begin; {again} takes one of the readings again. Then "
        "{take-over} takes the job over, with your name and a second {take-over}; what you haven't seen is said "
        "there, and stands in the job afterwards."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("y", "seen", "seen('yes')", "The marked condition was seen on the vehicle; on to the next.",
            records=True),
        key("i", "take over", "take_over", "Take the job over: read to the end, your name, then {} again."),
        key("m", "measure again", "again", "Take one of the readings again before you take over."),
        key("escape", "look only", "leave", "Look only: the job isn't taken over."),
        key("n", "not seen", "seen('no')", "The marked condition wasn't seen after all.", records=True),
        RECKONER,
        JOB,
        ALL_KEYS,
        also("*", "seen('yes')", "Seen, on the number pad.", records=True),
        also("/", "seen('no')", "Not seen, on the number pad.", records=True),
        also("b", "leave", "Look only."),
        QUIT,
        *ARROWS,
        REST,
    ]  # fmt: skip

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.listing = Listing(self.page, self.entries, self.before)
        self.again_of: tuple[str, str, str] | None = None
        """Step, reading and what was typed."""
        self.again_words = ""
        """The same in words."""
        self.read = False
        """Whether the page has been in sight to its end."""
        self.seen: set[str] = set()
        """The conditions that were marked as seen, by name."""
        self._marker = ""
        """The condition with the marker: it keeps it, whatever others open or close above it."""

    @property
    def waits(self) -> bool:
        """Whether a handover waits to be taken over."""
        return waiting_handover(self.desk.job) is not None

    @property
    def listed(self) -> list[OpenCondition]:
        """What is open, the worst first."""
        return worst_first(self.desk.job) if self.waits else []

    @property
    def unseen(self) -> list[OpenCondition]:
        """What of it isn't marked as seen."""
        return [one for one in self.listed if one.name not in self.seen]

    def offers(self, action: str) -> bool:
        """Nothing can be taken over where no handover waits."""
        return self.waits or action not in ("take_over", "again", "seen('yes')", "seen('no')")

    def draw(self) -> None:
        """What the next person must see first, as it stands now."""
        names = [one.name for one in self.listed]
        if self._marker in names:
            self.listing.chosen = names.index(self._marker)
        self._draw()

    def _draw(self) -> None:
        self.desk.draw_frame()
        self.listing.draw()
        listed = self.listed
        self._marker = listed[self.listing.chosen].name if listed else ""
        self.entry.hint = self._hint() if self.waits else ""
        self.entry.hint_anew()

    def _hint(self) -> str:
        if unseen := len(self.unseen):
            key = named("y", "seen-yes")
            return f"{unseen} not seen yet: look at the marked one on the vehicle, then {key}."
        again = f"{named('m', 'again')} takes one of the readings again; "
        return f"All that is open is seen. {'' if self.again_of else again}{_key()} takes the job over."

    def before(self) -> list[Line]:
        """Who hands over; and where nothing is open, all that stands below it."""
        given, width = waiting_handover(self.desk.job), self.page.room
        if given is None:
            return [line("No handover waits to be taken over.", "strong")]
        return [*given_lines(self.desk.job, given, width), *([] if self.listed else self._beside_open())]

    def _beside_open(self) -> list[Line]:
        """The rest of the sheet, as the job stands now."""
        job, given = self.desk.job, waiting_handover(self.desk.job)
        return beside_open(job, given, self.session.shown, self.page.room) if given is not None else []

    def entries(self) -> list[list[Line]]:
        """A condition each, and below the last what not to begin and what is in hand."""
        width = self.page.room
        found = [self.listing.marked(number, seen_words(one, one.name in self.seen), width)
                 for number, one in enumerate(self.listed)]  # fmt: skip
        if found:
            found[-1] += self._beside_open()
        return found

    def action_mark(self, by: int) -> None:
        """Choose another condition."""
        self.listing.move(by, self._draw)
        self.call_after_refresh(self._look)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self._draw)

    def action_scroll_page(self, key: str) -> None:
        """Scroll by hand; the end of the page may come into sight."""
        super().action_scroll_page(key)
        self.call_after_refresh(self._look)

    def _look(self) -> None:
        self.read = self.read or self.page.at_end

    def action_seen(self, seen: str) -> None:
        """The marked condition was seen, and the marker goes on to the next that wasn't; or it wasn't after all."""
        listed = self.listed
        if not listed:
            self.entry.say(
                f"Nothing is recorded as open that could be marked as seen; {_key()} takes the job over."
            )
            return
        name = listed[self.listing.chosen].name
        (self.seen.add if seen == "yes" else self.seen.discard)(name)
        if seen == "yes":
            self._on_to_unseen()
        self._draw()
        self.entry.say("")
        self.call_after_refresh(self._look)

    def _on_to_unseen(self) -> None:
        """The marker to the next that isn't seen yet; round to the first of them behind the last."""
        names, here = [one.name for one in self.listed], self.listing.chosen
        left = [number for number, name in enumerate(names) if name not in self.seen]
        self.listing.chosen = next((one for one in left if one > here), left[0] if left else here)

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
                found = units.read(text, item.unit)
            except units.UnitError as error:
                return str(error)
            if found.word is not None:
                return "Type what you measured: words alone are no reading taken again."
            self.again_of = (step, name, text)
            self.again_words = f"Taken again: {label}, {text.strip()}."
            self.entry.idle()
            self._draw()
            self.entry.say(f"{self.again_words} It is recorded when you take over: {_key()}.")
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
        about = [*other, *taking_over_words(by, self.unseen, self.again_words)]
        self.entry.confirm(SecondKey(about, _key(), lambda: self._record(by)))

    def _record(self, by: str) -> None:
        again, seen = self.again_of, frozenset(self.seen)

        def fill(made: Draft) -> None:
            if again is not None:
                values.reading(made, again[1], [again[2]])
            people.take_over(made, seen)

        def to_the_step(told: Told) -> None:
            if self.app.screen is self:
                self.action_leave()

        if self.desk.put(again[0] if again else None, fill, by, then=to_the_step) is None:
            self.session.by = by
