"""The reckoner: all workings-out, narrowed by a few letters; the step's own come first."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType
from textual.widgets import Input

from jobtrack.app.keys import ALL_KEYS, ARROWS, key
from jobtrack.app.parts.desks.reckoner_desk import ReckonerDesk
from jobtrack.app.parts.listing import CHOSEN, OTHER, Listing
from jobtrack.app.reckoner_place import Reckoned, ReckonerPlace
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import Ask
from jobtrack.pages.reckoner.list import Pick, matching, picks
from jobtrack.pages.typeset import Line, line, shortened, wrap
from jobtrack.pages.wording import counted


class ReckonerScreen(PageScreen):
    """The list."""

    desk: ReckonerDesk
    HELP = (
        "The calculator at the bench; nothing is recorded here by itself. Type a few letters of what you want"
        " to work out, mark it with the arrows, and Enter asks what goes in."
    )
    KEYS_WHILE_TYPING = True
    FIELD_STAYS_OPEN = True
    WHILE_TYPING = frozenset({"mark", "scroll_page"})
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "choose", "choose", "Choose the marked one."),
        key("escape", "back", "back", "Back to where you were."),
        *ARROWS,
        ALL_KEYS,
    ]

    def __init__(self, place: ReckonerPlace) -> None:
        super().__init__()
        self.desk = ReckonerDesk(self, place)
        self.listing = Listing(self.page, self.entries)
        self.all = picks(place.job, place.planned)
        self.shown = self.all
        self.kept: dict[str, dict[str, str]] = {}
        """What was typed for each, by its name."""

    def on_mount(self) -> None:
        """Ask for letters at once: this list is all that they could mean."""
        label = [line("Type a few letters of a name, or of what it is about", "strong")]
        self.entry.ask(Ask(label, self._entered, echo=self._count))

    def draw(self) -> None:
        """The workings-out that the letters leave."""
        self.desk.draw_frame("Reckoner: the calculator at the bench")
        self.listing.draw()

    def entries(self) -> list[list[Line]]:
        """A working-out each; while nothing is typed each topic has its heading."""
        headed = self.shown is self.all
        heads = [self._head(one) if headed else "" for one in self.shown]
        return [
            [*self._heading(heads, number), *self._row(number, one)] for number, one in enumerate(self.shown)
        ]

    def _head(self, one: Pick) -> str:
        return "This step, with its own values" if one.title else one.work.topic.capitalize()

    def _heading(self, heads: list[str], number: int) -> list[Line]:
        if number and heads[number] == heads[number - 1]:
            return []
        return wrap(heads[number], self.page.room, "strong") if heads[number] else []

    def _row(self, number: int, one: Pick) -> list[Line]:
        """One row; the marked one with its whole formula."""
        text = f"{one.name}: {one.work.formula}"
        if number == self.listing.chosen:
            return wrap(f"{CHOSEN}{text}", self.page.room, "strong", 4)
        return [line(shortened(f"{OTHER}{text}", self.page.room))]

    def on_input_changed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        shown = matching(self.all, event.value) if event.value.strip() else self.all
        if shown != self.shown:
            self.shown, self.listing.chosen = shown, 0
            self.draw()

    def _count(self, text: str) -> str:
        found = len(matching(self.all, text)) if text.strip() else len(self.all)
        if not found:
            return "No working-out has these letters in it; Backspace takes one off."
        return f"{counted(found, 'working-out', 'workings-out')}; Up and Down mark one, Enter chooses it."

    def _entered(self, text: str) -> str | None:
        self.action_choose()
        return None

    def action_mark(self, by: int) -> None:
        """Mark another one."""
        self.listing.move(by, self.draw)

    def turned(self, key: str) -> bool:
        """The marker goes along with the page."""
        return self.listing.turn(key, self.draw)

    def dropped(self) -> None:
        """Escape leaves the reckoner: its one question is never given up alone."""
        self.action_back()

    def action_back(self) -> None:
        """Back; what was typed is kept as long as the reckoner is open."""
        self.dismiss(None)

    def action_choose(self) -> None:
        """Open the marked one, with what was typed for it before."""
        if not self.shown:
            return
        one = self.shown[self.listing.chosen]
        typed = self.kept.setdefault(one.name, dict(one.typed))
        self.app.opening.working(self.desk.opened_at, one, typed, self._came_back)

    def _came_back(self, found: Reckoned | None) -> None:
        if found is not None:
            self.dismiss(found)
