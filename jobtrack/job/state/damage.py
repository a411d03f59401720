"""What a file has lost, and what can still be read of it."""

from __future__ import annotations

from msgspec import Struct

UNKNOWN = "UNKNOWN:"
"""What a tag begins with that stands for those which may be lost."""
ENTRY_MISSING = f"{UNKNOWN} ENTRY MISSING"


class Legible(Struct, frozen=True):
    """What can still be read of an entry that counts for nothing: a help to whoever looks, never a value."""

    step: str | None = None
    opens: tuple[tuple[str, str | None], ...] = ()
    """What it opened, by id or in words, each with its member."""


NOTHING = Legible()


class Damage(Struct, frozen=True):
    """What a file has lost, by its written hash: a block that can't be read, its header, an entry that is gone."""

    hash: str
    line: int | None = None
    """Where it begins, if known."""
    also: frozenset[str] = frozenset()
    """Other hashes that it may be known by."""
    legible: Legible = NOTHING
    header: bool = False
    gone: str = ""
    """When and by whom, for an entry that isn't in the file and that this machine has seen there."""

    @property
    def names(self) -> frozenset[str]:
        """Every hash that an entry may follow it by, or a closing name."""
        return self.also | {self.hash}

    @property
    def words(self) -> str:
        """What it leaves unknown."""
        if self.header:
            return "the header isn't as it was written; what is open may not all be listed"
        if self.gone:
            return f"the entry of {self.gone} is gone; what it opened isn't known"
        return f"an entry at line {self.line} can't be read; what it opened isn't known"

    @property
    def tag(self) -> str:
        """What stands on the steering wheel for the tags that may be lost with it."""
        if self.gone:
            return ENTRY_MISSING
        return f"{UNKNOWN} HEADER CHANGED" if self.header else f"{UNKNOWN} ENTRY AT LINE {self.line}"
