"""One working-out: what goes in, one input after another; the results stand below as soon as there are any."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType
from textual.widgets import Input

from jobtrack.app.keys import ALL_KEYS, ARROWS, key
from jobtrack.app.parts.desks.reckoner_desk import ReckonerDesk
from jobtrack.app.parts.listing import Listing
from jobtrack.app.reckoner_place import Reckoned, ReckonerPlace
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import Ask
from jobtrack.pages.reckoner.list import Pick
from jobtrack.pages.reckoner.working import (
    Refusal,
    chosen_word,
    input_head,
    input_lines,
    options,
    so_far,
    takes_words,
    work_out,
)
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.shopmath.catalogue import WorkingOutError
from jobtrack.workings import answers as workings
from jobtrack.workings.answers import Answer
from jobtrack.workings.words import key_words

HINT = "Enter goes on; Up and Down choose another input, nothing is lost."
CHOOSE = "Type its number or its first letters. Up and Down choose another input."
DONE = "Enter shows the answer; Up and Down choose another input."
KEPT = "That can't be taken: the line under it says why. It stays as typed."


class WorkingScreen(PageScreen):
    """The inputs of one working-out."""

    desk: ReckonerDesk
    HELP = (
        "What goes into one working-out. Type each value and press Enter; the arrows go to another line, and "
        "what comes of it stands below as soon as enough is typed. The last Enter shows the whole answer with"
        " its source."
    )
    KEYS_WHILE_TYPING = True
    FIELD_STAYS_OPEN = True
    WHILE_TYPING = frozenset({"mark", "scroll_page"})
    BINDINGS: ClassVar[list[BindingType]] = [
        key(
            "enter", "go on, then the answer", "take_input", "Keep what is typed and go on; then the answer."
        ),
        key("escape", "back to the list", "back", "Back to the list; what is typed is kept."),
        *ARROWS,
        ALL_KEYS,
    ]

    def __init__(self, place: ReckonerPlace, pick: Pick, typed: dict[str, str]) -> None:
        super().__init__()
        self.desk = ReckonerDesk(self, place)
        self.listing = Listing(self.page, self.entries, self.before)
        self.pick = pick
        self.work = pick.work
        self.typed = typed
        self.found = work_out(self.work, typed)
        self.before_typing = ""

    @property
    def key(self) -> str:
        """The input that is being typed."""
        return self.work.inputs[self.listing.chosen].key

    def on_mount(self) -> None:
        """Begin at the first input that nothing is typed for."""
        self.turn_to(self._wanted_from(-1) or 0)

    def draw(self) -> None:
        """The inputs, and the results as far as there are any."""
        self.desk.draw_frame(f"Reckoner: {self.pick.name}")
        self.listing.draw()

    def before(self) -> list[Line]:
        """The heads of the columns."""
        return input_head(self.page.room)

    def entries(self) -> list[list[Line]]:
        """An input each; the last with what comes of them all."""
        width = self.page.room
        refused = self.found if isinstance(self.found, Refusal) else None
        rows = input_lines(self.work, self.typed, self.listing.chosen, refused, width)
        rows[-1] += [line(), *so_far(self.work, self.typed, self.found, width, self.session.shown)]
        rows[-1] += [line(), *wrap(f"How: {self.work.formula}.", width, "small", 2)]
        return rows

    # Typing

    def turn_to(self, number: int) -> None:
        """Ask for one input; what was typed for it stands in the field."""
        self.listing.chosen = number
        kind = self.work.inputs[number]
        self.before_typing = self.typed.get(kind.key, "")
        label = wrap(f"{key_words(kind.key)}: {takes_words(kind)}", self.room, "strong", 2)
        self.draw()
        self.entry.ask(Ask(label, self._entered, (), self.before_typing, self._read_back))
        # What stands there is replaced by the first key, not added to.
        self.entry.field.select_all()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Work it out anew with every key. The field's text is always that of the chosen input."""
        self._keep(event.input.value)
        self.draw()

    def _keep(self, text: str) -> None:
        self.typed[self.key] = chosen_word(self.work.inputs[self.listing.chosen], text)
        self.found = work_out(self.work, self.typed)

    def _read_back(self, text: str) -> str:
        kind = self.work.inputs[self.listing.chosen]
        if not text.strip():
            return DONE if isinstance(self.found, Answer) else CHOOSE if options(kind) else HINT
        given = {key: one for key, one in self.typed.items() if one.strip()}
        try:
            read = workings.read_back(self.work, given | {self.key: chosen_word(kind, text)}, self.key)
        except WorkingOutError:
            return HINT
        return f"{read}   Enter goes on."

    def action_mark(self, by: int) -> None:
        """Choose another input, round and round."""
        self.turn_to((self.listing.chosen + by) % len(self.work.inputs))

    def _entered(self, text: str) -> str | None:
        """Go on: to what is still wanted, to what can't be taken, to the next input; else to the answer."""
        self._keep(text)
        found, last = self.found, self.listing.chosen == len(self.work.inputs) - 1
        if isinstance(found, Answer):
            if last or self.typed[self.key] == self.before_typing:
                self.show(found)
            else:
                self.turn_to(self.listing.chosen + 1)
            return None
        if found.key == self.key and not found.wanted:
            return KEPT
        typed = self.typed[self.key] != self.before_typing
        # Behind something typed comes the next one in the list, so that a row of figures lands as it is read.
        self.turn_to(self.listing.chosen + 1 if typed and not last else self._after(found))
        return None

    def _after(self, refused: Refusal) -> int:
        if refused.wanted:
            return self._wanted_from(self.listing.chosen) or 0
        keys = [one.key for one in self.work.inputs]
        return keys.index(refused.key) if refused.key in keys else min(self.listing.chosen + 1, len(keys) - 1)

    def _wanted_from(self, number: int) -> int | None:
        """The first input behind `number`, then from the top, that has to be typed and isn't."""
        numbered = list(enumerate(self.work.inputs))
        for at, kind in numbered[number + 1 :] + numbered[: number + 1]:
            if not kind.optional and not self.typed.get(kind.key, "").strip():
                return at
        return None

    def action_take_input(self) -> None:
        """Enter, as the keys' row names it."""
        self.entry.submit()

    def dropped(self) -> None:
        """Escape goes back to the list: the question for an input is never given up alone."""
        self.action_back()

    def action_back(self) -> None:
        """Back to the list; what was typed is kept as long as the reckoner is open."""
        self.dismiss(None)

    def show(self, found: Answer) -> None:
        """The page of the answer."""
        self.app.opening.answer(self.desk.opened_at, self.pick, found, self._came_back)

    def _came_back(self, found: Reckoned | None) -> None:
        if found is not None:
            self.dismiss(found)
