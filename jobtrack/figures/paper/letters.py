"""How wide a text is on paper, rather too wide than too narrow, whichever sans-serif a reader's machine has.

Widths are those of DejaVu Sans, the widest of the common ones, rounded up to a twentieth of the letters' size.
"""

from __future__ import annotations

import unicodedata

SIZE = 3.4
"""The letters' size in millimetres: 9.6 points."""
ABOVE, BELOW = 0.85 * SIZE, 0.25 * SIZE
"""From the foot of the letters up and down to the edges of a row."""
ROW = ABOVE + BELOW

_WIDTHS = {
    0.35: " ,.IJijl·'",
    0.4: "-/:;\\f|″′t",
    0.45: "!()[]r²",
    0.5: '"',
    0.55: "*_`sz°–“”",
    0.6: "?Lc",
    0.65: "FPTYaekovxyé",
    0.7: "$0123456789EKSbdghnpqu{}üßñø",
    0.75: "ABCRVXZÅ",
    0.8: "DGHNU",
    0.85: "&OQw",
    0.9: "#+<=>M^~±×→←↑↓",
    1.0: "%m½¼¾⅛@W—…",
}
KNOWN = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
OTHER = 1.05
"""Of a letter that isn't known; a wide one of another script is as wide as high."""


def letter_width(letter: str) -> float:
    """Of the letters' size; a mark that stands over another letter has none."""
    return KNOWN.get(letter, 0.0 if unicodedata.combining(letter) else OTHER)


def text_width(text: str) -> float:
    """In millimetres."""
    return SIZE * sum(map(letter_width, text))


def is_known(text: str) -> bool:
    """Whether the width of every letter is known; else the text is to be held to what was reckoned."""
    return all(letter in KNOWN for letter in text)


def broken(text: str, width: float) -> list[str]:
    """A text in rows of at most this width, which together are the text; at blanks where it has any."""
    rows: list[str] = []
    while text_width(text) > width:
        most = _fitting(text, width)
        blank = text.rfind(" ", 0, most) + 1
        rows.append(text[: blank or most])
        text = text[blank or most :]
    return [*rows, text] if text or not rows else rows


def _fitting(text: str, width: float) -> int:
    """How many letters fit a row, at least one."""
    length, number = 0.0, 0
    for number, letter in enumerate(text):  # noqa: B007
        length += SIZE * letter_width(letter)
        if length > width:
            break
    return max(1, number)
