"""What every key does."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.app.screens.base import Card, Command
from jobtrack.pages.typeset import Line, line, wrap

ON_EVERY_PAGE = (
    ("PageUp, PageDown", "Scroll the page."),
    ("Escape", "Cancel what is being typed; nothing is recorded."),
)


class RestScreen(Card):
    """What was said last, whole."""

    COMMANDS_HERE = (
        Command("Escape", "back", "leave", "Back to where you were."),
        Command("v", "", "leave", "Back to where you were.", shown=False),
        Command("q", "quit", "quit", "End the program."),
    )

    def __init__(self, said: str) -> None:
        super().__init__()
        self.whole = said

    def draw(self) -> None:
        """The text, broken to the width."""
        self.show_part("head", [line("Said last", "strong")])
        self.page.show(wrap(self.whole, self.page.room))
        self.show_part("last", [])
        self.show_keys()


class KeysScreen(Card):
    """The commands of the screen that it was opened from."""

    COMMANDS_HERE = (
        Command("Escape", "back", "leave", "Back to where you were."),
        Command("b", "back", "leave", "Back to where you were.", shown=False),
        Command("q", "quit", "quit", "End the program."),
    )

    def __init__(self, commands: Sequence[Command]) -> None:
        super().__init__()
        self.listed = commands

    def draw(self) -> None:
        """All keys, one under the other."""
        self.show_part("head", [line("What the keys do", "strong")])
        named = [(one.key, one.help) for one in self.listed]
        self.page.show([row for key, help in (*named, *ON_EVERY_PAGE) for row in self._row(key, help)])
        self.show_part("last", [])
        self.show_keys()

    def _row(self, key: str, help: str) -> list[Line]:
        return wrap(f"{key}:  {help}", self.room - 2, "", 4)
