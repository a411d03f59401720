"""What of Unicode reaches a terminal as it is, and what only by a stand-in: over all of its code points."""

from __future__ import annotations

import sys
from unicodedata import category

import pytest

from jobtrack.literal import STAND_IN, visible

UNSEEN = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}
# Unicode Character Database, DerivedCoreProperties.txt, Default_Ignorable_Code_Point, beside those of category Cf:
# blank letters and marks, and places left free. Not among them: the selectors of variants (see below).
BLANK = {0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x2065, 0x3164, 0xFFA0, *range(0xFFF0, 0xFFF9),
         *range(0xE0000, 0xE0100), *range(0xE01F0, 0xE1000)}  # fmt: skip
# Unicode Standard, 23.7, "Noncharacters": the last two of each plane, and 32 in the middle of the first
NO_CHARACTERS = {
    *(plane << 16 | last for plane in range(17) for last in (0xFFFE, 0xFFFF)),
    *range(0xFDD0, 0xFDF0),
}


def test_every_code_point_is_itself_or_has_a_stand_in() -> None:
    """Of all of Unicode what isn't seen has one visible sign in its place, and nothing else is touched."""
    for code in range(sys.maxunicode + 1):
        sign = chr(code)
        if category(sign) in UNSEEN or code in BLANK or code in NO_CHARACTERS:
            assert visible(sign) in (STAND_IN, chr(0x2400 + code) if code < 0x20 else "\u2421"), hex(code)
        else:
            assert visible(sign) == sign, hex(code)


# Unicode Character Database, UnicodeData.txt, general category Cf: those that stand for a mark over what follows, for
# shorthand, for music and for hieroglyphs, each with how many there are
FORMATS = {
    "Arabic numbers": (0x0600, 0x0605), "Arabic end of ayah": (0x06DD, 0x06DD), "Syriac": (0x070F, 0x070F),
    "Arabic pound marks": (0x0890, 0x0891), "Arabic disputed end": (0x08E2, 0x08E2), "Kaithi": (0x110BD, 0x110BD),
    "Kaithi above": (0x110CD, 0x110CD), "hieroglyphs": (0x13430, 0x13438), "shorthand": (0x1BCA0, 0x1BCA3),
    "music": (0x1D173, 0x1D17A), "soft hyphen": (0x00AD, 0x00AD), "directions": (0x202A, 0x202E),
    "isolates": (0x2066, 0x2069), "joiners": (0x200B, 0x200F), "tags": (0xE0020, 0xE007F),
}  # fmt: skip


@pytest.mark.parametrize("name", FORMATS)
def test_a_format_character_is_seen(name: str) -> None:
    """Two names that differ by one look different."""
    first, last = FORMATS[name]
    for code in range(first, last + 1):
        assert visible(f"Ada{chr(code)}7") == f"Ada{STAND_IN}7"


@pytest.mark.parametrize(
    "text",
    ["Łukasz Müller", "Nguyễn Văn Tú", "山田太郎", "葛\U000e0100城", "علی رضا", "אורי", "O’Neill", "देवनागरी", "한글",
     "⚠\ufe0f", "🔧", "5 °C ± 0,3 µm", "a\u00a0b", "e\u0301", "𝄞"],
)  # fmt: skip
def test_names_and_figures_stay_as_they_are(text: str) -> None:
    """Letters and marks of every script, pictures with their selector, and spaces that are seen as such."""
    assert visible(text) == text


def test_half_of_a_pair_can_be_printed() -> None:
    """What came out of bytes that are no UTF-8 stops no print."""
    assert visible("\udcff").encode() == STAND_IN.encode()
