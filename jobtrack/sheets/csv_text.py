"""Tables as CSV, as RFC 4180 has it: a head, CRLF, and no cell that a spreadsheet takes for a formula.

What a spreadsheet runs when it opens a file, and the apostrophe that stops it, are those of OWASP, "CSV Injection"
(owasp.org/www-community/attacks/CSV_Injection, with the line feed of August 2025). Every text stands in quotes, so
that a reader that parts cells at a semicolon finds no new cell in it.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO
from typing import TypeAlias
from unicodedata import normalize

from jobtrack.hours.labour import Labour
from jobtrack.literal import visible

Cell: TypeAlias = str | float | None
"""A person's text, a number of ours, or nothing known."""
BEGINS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
APOSTROPHE = "'"


def csv_text(head: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    """The table; numbers are written as they are, negative ones too, and None is an empty cell."""
    out = StringIO(newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC)
    writer.writerow(head)
    writer.writerows([_cell(one) for one in row] for row in rows)
    return out.getvalue()


def hours_csv(found: Labour) -> str:
    """Labour hours, a row a group, under the names that they have in JSON."""
    rows = ((one.key, one.hours, one.estimated_hours) for one in found.groups)
    return csv_text(("key", "hours", "estimated_hours"), rows)


def _cell(value: Cell) -> Cell:
    return text_cell(value) if isinstance(value, str) else value


def text_cell(text: str) -> str:
    """A person's text, visible and on one line, with an apostrophe before what would begin a formula.

    Blanks before such a sign don't hide it, nor does its wide form: some spreadsheets drop the one and take the other.
    """
    begins = text.startswith(BEGINS_A_FORMULA) or normalize("NFKC", text.strip())[:1] in BEGINS_A_FORMULA
    return f"{APOSTROPHE if begins else ''}{visible(text)}"
