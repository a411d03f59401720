"""How long a word in a table can be before it has to be broken, so that no column is pushed off the page."""

from __future__ import annotations

from jobtrack.sheets.paper.blocks import Table
from jobtrack.sheets.paper.rows import cells
from jobtrack.sheets.paper.text import as_words

EMS = {"handover": 43.0}
"""Ems between the margins of A4 in the type of a sheet."""
EMS_OF_OTHERS = 46.0
EM_OF_LETTER, EM_OF_RULE = 0.58, 0.9
"""Ems of a letter, taken wide, and of the rule and the white beside each column."""


def longest_whole(table: Table, kind: str) -> int:
    """Letters up to which a word stays whole in every column: as many as the page lets the longest words have."""
    columns = [_longest(table, number) for number in range(len(table.head))]
    room = (EMS.get(kind, EMS_OF_OTHERS) - EM_OF_RULE * len(columns)) / EM_OF_LETTER
    caps = range(max(columns, default=1), 1, -1)
    return next((cap for cap in caps if sum(min(one, cap) for one in columns) <= room), 1)


def _longest(table: Table, number: int) -> int:
    whole = (row for row in table.rows if len(row) == len(table.head))
    texts = (table.head[number], *(as_words(row[number]) for row in whole))
    return max((cells(word) for text in texts for word in text.split()), default=1)
