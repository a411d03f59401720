"""How large the words of a tag can be: all of them on half a page, narrowed rather than made small."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from jobtrack.literal import visible
from jobtrack.sheets.paper.blocks import Shout

WIDE, USUAL, NARROW = 1.12, 0.84, 0.45
"""Widths of bold letters in ems, at least as wide as in the sans-serif faces that printers and telephones have."""
CAPITAL = 0.72
"""Height of a capital letter in ems in those faces; 0.716 in Liberation Sans, 0.729 in DejaVu Sans."""
NARROWED = 0.42
"""How far letters are narrowed at most before a row is broken in two; a narrow face is about so narrow."""
ACROSS, ACROSS_OF_TWO = 186, 90
"""Millimetres across the page, and for one of two side by side, on A4, the narrower paper."""
DOWN = 88
"""Millimetres down for all words of half a page of Letter, the lower paper, without its small rows."""
UNDER, LETTERS_UNDER = 4.6, 118
"""Millimetres that a small row takes with its rule, and about how many letters it has across the page."""
LEADING = 1.14
LARGEST, LARGE, LEAST = 40, 22, 4
LARGEST_OF_TWO = 14
"""Millimetres that capital letters are high: at most, beside lesser words, at least; and lesser words at most."""


class Row(Struct, frozen=True):
    """One row of large words, in millimetres: how wide, how high with its leading, its em, and where it stands."""

    text: str
    across: float
    high: float
    em: float
    narrowed: bool

    @property
    def base(self) -> float:
        """Where its letters stand, from above."""
        return round(self.em * CAPITAL + (self.high - self.em * CAPITAL) / 2, 2)


def fitted(shouts: Sequence[Shout]) -> list[list[Row]]:
    """The rows of each, as large as half a page lets them be; the lesser ones have what room the large ones leave."""
    large, lesser = next(
        one for one in _sizes(shouts) if _down(shouts, *one) <= DOWN or one == (LEAST, LEAST)
    )
    return [_rows(one, lesser if one.lesser else large) for one in shouts]


def _sizes(shouts: Sequence[Shout]) -> Iterable[tuple[float, float]]:
    """Heights of capital letters to be tried, of the large words and the lesser ones, the largest first."""
    if not any(one.lesser for one in shouts):
        yield from ((half / 2, LEAST) for half in range(2 * LARGEST, 2 * LEAST - 1, -1))
        return
    yield from ((LARGE, half / 2) for half in range(2 * LARGEST_OF_TWO, 2 * LEAST - 1, -1))
    yield from ((size, LEAST) for size in range(LARGE, LEAST - 1, -1))


def _down(shouts: Sequence[Shout], large: float, lesser: float) -> float:
    """How far down the words go with their small rows; the lesser ones stand two by two."""
    alone = [_height(one, large) for one in shouts if not one.lesser]
    two = [_height(one, lesser) for one in shouts if one.lesser]
    return sum(alone) + sum(max(two[at : at + 2]) for at in range(0, len(two), 2))


def _height(one: Shout, capital: float) -> float:
    letters = LETTERS_UNDER * (ACROSS_OF_TWO / ACROSS if one.lesser else 1)
    under = sum(-(-len(text) // letters) for text in one.under)
    return sum(row.high for row in _rows(one, capital)) + UNDER * max(1.0, under)


def _rows(one: Shout, capital: float) -> list[Row]:
    em, across = capital / CAPITAL, ACROSS_OF_TWO if one.lesser else ACROSS
    broken = _broken(visible(one.words), across / em / NARROWED)
    return [_row(text, em, across, capital * LEADING) for text in broken]


def _row(text: str, em: float, across: float, high: float) -> Row:
    wide = width(text) * em
    return Row(text, round(min(wide, across), 2), round(high, 2), round(em, 2), wide > across)


def _broken(text: str, room: float) -> list[str]:
    """A text in rows of at most so many ems, between its words; a word that is wider than a row, anywhere."""
    found: list[str] = []
    for word in (part for one in text.split() for part in _parts(one, room)):
        if found and width(f"{found[-1]} {word}") <= room:
            found[-1] = f"{found[-1]} {word}"
        else:
            found.append(word)
    return found


def _parts(word: str, room: float) -> list[str]:
    most = max(1, int(room / WIDE))
    return [word] if width(word) <= room else [word[at : at + most] for at in range(0, len(word), most)]


def width(text: str) -> float:
    """Ems that a text is wide at most."""
    return sum(map(_letter, text))


def _letter(one: str) -> float:
    if one in "MW@%" or ord(one) > 0x2E80:
        return WIDE
    return NARROW if one in " IJ.,:;'-|!il1jt()" else USUAL
