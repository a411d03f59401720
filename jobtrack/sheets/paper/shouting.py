"""How large the words of a tag can be: no word broken in two, all of them on half a page."""

from __future__ import annotations

from collections.abc import Sequence

WIDE, USUAL, NARROW = 1.12, 0.84, 0.45
"""Widths of bold letters in ems, at least as wide as in the sans-serif faces that printers and telephones have."""
ROOM_ACROSS = 170
"""Millimetres between the frames on A4, the narrower paper."""
ROOM_DOWN = 92
"""Millimetres that the words of all tags on one sheet share: half a page, less the small rows and the frames."""
LINE = 1.02
LARGEST, LEAST = 150, 12
"""Points."""
MM_OF_POINT = 25.4 / 72
PHONE_ACROSS = 84
"""Hundredths of a telephone's width between the frames."""


def letter_size(words: Sequence[str]) -> str:
    """The size of the letters as CSS, on paper and on a telephone, the same for all words.

    As large as half a page and the widest word let them be.
    """
    widest = max((width(word) for one in words for word in one.split()), default=1.0) or 1.0
    size = next(one for one in range(LARGEST, LEAST - 1, -1) if one == LEAST or _fit(words, widest, one))
    return f"--on-paper: {size}pt; --on-phone: {PHONE_ACROSS / widest:.2f}vw"


def _fit(words: Sequence[str], widest: float, points: int) -> bool:
    em = points * MM_OF_POINT
    down = sum(_rows(one, ROOM_ACROSS / em) for one in words) * em * LINE
    return widest * em <= ROOM_ACROSS and down <= ROOM_DOWN


def _rows(text: str, room: float) -> int:
    """Rows that words take, broken between them, in a room of so many ems."""
    rows, filled = 1, 0.0
    for word in map(width, text.split()):
        if filled and filled + NARROW + word > room:
            rows, filled = rows + 1, 0.0
        filled += word + (NARROW if filled else 0)
    return rows


def width(word: str) -> float:
    """Ems that a word is wide at most."""
    return sum(_letter(one) for one in word)


def _letter(one: str) -> float:
    if one in "MW@%" or ord(one) > 0x2E80:
        return WIDE
    return NARROW if one in "IJ.,:;'-|!il1jt()" else USUAL
