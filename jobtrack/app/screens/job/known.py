"""What is known of the vehicles and of the job, all of it on one page, and typed there."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, QUIT, RECKONER, REST, UNITS, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.listing import Listing
from jobtrack.app.parts.painted import Painted
from jobtrack.app.parts.questions import Questions
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Told
from jobtrack.app.widgets.entry import Ask
from jobtrack.pages.job.known import asked_in, head_words, known_items, known_words, takes_words
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import Item
from jobtrack.pages.typeset import Line, line, wrap

BACK = "Back to where you were."
NOT_PAINTED = "Enter came before this line stood on the screen: look, then Enter records it."


class KnownScreen(PageScreen):
    """A line for each thing; the arrows choose one, a number or words are typed for it."""

    desk: JobDesk
    HELP = (
        "Everything that the template asks about the vehicles and the job, known or not yet. Mark a line with"
        " the arrows and type what you know, then Enter; ? in the field is don't know yet. What you leave is "
        "asked again in the step that needs it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "type it", "type_it", "Type what is known for the marked line."),
        key("escape", "back", "leave", BACK),
        RECKONER,
        UNITS,
        *ARROWS,
        also("w", "type_it", "Type words for the marked line."),
        key(
            "y", "", "answer('yes')", "Yes, where the marked line asks yes or no.", shown=False, records=True
        ),
        key("n", "", "answer('no')", "No, where the marked line asks yes or no.", shown=False, records=True),
        ALL_KEYS,
        also("k", "leave", BACK),
        also("b", "leave", BACK),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.items = known_items(file.job)
        self.asked_in = asked_in(file.job)
        self.painted = Painted(self.entry)
        self.listing = Listing(self.page, self.entries, self.before)
        self.listing.chosen = self._next_open(-1) or 0

    @property
    def item(self) -> Item:
        """The marked line."""
        return self.items[self.listing.chosen]

    def draw(self) -> None:
        """Each line with what is known of it now; a line that is being typed is left alone."""
        self.desk.draw_frame()
        self.listing.draw()
        if self.items and not self.entry.busy:
            self.entry.hint = self._hint()
            self.entry.idle(self._label())
        self.painted.drawn(self.item if self.items else None)

    def before(self) -> list[Line]:
        """How many are known."""
        return [*wrap(f"{head_words(self.desk.job)}.", self.page.room, "strong"), line()]

    def entries(self) -> list[list[Line]]:
        """A line each; under the marked one, which step asks for it."""
        return [self._entry(number, one) for number, one in enumerate(self.items)]

    def _entry(self, number: int, one: Item) -> list[Line]:
        lines = self.listing.marked(
            number, known_words(self.desk.job, one, self.session.shown), self.page.room
        )
        if number == self.listing.chosen:
            step = self.asked_in.get(one.name)
            where = f"asked in the step “{step}”" if step else "no step asks for it; it stands on the sheets"
            lines += wrap(f"    {where}", self.page.room, "small", 4)
        return lines

    def _label(self) -> list[Line]:
        number, unit = self.listing.chosen + 1, f" ({self.item.unit})" if self.item.unit else ""
        return wrap(f"{number} of {len(self.items)}: {self.item.label}{unit}", self.room, "strong")

    def _hint(self) -> str:
        begins = "" if self.item.yes_or_no else "Enter begins to type it. "
        return f"{begins}{takes_words(self.item)}"

    def _next_open(self, after: int) -> int | None:
        """The next line that nothing is known for, behind `after` and round."""
        job, order = self.desk.file.meant, range(len(self.items))
        return next((number for number in (*order[after + 1 :], *order[: max(after, 0)])
                     if job.places.given(self.items[number].name).value is None), None)  # fmt: skip

    # Choosing a line

    def action_mark(self, by: int) -> None:
        """Mark another line."""
        self.listing.move(by, self.draw)
        self.entry.say("")

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    # Typing and recording

    def number(self, start: str) -> None:
        """A number goes to the marked line."""
        self._type_in(start)

    def action_type_it(self) -> None:
        """An empty field for the marked line."""
        self._type_in("")

    def _type_in(self, start: str) -> None:
        if not self.items:
            self.entry.say("This job's template asks for nothing to be known. Escape goes back.")
        elif self.item.yes_or_no:
            self.desk.misplaced(start, [f"{self.item.label}: {takes_words(self.item)}"])
        else:
            item, job = self.item, self.desk.job
            self.entry.ask(Ask(
                self._label(), lambda text: self._typed(item, text), [takes_words(item)], start,
                lambda text: entering.echo(job, None, item, text, self.session.shown),
            ))  # fmt: skip

    def action_answer(self, yes: str) -> None:
        """Answer a line that asks yes or no."""
        if not self.items or not self.item.yes_or_no:
            self.entry.say("This line takes no yes or no: Enter begins to type what is known.")
        else:
            item = self.item
            self.asks.with_name(lambda: self.entry.say(self._typed(item, yes) or ""))

    def _typed(self, item: Item, text: str) -> str | None:
        if not text.strip():
            return "Nothing is typed: ? is don't know yet; Escape leaves it as it is."
        if not self.painted.was(item, self.pressed):
            return NOT_PAINTED
        return self._record(item, text)

    def _record(self, item: Item, text: str) -> str | None:
        """Record an answer and go on to the next line without one; what is refused comes back, the text kept."""
        if self.session.by is None:
            self.asks.with_name(lambda: self._record_named(item, text))
            return None

        def recorded(told: Told) -> None:
            words = entering.recorded_words(self.desk.job, None, item, text, self.session.shown)
            self.desk.tell(told.of(words), told.kept)

        refused = self.desk.record(None, lambda made: entering.enter(made, item, text), then=recorded)
        if refused is None:
            found = self._next_open(self.listing.chosen)
            self.listing.chosen = self.listing.chosen if found is None else found
            self.entry.idle()
            self.draw()
            self.entry.say("")
        return entering.by_label(refused, item)

    def _record_named(self, item: Item, text: str) -> None:
        refused = self._record(item, text)
        if refused is not None:
            self._type_in(text)
            self.entry.say(refused)
