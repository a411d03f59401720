"""Somebody at the keys who counts them, and looks for what is asked before a key is pressed."""

from __future__ import annotations

from dataclasses import dataclass

from textual.pilot import Pilot

from tests.support.invented_jobs import seen

MOST_PAGES = 30


@dataclass(frozen=True, slots=True)
class Count:
    """The keys of a walk."""

    keys: int
    """All of them."""
    typed: int
    """Those that are characters of values, names and words."""
    chosen: int = 0
    """Arrows that choose a line."""
    read: int = 0
    """PageDown on a page that has to be read to its end."""
    scrolling: int = 0
    """Those that only bring into sight what is asked next."""

    def row(self, name: str) -> str:
        """A row of the table of walks."""
        figures = (self.keys, self.typed, self.chosen, self.read, self.scrolling)
        return f"{name:<40}" + "".join(f"{one:>11}" for one in figures)


HEAD = f"{'walk':<40}" + "".join(
    f"{one:>11}" for one in ("keys", "of values", "arrows", "to read", "to scroll")
)


class Walker:
    """Presses keys in one app."""

    def __init__(self, pilot: Pilot[int]) -> None:
        self.pilot = pilot
        self.keys = self.typed = self.chosen = self.read = self.scrolling = 0

    @property
    def count(self) -> Count:
        """What was pressed up to now."""
        return Count(self.keys, self.typed, self.chosen, self.read, self.scrolling)

    def sees(self, words: str) -> bool:
        """Whether these words stand in the rows that are painted, in spaced capitals or plain."""
        return run_together(words) in run_together(seen(self.pilot.app))

    async def look_for(self, words: str) -> None:
        """Turn the page until the words are in sight."""
        for _ in range(MOST_PAGES):
            if self.sees(words):
                return
            await self._press("pagedown")
            self.scrolling += 1
        raise AssertionError(f"{words!r} isn't on the page:\n{seen(self.pilot.app)}")

    async def press(self, asked: str, *keys: str) -> None:
        """Keys for what is asked, once it is in sight."""
        await self.look_for(asked)
        await self._press(*keys)

    async def choose(self, asked: str, *arrows: str) -> None:
        """Arrows that choose a line, from what is asked."""
        await self.press(asked, *arrows)
        self.chosen += len(arrows)

    async def type(self, asked: str, text: str) -> None:
        """A value, a name or words for what is asked, character by character, then Enter."""
        await self.press(asked, *(_NAMES.get(one, one) for one in text), "enter")
        self.typed += len(text)

    async def check(self, asked: str) -> None:
        """Yes to a check, and on, as the line says then."""
        await self.press(asked, "y")
        await self.press("Enter goes on", "enter")

    async def read_on(self, *until: str) -> None:
        """Read a page to its end."""
        while not all(map(self.sees, until)):
            await self._press("pagedown")
            self.read += 1
            assert self.read < MOST_PAGES, until

    async def _press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.pilot.pause()
        self.keys += len(keys)


_NAMES = {" ": "space"}
"""What the keys of some characters are called."""


def run_together(text: str) -> str:
    """A text without gaps and capitals: broken into rows or in spaced capitals it is the same."""
    return "".join(text.split()).casefold()
