"""People's text broken at spaces into rows of so many cells of a terminal, as typewriter faces have them too."""

from __future__ import annotations

from collections.abc import Iterator
from unicodedata import combining, east_asian_width

from jobtrack.literal import visible


def cells(text: str) -> int:
    """Cells that a text takes."""
    return sum(_cells(one) for one in text)


def _cells(one: str) -> int:
    return 0 if combining(one) or "\ufe00" <= one <= "\ufe0f" else 1 + (east_asian_width(one) in "WF")


def rows(text: str, width: int) -> list[str]:
    """A text made visible, in rows of at most `width` cells; a word is broken only where it is wider than a row."""
    found = [""]
    for word in _words(visible(text), max(width, 2)):
        joined = f"{found[-1]} {word}" if found[-1] else word
        if found[-1] and cells(joined) > width:
            found.append(word)
        else:
            found[-1] = joined
    return found


def _words(text: str, width: int) -> Iterator[str]:
    for word in text.split(" "):
        part, filled = "", 0
        for one in word:
            if part and filled + _cells(one) > width:
                yield part
                part, filled = "", 0
            part, filled = part + one, filled + _cells(one)
        if part:
            yield part


def padded(text: str, width: int) -> str:
    """A text with blanks behind it up to so many cells."""
    return text + " " * (width - cells(text))
