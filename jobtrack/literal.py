"""What people typed, shown literally: never markup, never a control sequence.

The one way by which a person's text reaches a terminal, a widget or a sheet.
"""

from __future__ import annotations

STAND_IN = "\N{REPLACEMENT CHARACTER}"
BIDI = {*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x061C, 0x200E, 0x200F, 0x2028, 0x2029}
"""Code points that turn the direction of what follows, or break a line."""


def _stand_in(code: int) -> str:
    if code < 0x20:
        return chr(0x2400 + code)
    return "\N{SYMBOL FOR DELETE}" if code == 0x7F else STAND_IN


CONTROLS = {code: _stand_in(code) for code in (*range(0x20), *range(0x7F, 0xA0), *BIDI)}


def visible(text: str) -> str:
    """The text with a visible character in the place of each control character, on one line."""
    return text.translate(CONTROLS)
