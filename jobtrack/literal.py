"""What people typed, shown literally: never markup, never a control sequence.

The one way by which a person's text reaches a terminal, a widget or a sheet.
"""

from __future__ import annotations

from unicodedata import category

STAND_IN = "\N{REPLACEMENT CHARACTER}"
HIDDEN = frozenset(("Cc", "Cf", "Cs", "Co", "Zl", "Zp"))
"""Unicode's kinds of code points that nobody sees as themselves: controls; format, what turns the direction of
the rest and what takes no room among it; half of a pair; for private use, so of no agreed look; line breaks.

None of them is excepted, not the joiners U+200C and U+200D either, which Persian and Indic names and joined
pictures use: on a terminal they take no room, so that two names would look alike that aren't. The record keeps
what was typed.
"""
BLANK = frozenset((0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x2065, 0x3164, 0xFFA0, *range(0xFFF0, 0xFFF9)))
"""Letters, marks and places left free that are blank too. Selectors of a variant (U+FE00 to FE0F, U+E0100 to
E01EF) stay: common pictures and Japanese names are written with them."""
TAGS_AND_FREE = range(0xE0000, 0xE1000)
SELECTORS = range(0xE0100, 0xE01F0)


class _Signs(dict[int, int | str]):
    """What stands for each code point; each is looked up the first time that it is met."""

    def __missing__(self, code: int) -> int | str:
        self[code] = _stand_in(code) if _unseen(code) else code
        return self[code]


def _unseen(code: int) -> bool:
    if code in TAGS_AND_FREE:
        return code not in SELECTORS
    no_character = code & 0xFFFE == 0xFFFE or 0xFDD0 <= code < 0xFDF0
    return no_character or code in BLANK or category(chr(code)) in HIDDEN


def _stand_in(code: int) -> str:
    if code < 0x20:
        return chr(0x2400 + code)
    return "\N{SYMBOL FOR DELETE}" if code == 0x7F else STAND_IN


SIGNS = _Signs()


def visible(text: str) -> str:
    """The text with a visible character in the place of each that isn't seen, on one line."""
    return text.translate(SIGNS)
