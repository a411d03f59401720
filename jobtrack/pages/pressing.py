"""Which key a place in a row of keys stands for, so that it can be pressed there with a mouse or a finger."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import accumulate, pairwise

from msgspec import Struct
from rich.cells import cell_len

_WORDS = re.compile(r"\S+(?: \S+)*")
_NAMED = frozenset(("Enter", "Escape", "Space", "Up", "Down", "PageUp", "PageDown", "Left", "Right"))
"""Keys that are called by a name; the others by their character."""


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
    """Keys with their words as large blocks side by side over the whole width, and where each of them lies.

    All as wide as each other; where a text is too long for that, wider ones for longer texts.
    """
    inside = [width // len(keys) - 3] * len(keys)
    texts = _fitting([[f"{key} {words}" for key, words in keys], [words for _, words in keys]], inside)
    if not _fit(texts, inside):
        spare = max(width - sum(cell_len(one) + 3 for one in texts), 0) // len(keys)
        inside = [cell_len(one) + spare for one in texts]
    rows = (
        " ".join(f"┌{'─' * one}┐" for one in inside),
        " ".join(f"│{_centred(text, one)}│" for text, one in zip(texts, inside, strict=True)),
        " ".join(f"└{'─' * one}┘" for one in inside),
    )
    ends = list(accumulate((one + 3 for one in inside), initial=0))
    at = [
        Place(first, end, key, words) for (first, end), (key, words) in zip(pairwise(ends), keys, strict=True)
    ]
    return list(rows), at


def _fitting(ways: Sequence[list[str]], inside: Sequence[int]) -> list[str]:
    """The first way of saying it that fits, or the last."""
    return next((one for one in ways if _fit(one, inside)), ways[-1])


def _fit(texts: Sequence[str], inside: Sequence[int]) -> bool:
    return all(cell_len(text) <= one for text, one in zip(texts, inside, strict=True))


def _centred(text: str, inside: int) -> str:
    gap = max(inside - cell_len(text), 0)
    return f"{' ' * (gap // 2)}{text}{' ' * (gap - gap // 2)}"
