"""How large the words of a tag are: as large as half a page lets them be, no word broken."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.sheets.paper.blocks import Shout
from jobtrack.sheets.paper.shouting import (
    ACROSS,
    ACROSS_OF_TWO,
    CAPITAL,
    DOWN,
    LARGEST,
    LEADING,
    NARROWED,
    UNDER,
    fitted,
    width,
)

TAGS = [["NO BRAKES"], ["U-BOLTS LOOSE", "AXLE DRY"], ["WHEEL NUTS TO BE TIGHTENED AGAIN"], ["M"],
        ["NO BRAKES", "AXLE DRY", "U-BOLTS LOOSE", "SHAFT OFF", "ON STANDS"]]  # fmt: skip


def rows_at(text: str, capital: float) -> int:
    """Rows that words take at a height of capital letters, filled one after the other."""
    room, rows, filled = ACROSS / (capital / CAPITAL) / NARROWED, 1, 0.0
    for word in text.split():
        if filled and filled + width(" ") + width(word) > room:
            rows, filled = rows + 1, 0.0
        filled += width(word) + (width(" ") if filled else 0.0)
    return rows


def down(words: list[str], capital: float) -> float:
    return sum(rows_at(one, capital) * capital * LEADING + UNDER for one in words)


@pytest.mark.parametrize("words", TAGS, ids=" ".join)
def test_the_letters_are_as_large_as_half_a_page_lets_them_be(words: list[str]) -> None:
    """All rows fit; half a millimetre larger they wouldn't, unless that is as large as any are."""
    found = fitted([Shout(one, ("Wim",)) for one in words])
    [capital] = {round(row.em * CAPITAL, 1) for rows in found for row in rows}
    assert [" ".join(row.text for row in rows) for rows in found] == words
    assert down(words, capital) <= DOWN
    assert capital == LARGEST or down(words, capital + 0.5) > DOWN


@given(st.lists(st.text("AEIMNOW -'", min_size=1, max_size=60), min_size=1, max_size=9), st.integers(0, 9))
def test_any_words_stand_whole_and_inside(words: list[str], large: int) -> None:
    """No sign is lost, only a word wider than a row is broken, and no row is wider than its place."""
    shouts = [Shout(one, (), number >= max(1, large)) for number, one in enumerate(words)]
    for one, rows in zip(shouts, fitted(shouts), strict=True):
        assert "".join("".join(row.text for row in rows).split()) == "".join(one.words.split())
        across = ACROSS_OF_TWO if one.lesser else ACROSS
        assert all(row.across <= across for row in rows)
        assert all(
            row.narrowed == (width(row.text) * row.em > across + 1) or row.across > across - 1 for row in rows
        )
        whole = [word for word in one.words.split() if width(word) * rows[0].em <= across]
        assert set(whole) <= {word for row in rows for word in row.text.split()}
