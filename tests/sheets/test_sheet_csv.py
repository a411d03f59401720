"""A table as CSV: read back by the standard reader, and no cell begins a formula."""

from __future__ import annotations

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.literal import visible
from jobtrack.sheets.csv_text import BEGINS_A_FORMULA, Cell, csv_text, text_cell

HEAD = ("key", "hours", "estimated_hours")
FORMULAS = [
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    "\t=1+1",
    "\r=1+1",
    "\n=1+1",
    "  =1+1",
    "\uff1d1+1",
    '=HYPERLINK("http://x","y")',
]
"""What OWASP, "CSV Injection", lists; and the same behind blanks, and in wide signs."""


def read(text: str, delimiter: str = ",") -> list[list[str]]:
    """As the standard reader takes it, strictly."""
    return list(csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True))


def test_a_table_is_as_rfc_4180_has_it() -> None:
    """CRLF behind each record, a quote in a cell doubled (RFC 4180, 2.1 and 2.7); nothing known is an empty cell."""
    rows: list[list[Cell]] = [['the "long" one, left', 2.5, None], ["(no step)", -0.25, 1.0]]
    text = csv_text(HEAD, rows)
    assert text == (
        '"key","hours","estimated_hours"\r\n"the ""long"" one, left",2.5,""\r\n"(no step)",-0.25,1.0\r\n'
    )
    assert read(text)[1:] == [['the "long" one, left', "2.5", ""], ["(no step)", "-0.25", "1.0"]]


@pytest.mark.parametrize("text", FORMULAS)
def test_a_formula_is_text(text: str) -> None:
    """An apostrophe stands before it, and the rest stays to be read."""
    assert text_cell(text) == f"'{visible(text)}"


def test_what_is_no_formula_stays_as_it_is() -> None:
    """A sign in the middle, and a number below nought that is a number."""
    assert text_cell("2 + 2 = 4, a-b @ 5") == "2 + 2 = 4, a-b @ 5"
    assert read(csv_text(("n",), [[-4.0]]))[1] == ["-4.0"]


def test_a_semicolon_begins_no_cell() -> None:
    """OWASP's second example: where a spreadsheet parts cells at the semicolon, all of it is still one cell."""
    [_, row] = read(csv_text(("key",), [['=1+2";=1+2']]), delimiter=";")
    assert row == ["'=1+2\";=1+2"]


@given(st.lists(st.text(max_size=20), min_size=1, max_size=4))
def test_any_texts_come_back(texts: list[str]) -> None:
    """A record a row, as many cells as texts, each on one line, and none begins a formula."""
    [_, row] = read(csv_text(["head"] * len(texts), [texts]))
    assert [one.removeprefix("'") for one in row] == [visible(one).removeprefix("'") for one in texts]
    assert not any(one.startswith(BEGINS_A_FORMULA) for one in row)
