"""Which key a place in a row of keys stands for."""

from __future__ import annotations

import pytest

from jobtrack.pages.pressing import blocks, key_at, places, several

ROW = "f finish   g go on   a unsafe now   ? all keys         No clock runs."


@pytest.mark.parametrize(
    ("cell", "key"),
    [(0, "f"), (7, "f"), (8, "f"), (9, "f"), (10, "g"), (11, "g"), (15, "g"), (21, "a"), (32, "a"), (36, "?"),
     (60, "")],
)  # fmt: skip
def test_words_and_gaps_belong_to_a_key(cell: int, key: str) -> None:
    """The whole of key and words, and of a gap the nearer half; a text that names no key is none."""
    assert key_at(places(ROW), cell) == key


def test_beyond_the_row_is_the_nearest() -> None:
    """A finger may land past the last word."""
    assert key_at(places("Enter takes it   Escape cancels"), 70) == "Escape"
    assert key_at([], 3) == ""


def test_a_sentence_is_no_row_of_keys() -> None:
    """Only where two keys stand side by side with room between them."""
    assert several("y or n answers it anew; Enter goes on.") == []
    assert [one.key for one in several("y yes   n no   Enter leaves it for later")] == ["y", "n", "Enter"]


def test_places_are_counted_in_cells() -> None:
    """A wide character takes two."""
    assert [(one.first, one.end) for one in places("x 測る   y yes")] == [(0, 6), (9, 14)]


@pytest.mark.parametrize("width", [60, 78, 118, 198])
def test_blocks_fill_the_width_and_are_three_rows_high(width: int) -> None:
    """Each has its share of the row, its word whole, and is pressed wherever it lies."""
    keys = [("y", "yes"), ("n", "no"), ("Enter", "next"), ("f", "finish"), ("u", "undo"), ("a", "unsafe")]
    rows, at = blocks(keys, width)
    assert len(rows) == 3
    assert {len(row) for row in rows} <= set(range(width - 6, width + 1))
    assert all(words in rows[1] for _, words in keys)
    share = width // 6
    assert [key_at(at, share * number + share // 2) for number in range(6)] == [key for key, _ in keys]
    assert ("Enter next" in rows[1]) == (width >= 78)


def test_a_long_text_has_a_wider_block() -> None:
    """Whole words, as far as the row is wide enough for them all; each is pressed where it stands."""
    keys = [("Enter", "measured again"), ("t", "the number before was typed wrong"), ("Escape", "back")]
    rows, at = blocks(keys, 78)
    for key, words in keys:
        assert words in rows[1]
        assert key_at(at, rows[1].index(words)) == key
    assert len(rows[1]) <= 78
