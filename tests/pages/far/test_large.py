"""Large characters: each is told from each, breaks between words, and none is wider than it says."""

from __future__ import annotations

import string
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.pages.far.large import SMALL, drawable, high, in_rows, large, wide

NUMBER_PAD = "0123456789.,-+~<>/ "
SIZES = (SMALL, 1, 2, 3)


@pytest.mark.parametrize("size", SIZES)
def test_each_is_told_from_each(size: int) -> None:
    """No two of what a number is typed with, and no two capitals, look alike; 0 and O, 1 and I neither."""
    drawn = {
        one: "\n".join(large(one, size)) for one in (*NUMBER_PAD, *string.ascii_uppercase, *"'\"°?±%=:()")
    }
    for one, other in combinations(drawn, 2):
        assert drawn[one] != drawn[other], (one, other)


@pytest.mark.parametrize("size", SIZES)
@given(text=st.text(NUMBER_PAD + string.ascii_letters, min_size=1, max_size=12))
def test_as_high_and_wide_as_it_says(size: int, text: str) -> None:
    """Each of its rows is as wide as `wide`; only blocks, halves and spaces are used."""
    rows = large(text, size)
    assert len(rows) == high(size)
    assert {len(row) for row in rows} == {wide(text, size)}
    assert set("".join(rows)) <= set(" ▀▄█")


@given(st.text(string.ascii_letters + " ", max_size=40), st.integers(20, 120))
def test_broken_between_words(text: str, width: int) -> None:
    """No row is wider than the width, and a word that is too wide is said to be."""
    rows = in_rows(text, SMALL, width)
    fits = all(wide(word, SMALL) <= width for word in text.split())
    assert (rows is not None) == fits
    assert all(len(row) <= width for row in rows or ())


def test_small_letters_and_accents_are_drawn_as_capitals() -> None:
    """é is E, ü is U; what has no plain letter under it can't be drawn."""
    assert large("Müde é", 1) == large("MUDE E", 1)
    assert not drawable("ß→")
    assert in_rows("a → b", SMALL, 80) is None


def test_the_dots_of_a_number() -> None:
    """A minus in the middle row, a decimal point in the last, a stroke from below left to above right."""
    assert [row.rstrip() for row in large("-1.5", 1)] == [
        "          ██        ██████",
        "        ████        ██",
        "██████    ██        ██████",
        "          ██            ██",
        "        ██████  ██  ██████",
    ]
    assert [row.index("█") // 2 for row in large("/", 1)] == [2, 2, 1, 0, 0]
