"""What all screens share: a head that stays, a page that scrolls, the entry line, the last line, the keys."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from jobtrack.app.content import content
from jobtrack.app.reckoner_place import Place, Reckoned
from jobtrack.app.widgets.entry import Ask, Entry
from jobtrack.app.widgets.page import Page
from jobtrack.pages.typeset import Line, line, wrap

if TYPE_CHECKING:
    from jobtrack.app.main import JobApp
    from jobtrack.app.session import Bench

SHORT = 20
"""Rows of a terminal below which the parts that stay take as little as they can."""

TALL = 30
"""Rows from which on the keys may take two."""


@dataclass(frozen=True, slots=True)
class Command:
    """One key: what it is called on the screen, the method that does it, and what it does in a sentence."""

    key: str
    word: str
    does: str
    help: str
    shown: bool = True
    """Whether the last row names it; the page of all keys names every one."""
    records: bool = False
    """Whether it records at once: where a second key is waited for, such a key only cancels."""


RECKONER = Command("x", "reckoner", "reckoner", "The reckoner: the calculator at the bench.")


class Card(Screen[Any]):
    """A page as on paper, worked by single keys."""

    AUTO_FOCUS = "Field"
    COMMANDS_HERE: ClassVar[tuple[Command, ...]] = ()
    RECKONS = False
    """Whether the reckoner can be opened from here."""
    WHILE_TYPING: ClassVar[tuple[str, ...]] = ("enter", "escape")
    KEYS_WHILE_TYPING: ClassVar[bool] = False
    """Whether the screen's own row of keys is about its field."""
    """Keys that the screen keeps for itself while text is typed."""

    def compose(self) -> ComposeResult:
        yield Static(id="head", markup=False)
        yield Page()
        yield Entry()
        yield Static(id="last", markup=False)
        yield Static(id="keys", markup=False)

    @property
    def commands(self) -> tuple[Command, ...]:
        """What the keys do here: the screen's own commands, the reckoner behind the first of them."""
        own = self.COMMANDS_HERE
        return (*own[:1], RECKONER, *own[1:]) if self.RECKONS else own

    @property
    def bench(self) -> Bench:
        return cast("JobApp", self.app).bench

    @property
    def page(self) -> Page:
        return self.query_one(Page)

    @property
    def entry(self) -> Entry:
        return self.query_one(Entry)

    @property
    def room(self) -> int:
        return max(self.app.size.width - 2, 20)

    @property
    def short(self) -> bool:
        return self.app.size.height < SHORT

    pressed = 0.0
    """When the key came that is being taken, in the time of key events."""

    def on_mount(self) -> None:
        self.draw()

    def on_resize(self) -> None:
        self.draw()

    def draw(self) -> None:
        """Show everything as it is now. The text being typed is left alone."""

    def show_part(self, name: str, lines: Sequence[Line], most: int | None = None) -> None:
        """Fill the head, the last line or the keys; empty takes no room."""
        part = self.query_one(f"#{name}", Static)
        part.update(content(lines[:most]))
        part.display = bool(lines)

    def show_keys(self) -> None:
        """The row of keys, as many as fit; on a tall terminal two rows. While a field is open its keys alone."""
        if self.entry.asking is not None and not self.KEYS_WHILE_TYPING:
            self.show_part("keys", [line(self.entry.asking.foot, "strong")])
            return
        if self.entry.waiting is not None:
            self.show_part("keys", [line(self.entry.waiting.keys(), "strong")])
            return
        found = [""]
        for command in self.commands:
            word = f"{command.key} {command.word}"
            more = f"{found[-1]}   {word}" if found[-1] else word
            if not command.shown:
                continue
            if len(more) <= self.room:
                found[-1] = more
            else:
                found.append(word)
        self.show_part(
            "keys", [line(row, "strong") for row in found], 2 if self.app.size.height >= TALL else 1
        )

    def on_key(self, event: events.Key) -> None:
        """A key that came before the field had the focus."""
        if self.entry.asking is not None and event.is_printable and event.character:
            event.stop()
            self.entry.take_text(event.character)
        else:
            self.press(event)

    def belongs(self, key: str) -> bool:
        """Whether a key is the screen's, and no text for the field that is open."""
        asking = self.entry.asking
        return asking is None or key in self.WHILE_TYPING or key in asking.others

    def press(self, event: events.Key) -> None:
        """A second key, a number's first character, or the letter of a command."""
        self.pressed = event.time
        if self.entry.asking is not None:
            self._while_asking(event)
        elif self.entry.waiting is not None:
            self._second_key(event)
        else:
            self._single_key(event)

    def _while_asking(self, event: events.Key) -> None:
        asking = self.entry.asking
        if asking is not None and event.key in asking.others:
            event.stop()
            asking.others[event.key]()
        elif event.key == "escape":
            event.stop()
            self.dropped()
        elif event.key == "enter":
            event.stop()
            self.entry.submit()
        elif event.key in self.WHILE_TYPING:
            self._single_key(event)

    def _second_key(self, event: events.Key) -> None:
        event.stop()
        waiting = self.entry.waiting
        then = waiting.meant(_pressed(event)) if waiting is not None else None
        if then is None:
            self._cancelled_by(event)
        elif self.entry.came_after(event.time):
            then()

    def _cancelled_by(self, event: events.Key) -> None:
        """A key that asks something or begins a number cancels and is taken; one that records only cancels.

        Swallowed, the first key of a number or of words would leave the rest of them to be read as something else.
        """
        self.dropped()
        pressed = _pressed(event)
        records = [one for one in self.commands if one.records and pressed == one.key]
        if not records and event.key not in ("enter", "escape"):
            self._single_key(event)

    def dropped(self) -> None:
        """Back to idle with nothing recorded."""
        self.entry.idle()
        self.draw()
        self.entry.say("Cancelled: nothing is recorded.")

    def _single_key(self, event: events.Key) -> None:
        pressed = _pressed(event)
        if event.key in ("pageup", "pagedown", "home", "end"):
            self._scroll(event.key)
        elif not self.take(pressed):
            for command in self.commands:
                if pressed in (command.key, NAMES.get(command.key)):
                    event.stop()
                    getattr(self, command.does)()
                    return

    def take(self, pressed: str) -> bool:
        """Whether the screen has a use of its own for a key that is no command's."""
        return False

    def _scroll(self, key: str) -> None:
        move: dict[str, Callable[..., None]] = {
            "pageup": self.page.scroll_page_up, "pagedown": self.page.scroll_page_down,
            "home": self.page.scroll_home, "end": self.page.scroll_end,
        }  # fmt: skip
        self.page.scrolled()
        move[key](animate=False)

    HINT = "Enter records it, Escape cancels."

    def ask(
        self,
        label: str,
        then: Callable[[str], str | None],
        about: Sequence[str] = (),
        hint: str = "",
        start: str = "",
    ) -> None:
        """Ask for words."""
        self.entry.ask(Ask(wrap(label, self.room, "strong"), then, about, start, hint=hint or self.HINT))

    def ask_name(self, label: str, then: Callable[[str], None], about: Sequence[str] = ()) -> None:
        """Ask for the name of who does something that takes a second key; Enter alone is who is there."""
        known = self.bench.by

        def named(text: str) -> str | None:
            name = " ".join(text.split()) or known
            if name is None:
                return "Type a name."
            self.bench.by = known or name
            then(name)
            return None

        alone = f"Enter alone: {known}. " if known else ""
        self.ask(label, named, about, f"{alone}Then a second key records it; Escape cancels.")

    def with_name(self, then: Callable[[], None]) -> None:
        """Do something that records; ask first who is there, where that isn't known yet."""
        if self.bench.by is not None:
            then()
            return

        def named(name: str) -> str | None:
            if not name.strip():
                return "Type your name: it stands beside what you record."
            self.bench.by = " ".join(name.split())
            self.entry.idle()
            then()
            return None

        self.ask("Who is there? Type your name as it should stand in the record.", named)

    def leave(self) -> None:
        """Back to where this screen was opened from."""
        if len(self.app.screen_stack) > 2:
            self.app.pop_screen()
        else:
            self.app.exit(0)

    def quit(self) -> None:
        """End the program. Everything recorded is on the disk already."""
        self.app.exit(0)

    def reckoner(self) -> None:
        """Open the reckoner; what it gives for a reading comes back to this screen."""
        from jobtrack.app.screens.reckoner.choosing import ReckonerScreen

        self.entry.say("")  # what was said before would stand there as news on the way back
        self.app.push_screen(ReckonerScreen(self.place()), self.reckoned)

    def place(self) -> Place:
        """Where the reckoner is opened: here, without a job."""
        return Place()

    def reckoned(self, found: Reckoned | None) -> None:
        """Take what the reckoner gives for a reading; a screen without readings has no use for it."""

    def rest(self) -> None:
        """All of what was said last."""
        from jobtrack.app.screens.keys import RestScreen

        if self.entry.last:
            self.app.push_screen(RestScreen(self.entry.last))
        else:
            self.entry.say("Nothing was recorded here since this page was opened.")

    def keys(self) -> None:
        """The page that says what every key does."""
        from jobtrack.app.screens.keys import KeysScreen

        self.app.push_screen(KeysScreen(self.commands))


def _pressed(event: events.Key) -> str:
    """A key by its character, or by its name where it has none."""
    return event.character if event.character and event.character.isprintable() else event.key


NAMES = {
    "Tab": "tab",
    "Enter": "enter",
    "Escape": "escape",
    "Up": "up",
    "Down": "down",
    "Left": "left",
    "Right": "right",
}
"""Keys with a name, as they stand on the screen and as the terminal layer calls them."""
