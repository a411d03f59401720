"""A few letters typed, and what they mean among many names: beginnings of words first, then inside, then in order."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from typing import Protocol, TypeVar

NOT_OF_A_WORD = re.compile(r"[\W_]+")
"""What stands between words."""


class Named(Protocol):
    """Something that can be found by its name, or by anything else said of it."""

    @property
    def title(self) -> str:
        """Its own name, as `plain` gives it."""
        ...

    @property
    def words(self) -> str:
        """Everything by which it can be found, its name first, as `plain` gives it."""
        ...


Found = TypeVar("Found", bound=Named)


def plain(text: str) -> str:
    """A text as it is compared: without case, accents and marks, a space before each word."""
    folded = unicodedata.normalize("NFKD", text).casefold() if not text.isascii() else text.casefold()
    bare = folded if folded.isascii() else "".join(one for one in folded if not unicodedata.combining(one))
    return " " + NOT_OF_A_WORD.sub(" ", bare).strip()


def matching(rows: Sequence[Found], text: str) -> Sequence[Found]:
    """The rows that hold every word typed, the best first; where none does, those with its letters in order.

    Best: the name begins with it; each typed word begins a word of the name, or of what else is said; inside a word,
    for which one letter is too little. Rows that match alike stay in the order given. Nothing typed: all of them.
    """
    whole = plain(text)
    words = whole.split()
    inside = rows
    for word in words:
        part = word if word[1:] else f" {word}"
        inside = [one for one in inside if part in one.words]
    if not words:
        return rows
    return _best_first(inside, whole, [f" {word}" for word in words]) if inside else _in_order(rows, words)


def _best_first(inside: Sequence[Found], whole: str, begins: Sequence[str]) -> list[Found]:
    """Rows that hold all the words, by how well they do."""
    ranks: tuple[list[Found], ...] = ([], [], [], [])
    for one in inside:
        title = one.title
        if title.startswith(whole):
            ranks[0].append(one)
        elif all(map(title.__contains__, begins)):
            ranks[1].append(one)
        elif all(map(one.words.__contains__, begins)):
            ranks[2].append(one)
        else:
            ranks[3].append(one)
    return [one for rank in ranks for one in rank]


def _in_order(rows: Sequence[Found], words: Sequence[str]) -> list[Found]:
    """The rows whose name has the typed letters in this order from the beginning of a word on, the closest first."""
    pattern = re.compile(" " + ".*?".join(re.escape(letter) for word in words for letter in word))
    found = [(match.end() - match.start(), one) for one in rows if (match := pattern.search(one.title))]
    return [one for _, one in sorted(found, key=lambda pair: pair[0])]
