"""What a page is for and what its keys do, and what was said last: two pages over any other."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType

from jobtrack.app.keys import QUIT, UNITS, UNSET, also, as_set, cap, character, help_of, key, stays
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.typeset import line, wrap

ON_EVERY_PAGE = (
    ("PageUp, PageDown", "Scroll the page; the wheel of a mouse too."),
    ("Mouse, finger", "Press the words of a key in a row of keys, or a line of the page to choose it."),
    ("Escape", "Cancel what is being typed; nothing is recorded."),
)
OWN_KEYS = "In settings.toml, under [keys], these are called"
BACK = "Back to where you were."


class RestScreen(PageScreen):
    """What was said last, whole."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape", "back", "leave", BACK),
        also("space", "leave", BACK),
        QUIT,
    ]

    def __init__(self, said: str) -> None:
        super().__init__()
        self.whole = said

    def draw(self) -> None:
        """The text, broken to the width."""
        self.show_part("head", [line("All of what was said", "strong")])
        self.page.show([row for text in self.whole.split("\n") for row in wrap(text, self.page.room, "", 2)])
        self.show_part("last", [])
        self.show_keys()


class KeysScreen(PageScreen):
    """The keys of the screen that it was opened from."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape", "back", "leave", BACK),
        also("b", "leave", BACK),
        QUIT,
    ]

    def __init__(self, help: str, keys: Sequence[Binding]) -> None:
        super().__init__()
        self.help = help
        self.listed = keys

    def draw(self) -> None:
        """What the page is for; then all keys, one under the other."""
        self.show_part("head", [line("What this page is for, and what the keys do", "strong")])
        about = [*wrap(self.help, self.room - 2), line()] if self.help else []
        rows = [*((cap(one), help_of(one)) for one in self._all()), *ON_EVERY_PAGE]
        listed = [row for key, help in rows for row in wrap(f"{key}:  {help}", self.room - 2, "", 4)]
        self.page.show([*about, *listed, line(), *wrap(self._own_keys(), self.room - 2)])
        self.show_part("last", [])
        self.show_keys()

    def _all(self) -> list[Binding]:
        """The keys of the screen, and the one that is on every page."""
        here = [*self.listed]
        return here if any(one.id == UNITS.id for one in here) else [*here, *as_set([UNITS])]

    def _own_keys(self) -> str:
        """The names by which somebody may set other keys, each with its key as set; those without one at the end."""
        own = {str(one.id): one for one in self._all() if one.id and not stays(one)}
        keyed = [f'{name}="{character(one)}"' for name, one in own.items() if one.key != UNSET]
        bare = [name for name, one in own.items() if one.key == UNSET]
        without = f"; and, without a key until you set one: {', '.join(bare)}" if bare else ""
        return f"{OWN_KEYS}: {', '.join(keyed)}{without}."
