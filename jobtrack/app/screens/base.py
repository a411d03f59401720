"""What all screens are: a head that stays, a page that scrolls, the entry line, the last line, the keys."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import events, getters, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from jobtrack.app import keys
from jobtrack.app.host import SessionApp
from jobtrack.app.keys import SCROLLING, UNITS
from jobtrack.app.looks.content import content
from jobtrack.app.parts.desks.desk import Desk
from jobtrack.app.parts.taking_keys import TakingKeys
from jobtrack.app.reckoner_place import Reckoned
from jobtrack.app.screens.pressed import PressedScreen
from jobtrack.app.session import Session
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.app.widgets.key_row import KeyRow
from jobtrack.app.widgets.page import Page
from jobtrack.pages.asking.on_paper import on_paper_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.pressing import Place, places
from jobtrack.pages.typeset import Line, line, wrap

SHORT = 20
"""Rows of a terminal below which the parts that stay take as little as they can."""

TALL = 30
"""Rows from which on the keys may take two, and what is open stands in words."""


class PageScreen(PressedScreen, inherit_bindings=False):
    """A page as on paper, worked by single keys.

    Its keys are bindings. They are run from the field, which always has the focus, at once and one after
    the other (`take_key`), so that keys typed ahead mean what the painted line asked.
    """

    AUTO_FOCUS = "Field"
    BINDINGS: ClassVar[list[BindingType]] = [*SCROLLING, UNITS]
    WHILE_TYPING: ClassVar[frozenset[str]] = frozenset()
    """Actions that the screen keeps while text is typed."""
    KEYS_WHILE_TYPING: ClassVar[bool] = False
    """Whether the screen's own row of keys is about its field."""
    FIELD_STAYS_OPEN: ClassVar[bool] = False
    """Whether its field is always open; there ? shows all keys while nothing is typed."""
    HELP: ClassVar[str] = ""
    """What this page is and what to do on it first, in two or three sentences; an action in braces is its key."""

    app = getters.app(SessionApp)

    def __init__(self) -> None:
        super().__init__(Page(), EntryLine(self.take_key, self.dropped))
        self.desk = Desk()
        self.taking = TakingKeys(self)
        self.pressed = 0.0
        """When the key came that is being taken, in the time of key events."""
        self._height = 0
        """Rows of the page when it was last laid out."""

    def compose(self) -> ComposeResult:
        """From top to bottom: what stays, what scrolls, the line that is typed in, what comes next, the keys."""
        yield Static(id="head", markup=False)
        yield self.page
        yield self.entry
        yield Static(id="last", markup=False)
        yield Static(id="apart", markup=False)
        yield KeyRow(id="keys")

    @property
    def session(self) -> Session:
        """Who is there, and in which folder of jobs."""
        return self.app.session

    @property
    def room(self) -> int:
        """Cells that a row of the parts that stay may take."""
        return max(self.app.size.width - 2, 20)

    @property
    def short(self) -> bool:
        """Whether the terminal has few rows."""
        return self.app.size.height < SHORT

    @property
    def tall(self) -> bool:
        """Whether there is room for more than what is needed in one look."""
        return self.app.size.height >= TALL

    def on_mount(self) -> None:
        """Draw, and begin to follow what the page is about."""
        self.entry.field.cursor_blink = self.entry.field.cursor_blink and self.session.motion
        self.draw()
        self.desk.start()

    def on_resize(self) -> None:
        """Break every line to the new width."""
        self.draw()

    def on_screen_resume(self) -> None:
        """The screen above is gone: others may have recorded meanwhile."""
        self.desk.resumed()

    def draw(self) -> None:
        """Show everything as it is now. The text being typed is left alone."""

    @property
    def by_height(self) -> bool:
        """Whether what is drawn depends on how high the page is."""
        return False

    @on(Page.Resized)
    def fit(self) -> None:
        """What fits on the page may be something else."""
        height, self._height = self._height, self.page.size.height
        if self.by_height and height != self._height:
            self.call_after_refresh(self.draw)  # what is changed while rows are handed out gets none

    def show_part(self, name: str, lines: Sequence[Line], most: int | None = None) -> None:
        """Fill the head, the last line or the keys; empty takes no room."""
        part = self.query_one(f"#{name}", Static)
        part.update(content(lines[:most]))
        part.display = bool(lines)

    # The keys and what they are called

    @property
    def keys_here(self) -> list[Binding]:
        """What the keys do here, in the order in which the row of keys and the page of all keys say it."""
        return [one for one in self._keys_of_all() if self.offers(one.action)]

    def _keys_of_all(self) -> list[Binding]:
        """The screen's own keys as they are set, what can't be had just now too."""
        return keys.as_set(one for one in self.BINDINGS if isinstance(one, Binding))

    def offers(self, action: str) -> bool:
        """Whether an action can be had here at all."""
        return True

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While text is typed nearly every key is text."""
        return self.offers(action) and (self.entry.asking is None or action in self.WHILE_TYPING)

    @on(EntryLine.Turned)
    def show_keys(self) -> None:
        """The row of keys, as many as fit; on a tall terminal two rows. While a field is open its keys alone."""
        self._show_apart()
        above, at = self.above_keys()
        rows = self.key_rows()
        lines = [*above, *(line(row, "strong") for row in rows)]
        self.query_one("#keys", KeyRow).show(lines, [*at, *(places(row) for row in rows)])

    def above_keys(self) -> tuple[list[Line], list[list[Place]]]:
        """What can be pressed above the row of keys, and where."""
        return [], []

    def key_rows(self) -> list[str]:
        """What the keys do now, in rows."""
        if self.entry.asking is not None and not self.KEYS_WHILE_TYPING:
            return [self.entry.asking.key_row]
        if self.entry.waiting is not None:
            return [self.entry.waiting.keys()]
        most, beside = 2 if self.tall else 1, self.desk.beside_keys()
        return keys.last_rows(self.keys_here, self.room, most, beside)

    def _show_apart(self) -> None:
        """The row of the first walk, of a rehearsal, and of what is typed in from paper, while that goes on."""
        at_step, busy, apart = self.desk.here is not None, self.entry.busy, self.app.apart
        on_paper = self.session.on_paper
        said = apart.look(at_step, busy) if apart is not None else ""
        if on_paper is not None:
            said = f"{on_paper_words(on_paper, at_step and not busy)} {said}".rstrip()
        self.show_part("apart", wrap(said, self.room) if said else [])

    # Keys as they come

    async def on_key(self, event: events.Key) -> None:
        """A key that came before the field had the focus."""
        if self.focused is None:
            self.set_focus(self.entry.field, scroll_visible=False)
        if self.entry.asking is not None and event.is_printable and event.character:
            event.stop()
            self.entry.take_text(event.character)
        elif await self.take_key(event):
            event.stop()

    async def take_key(self, event: events.Key) -> bool:
        """Do what a key means here, in the order of typing; False where it is text, or edits it."""
        return await self.taking.take(event)

    def field_key(self, event: events.Key) -> bool:
        """Text; but where a field is always open, ? in it while it is empty is the key."""
        if not self.FIELD_STAYS_OPEN or self.entry.text or event.character != named("?", "all-keys"):
            return False
        self.action_all_keys()
        return True

    def key_came(self) -> None:
        """Somebody has pressed a key that is no text."""

    def number(self, start: str) -> None:
        """Somebody begins to type a number."""
        self.desk.number(start)

    def dropped(self) -> None:
        """Back to idle with nothing recorded."""
        self.entry.idle()
        self.draw()
        self.entry.say(f"Cancelled: what was asked or typed there isn't recorded. {self.entry.hint}".strip())

    def leave_paper(self) -> None:
        """What is recorded from here on is done now."""
        self.session.on_paper = None
        self.draw()
        self.entry.tell("Typed in from paper: ended. What you record from here on counts as done now.")
        self.show_keys()

    # What keys do on many pages

    def action_scroll_page(self, key: str) -> None:
        """Scroll by hand; on a list the marker goes along."""
        if self.turned(key):
            return
        move: dict[str, Callable[..., None]] = {
            "pageup": self.page.scroll_page_up, "pagedown": self.page.scroll_page_down,
            "home": self.page.scroll_home, "end": self.page.scroll_end,
        }  # fmt: skip
        self.page.scrolled()
        move[key](animate=False)

    def turned(self, key: str) -> bool:
        """Whether a marker has gone along with the page, so that nothing more is to be scrolled."""
        return False

    def action_leave(self) -> None:
        """Back to where this screen was opened from."""
        if len(self.app.screen_stack) > 2:
            self.app.pop_screen()
        else:
            self.app.exit(0)

    def action_quit(self) -> None:
        """End the program, when everything that was recorded is on the disk."""
        self.desk.before_quitting(self._end)

    def _end(self) -> None:
        if self.app.writing:
            self.entry.say("Wait: the program ends when the disk has taken what isn't recorded yet.")
            self.call_after_refresh(self.app.exit, 0)
        else:
            self.app.exit(0)

    def action_reckoner(self) -> None:
        """Open the reckoner; what it gives for a reading comes back to this screen."""
        self.entry.say("")  # what was said before would stand there as news on the way back
        self.app.opening.reckoner(self.desk.place(), self.reckoned)

    def reckoned(self, found: Reckoned | None) -> None:
        """Take what the reckoner gives for a reading; a screen without readings has no use for it."""

    def action_job_page(self) -> None:
        """The page of what holds for the whole job."""
        if (file := self.desk.place().file) is not None:
            self.app.opening.job_page(file)

    def action_next_look(self) -> None:
        """The next look of the app, said back."""
        self.entry.tell(self.app.next_look())

    def action_rest(self) -> None:
        """All of what was said last."""
        if self.entry.last:
            self.app.opening.rest(self.entry.last)
        else:
            self.entry.say(
                "Nothing was recorded here since this page was opened; look at the page for what was before."
            )

    def action_units(self) -> None:
        """Metric or US units first; what is typed and asked is left alone."""
        self.session.turn_units()
        self.draw()
        self.entry.say(f"Shown now: {self.session.units} units first; press the same key to turn them back.")

    def action_all_keys(self) -> None:
        """The page that says what every key does."""
        self.app.opening.all_keys(keys.with_keys(self.HELP, self._keys_of_all()), self.keys_here)
