"""The parts of a step and of its job, and the tools: each marked one answered by one letter."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, ARROWS, JOB, QUIT, RECKONER, REST, also, as_set, in_rows, key, words
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.keeping import Keeping
from jobtrack.app.parts.listing import Listing
from jobtrack.app.parts.own_words import ask_unsafe
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.undoing import Undoing
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.doing.parts import PartOf, ToolAt, part_called
from jobtrack.pages.job.parts import NO_PARTS, Kept, head_of, kept, more_lines, title_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.pressing import Place, places
from jobtrack.pages.typeset import Line, line, wrap

LETTERS = (
    key("n", "need it", "buying('asked')", "Needed: asked for, not ordered yet.", shown=False, records=True),
    key("o", "ordered", "ordered", "Ordered: from whom, due when, at what price; each may be empty.", shown=False),
    key("h", "here", "buying('here')", "It is here.", shown=False, records=True),
    key("w", "wrong", "buying('wrong')", "The wrong one came.", shown=False, records=True),
    key("g", "going back", "buying('going_back')", "It is going back.", shown=False, records=True),
    key("f", "fitted", "fate('fitted')", "Fitted: how many.", shown=False),
    key("s", "scrapped", "fate('scrapped')", "Scrapped: how many.", shown=False),
    key("k", "kept", "kept", "Kept: how many, and where.", shown=False),
    key("v", "gone to the other vehicle", "fate('gone_to_the_other_vehicle')", "Gone to the other vehicle: how many.",
        shown=False),
    key("l", "lies in …", "lies", "Where the marked part or tool lies.", shown=False),
)  # fmt: skip
"""What is recorded of the marked one, a letter each: in sight above the row of keys."""
BACK = "Back to where you were."


class PartsScreen(PageScreen):
    """Parts of the step, other parts of the job, tools."""

    desk: JobDesk
    HELP = (
        "Each part with what is recorded of it: how far the buying is, what became of it, where it lies. "
        "Choose one with the arrows; then one letter records it. "
        "For a part that nobody planned press {another}; {to-buy} shows all that is missing or on its way."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *LETTERS,
        key("m", "one more part", "another", "One more part, that nobody planned, is needed: its name."),
        key("a", "unsafe", "unsafe", "Unsafe right now: your words become an open condition."),
        key("p", "to buy", "to_buy", "Park the job for parts: what is missing or on its way, as a list."),
        key("escape", "back", "leave", BACK),
        key("t", "a tool", "tool", "Where a tool was left, by its name."),
        key("u", "undo", "undo", "Undo your own last entry; again goes one further back.", records=True),
        ALL_KEYS,
        JOB,
        RECKONER,
        QUIT,
        also("!", "unsafe", "Unsafe right now."),
        also("b", "leave", BACK),
        *ARROWS,
        REST,
    ]

    def __init__(self, file: OpenJob, step: str | None, part: str | None = None) -> None:
        super().__init__()
        self.step = step
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.keeping = Keeping(self.desk, self.asks, step)
        self.undoing = Undoing(self.desk, self.asks)
        self.listing = Listing(self.page, self.entries, self.before)
        self.stays: Kept | None = None
        """What stays the marked one wherever it stands, when what is recorded moves it."""
        named = [one.name for one in self.listed if isinstance(one, PartOf)]
        self.listing.chosen = named.index(part) if part in named else 0

    @property
    def listed(self) -> list[Kept]:
        """Parts and tools in the order of the page."""
        return kept(self.desk.job, self.step)

    def draw(self) -> None:
        """Each with all that is recorded of it."""
        self.desk.draw_frame()
        listed = self.listed
        names = [(type(one), one.name) for one in listed]
        if self.stays is not None and (mark := (type(self.stays), self.stays.name)) in names:
            self.listing.chosen = names.index(mark)
        self.listing.draw()
        self.stays = listed[self.listing.chosen] if listed else None

    def above_keys(self) -> tuple[list[Line], list[list[Place]]]:
        """The letters for the marked one; where something is asked, none of them means anything."""
        rows = [] if self.entry.busy else in_rows(map(words, as_set(LETTERS)), self.room)
        return [line(row, "strong") for row in rows], [places(row) for row in rows]

    def before(self) -> list[Line]:
        """That there is nothing to list, where there isn't."""
        return [] if self.listed else wrap(NO_PARTS, self.page.room)

    def entries(self) -> list[list[Line]]:
        """A part or a tool each, under the heading of its kind."""
        listed = self.listed
        return [self._entry(listed, number) for number in range(len(listed))]

    def _entry(self, listed: list[Kept], number: int) -> list[Line]:
        job, width = self.desk.job, self.page.room
        head = head_of(job, self.step, listed, number)
        lines = [*([line()] if number else []), *wrap(head, width, "strong")] if head else []
        lines += self.listing.marked(number, title_words(listed[number]), width)
        return lines + more_lines(job, self.step, listed[number], width, number == self.listing.chosen)

    def action_mark(self, by: int) -> None:
        """Choose another one."""
        self.entry.forget()
        self.stays = None
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        self.stays = None
        return self.listing.turn(key, self.draw)

    # One letter each

    def _part(self) -> PartOf | None:
        """The marked part; that it is none, where it isn't."""
        found = self.stays
        if isinstance(found, ToolAt):
            self.entry.say(f"{found.name} is a tool: {named('l', 'lies')} says where it lies.")
        elif found is None:
            self.entry.say(f"No part is listed: {named('m', 'another')} needs one that nobody planned.")
        return found if isinstance(found, PartOf) else None

    def action_buying(self, state: str) -> None:
        """How far the buying is."""
        if (one := self._part()) is not None:
            self.keeping.buying(one, state.replace("_", " "))

    def action_ordered(self) -> None:
        """Ordered."""
        if (one := self._part()) is not None:
            self.keeping.ordered(one)

    def action_fate(self, fate: str) -> None:
        """What became of it."""
        if (one := self._part()) is not None:
            self.keeping.fate(one, fate.replace("_", " "))

    def action_kept(self) -> None:
        """Kept, and where."""
        if (one := self._part()) is not None:
            self.keeping.kept(one)

    def action_lies(self) -> None:
        """Where it lies."""
        if self.stays is None:
            self._part()
        else:
            self.keeping.lies(self.stays)

    def action_another(self) -> None:
        """A part that nobody planned."""
        self.keeping.another(self._choose)

    def _choose(self, name: str) -> None:
        """The part of this name becomes the marked one."""
        found = part_called(self.desk.job, name)
        self.stays = next(
            (one for one in self.listed if isinstance(one, PartOf) and one.name == found), self.stays
        )
        self.draw()

    def action_unsafe(self) -> None:
        """What is unsafe right now."""
        ask_unsafe(self.desk, self.asks, self.step)

    def action_tool(self) -> None:
        """Where a tool was left."""
        self.keeping.tool()

    def action_undo(self) -> None:
        """Undo one's own last entry."""
        self.undoing.undo(None)

    def action_to_buy(self) -> None:
        """The list to buy with."""
        self.app.opening.to_buy(self.desk.file)
