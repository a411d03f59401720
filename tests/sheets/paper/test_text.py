"""A sheet in rows: as a file of text, and as a page of the app in any width."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from jobtrack.literal import visible
from jobtrack.pages.paper import paper_lines
from jobtrack.pages.typeset import Span
from jobtrack.sheets.paper.blocks import Block, Message, Point, Points, Section, Sheet, Table
from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.paper.rows import cells, rows
from jobtrack.sheets.paper.ruled import ruled
from jobtrack.sheets.words.hazards import WORST
from tests.sheets.paper.every_block import every_block
from tests.support.hostile import TEXTS

HEAD = ("Bolt", "Measured")


def test_a_file_of_text_is_ascii_but_for_what_was_typed() -> None:
    """Rules, squares, frames and drawings are of signs that every printer has; each row fits on it."""
    text = written(every_block(lambda typed: typed.replace("·", "*")), ".txt").decode()
    assert text.isascii()
    assert max(map(len, text.splitlines())) == 80
    assert "[ ] seen" in text
    assert "640 mm" in text  # from the drawing
    assert not any(row.endswith(" ") for row in text.splitlines())


@pytest.mark.parametrize("width", [24, 40, 76, 100])
def test_a_page_of_the_app_is_no_wider_than_its_window(width: int) -> None:
    """Whatever stands on the sheet."""
    for text in (str, lambda typed: f"{typed} {TEXTS['pictures']} {TEXTS['markup']}"):
        assert max(cell_len(one.plain) for one in paper_lines(every_block(text), width)) <= width


def test_a_page_of_the_app_says_all_that_the_sheet_says() -> None:
    """Every text of every block."""
    words: list[str] = []

    def numbered(_: str) -> str:
        words.append(f"text{len(words):03}")
        return words[-1]

    page = "\n".join(one.plain for one in paper_lines(every_block(numbered), 200))
    assert len(words) > 50
    assert [one for one in words if one not in page] == []


def test_signal_words_are_in_their_looks() -> None:
    """The word alone; the message behind it is as any other."""
    blocks = tuple(Message(one, "It can fall", "crushes a hand", "prop it") for one in WORST)
    lines = paper_lines(Sheet("handover", "A sheet", (), (Section("Hazards", blocks),)), 200)
    found = [one.spans for one in lines if one.spans and one.spans[0].look in WORST]
    message = ": It can fall. What it does: crushes a hand. How to avoid it: prop it."
    assert found == [(Span(one, one), Span(message)) for one in WORST]


def test_headings_are_strong() -> None:
    """On the screen there are no larger letters."""
    lines = paper_lines(Sheet("handover", "A sheet", (), (Section("A part", (Points(()),)),)), 60)
    assert [(one.plain, one.spans[0].look) for one in lines if one.spans] == [
        ("A sheet", "strong"),
        ("A part", "strong"),
    ]


def test_a_table_is_ruled() -> None:
    """Its columns are as wide as what stands in them."""
    found = [text for text, _ in ruled(HEAD, [("1", "80 N·m (59 lbf ft)"), ("2", "")], 80)]
    assert found == ["Bolt | Measured", "-----+-------------------", "1    | 80 N·m (59 lbf ft)", "2    |"]


def test_a_narrow_table_breaks_its_widest_column() -> None:
    """At spaces."""
    found = [text for text, _ in ruled(HEAD, [("1", "80 N·m, not at its final stage")], 26)]
    assert found == [
        "Bolt | Measured",
        "-----+--------------------",
        "1    | 80 N·m, not at its",
        "     | final stage",
    ]


def test_a_table_with_too_many_columns_is_a_list() -> None:
    """Each row under the other, with the head before each."""
    found = [text for text, _ in ruled([f"head {one}" for one in range(9)], [["some words"] * 9], 40)]
    assert found == [*(f"head {one}: some words" for one in range(9)), ""]


@settings(max_examples=60, derandomize=True, database=None)
@given(
    st.lists(st.sampled_from([*TEXTS.values(), "a", "bolt", "長", "x" * 30, "", "  "]), max_size=8).map(
        " ".join
    ),
    st.integers(2, 90),
)
def test_rows_hold_every_sign_and_are_no_wider(text: str, width: int) -> None:
    """But for the spaces at which they are broken."""
    found = rows(text, width)
    assert "".join(found).replace(" ", "") == visible(text).replace(" ", "")
    assert max(map(cells, found)) <= width
    wide = max(cell_len(one) for one in found)
    assert wide <= max(map(cells, found)) + text.count("नि")  # a vowel sign that few terminals agree on


def test_a_list_that_stands_out_does_so_without_larger_letters() -> None:
    """Its points; what is under one is as any other."""
    points = Points((Point("Don't press", (Point("the line is open"),)),), "large")
    one = Sheet("handover", "A sheet", (), (Section("A part", (points,)),))
    assert "- **Don't press**\n  - the line is open\n" in written(one, ".md").decode()
    looks = {row.plain: row.spans[0].look for row in paper_lines(one, 60) if row.spans}
    assert (looks["- Don't press"], looks["  - the line is open"]) == ("strong", "")


def blocks_of(sections: tuple[Section, ...]) -> set[type]:
    return {type(block) for one in sections for block in one.blocks} | {
        kind for one in sections for kind in blocks_of(one.sections)
    }


def test_every_block_stands_on_the_sheet_that_these_tests_write() -> None:
    """So that a new one is taught to each form, and tried in each."""
    assert blocks_of(every_block(str).sections) == set(get_args(Block))


def test_an_empty_table_and_an_empty_list_take_no_harm() -> None:
    """In each form."""
    empty = Sheet("handover", "A sheet", (), (Section("A part", (Table(HEAD, ()), Points(()))),))
    for ending in (".html", ".md", ".txt"):
        assert b"Measured" in written(empty, ending)
