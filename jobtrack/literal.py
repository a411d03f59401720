"""What people typed, shown literally: never markup, never a control sequence.

The one way by which a person's text reaches a terminal, a widget or a sheet.
"""

from __future__ import annotations

STAND_IN = "\N{REPLACEMENT CHARACTER}"
BIDI = {*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x061C, 0x200E, 0x200F, 0x2028, 0x2029}
"""Code points that turn the direction of what follows, or break a line."""
UNSEEN = {
    *(0x00AD, 0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x180E, 0x3164, 0xFEFF, 0xFFA0),
    *range(0x200B, 0x200E),
    *range(0x2060, 0x2066),
    *range(0x206A, 0x2070),
    *range(0xFFF9, 0xFFFC),
    *range(0xE0000, 0xE0080),
}
"""Code points that take no room, so that two texts look alike that aren't; a joined emoji comes apart."""


def _stand_in(code: int) -> str:
    if code < 0x20:
        return chr(0x2400 + code)
    return "\N{SYMBOL FOR DELETE}" if code == 0x7F else STAND_IN


CONTROLS = {code: _stand_in(code) for code in (*range(0x20), *range(0x7F, 0xA0), *BIDI, *UNSEEN)}


def visible(text: str) -> str:
    """The text with a visible character in the place of each control character, on one line."""
    return text.translate(CONTROLS)
