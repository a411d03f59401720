"""Which key a place in a row of keys stands for, so that it can be pressed there with a mouse or a finger."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct
from rich.cells import cell_len

_WORDS = re.compile(r"\S+(?: \S+)*")
_NAMED = frozenset(("Enter", "Escape", "Space", "Up", "Down", "PageUp", "PageDown", "Left", "Right"))
"""Keys that are called by a name; the others by their character."""
BLOCK_ROWS = 3


class Place(Struct, frozen=True):
    """A stretch of a row: from which cell, up to which, and the key that it stands for, if any."""

    first: int
    end: int
    key: str
    words: str
    """What the key does, in words."""


def places(row: str) -> list[Place]:
    """The keys of a row with their words: two spaces or more part one from the next."""
    found = []
    for match in _WORDS.finditer(row):
        key, _, words = match[0].partition(" ")
        known = bool(words) and (len(key) == 1 or key in _NAMED)
        first = cell_len(row[: match.start()])
        found.append(Place(first, first + cell_len(match[0]), key if known else "", words if known else ""))
    return found


def several(row: str) -> list[Place]:
    """The keys of a row that can be a sentence too: there are none where it doesn't name two side by side."""
    found = places(row)
    return found if len([one for one in found if one.key]) > 1 else []


def key_at(found: Sequence[Place], cell: int) -> str:
    """The key of the stretch that a cell lies on, in a gap of the nearer one; empty where that is none."""
    if not found:
        return ""
    return min(found, key=lambda one: max(one.first - cell, cell - one.end + 1, 0)).key


def blocks(keys: Sequence[tuple[str, str]], width: int) -> tuple[list[str], list[Place]]:
    """Keys with their words as large blocks side by side over the whole width, and where each of them lies."""
    share = width // len(keys)
    inside = share - 3
    both = all(cell_len(f"{key} {words}") <= inside for key, words in keys)
    texts = [f"{key} {words}" if both else words for key, words in keys]
    rows = (
        " ".join(f"┌{'─' * inside}┐" for _ in texts),
        " ".join(f"│{_centred(text, inside)}│" for text in texts),
        " ".join(f"└{'─' * inside}┘" for _ in texts),
    )
    at = [Place(share * number, share * (number + 1), key, words) for number, (key, words) in enumerate(keys)]
    return list(rows), at


def _centred(text: str, inside: int) -> str:
    gap = max(inside - cell_len(text), 0)
    return f"{' ' * (gap // 2)}{text}{' ' * (gap - gap // 2)}"
