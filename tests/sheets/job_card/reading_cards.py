"""A job card read back from its blocks: which section is which step, and the rows of its tables."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import takewhile

from jobtrack.sheets.paper.blocks import (
    Blank,
    Block,
    Box,
    Inline,
    Lines,
    Paragraph,
    Section,
    Sheet,
    Strong,
    Table,
    Text,
)

MEASURED, CHECKED, TIGHTENED, WELDED = "reading", "check; yes is what is wanted", "bolt, in turn", "run"
"""The first head of each kind of table."""
TAKES = Strong("Takes: ")


def plain(text: Text) -> str:
    """The words of a row, frames and boxes left out."""
    parts = (text,) if isinstance(text, str) else text
    return "".join(
        one if isinstance(one, str) else one.text for one in parts if not isinstance(one, Blank | Box)
    )


def strong(text: Text) -> str:
    """What stands out of a cell: on a card that is what is recorded."""
    return "".join(one.text for one in text if isinstance(one, Strong)) if isinstance(text, tuple) else ""


def blanks(text: Text) -> int:
    return sum(isinstance(one, Blank) for one in text) if isinstance(text, tuple) else 0


def boxes(text: Text) -> list[str]:
    return [one.text for one in text if isinstance(one, Box)] if isinstance(text, tuple) else []


def step_sections(sheet: Sheet) -> dict[str, Section]:
    """The sections of steps, by the id that stands in bold in front of what it takes; each id once.

    Where two members of a step stand on one card, each has what is said of both and what is its own.
    """
    found: dict[str, Section] = {}
    for stage in sheet.sections:
        for one in stage.sections:
            ids = ids_of(one)
            members = [id.rpartition(".")[2] for id in ids]
            for id, member in zip(ids, members, strict=True):
                assert id not in found
                found[id] = of_member(one, member, set(members) - {member})
    return found


def ids_of(section: Section) -> list[str]:
    """The names by which the steps of a card are typed."""
    return [
        one.text for one in takewhile(lambda one: one != TAKES, takes_of(section)) if isinstance(one, Strong)
    ]


def takes_of(section: Section) -> tuple[Inline, ...]:
    """The row that says what a step takes and goes by."""
    texts = (one.text for one in section.blocks if isinstance(one, Paragraph) and isinstance(one.text, tuple))
    [found] = [text for text in texts if TAKES in text]
    return found


def of_member(section: Section, member: str, others: set[str]) -> Section:
    """A card without what belongs to another member: below its label, and its columns of a table of both."""
    blocks: list[Block] = []
    whose = None
    for block in section.blocks:
        if isinstance(block, Paragraph) and isinstance(block.text[0], Strong):
            said = re.split("[,:] ?", block.text[0].text)
            whose = next((one for one in said if one in {member, *others}), None)
        if whose not in others:
            blocks.append(own_columns(block, member, others) if isinstance(block, Table) else block)
    return Section(section.title, tuple(blocks))


def own_columns(table: Table, member: str, others: set[str]) -> Table:
    mine = [number for number, head in enumerate(table.head) if head.partition(": ")[0] not in others]
    rows = tuple(tuple(own_words(row[number], member, others) for number in mine) for row in table.rows)
    return Table(tuple(table.head[number] for number in mine), rows, table.look)


def own_words(cell: Text, member: str, others: set[str]) -> Text:
    """Of a cell that says whose each of its parts is, what is of one member."""
    labels = {Strong(f"{one}: ") for one in (member, *others)}
    if isinstance(cell, str) or not labels & set(cell):
        return cell
    begin = cell.index(Strong(f"{member}: ")) + 1
    end = next((n for n, one in enumerate(cell) if n >= begin and one in labels), len(cell) + 1)
    assert cell[end - 1 : end] in ((), (" ",), ("; ",))
    return cell[begin : end - 1]


def tables(section: Section, head: str) -> list[Table]:
    """The tables of one kind in a section, in order."""
    return [one for one in section.blocks if isinstance(one, Table) and one.head[0] == head]


def rows(section: Section, head: str) -> list[tuple[Text, ...]]:
    return [row for table in tables(section, head) for row in table.rows]


def named_before(section: Section, head: str, kind: str) -> list[tuple[str, Table]]:
    """The torque lines or welds of a section: the name in the row above the table, and the table."""
    found: list[tuple[str, Table]] = []
    for before, block in zip(section.blocks, section.blocks[1:], strict=False):
        if isinstance(block, Table) and block.head[0] == head:
            assert isinstance(before, Paragraph)
            found.append(
                (strong(before.text).removeprefix(f"{kind}, ").partition(", ")[0].removesuffix(": "), block)
            )
    return found


def released_lines(section: Section) -> list[Lines]:
    return [
        one for one in section.blocks if isinstance(one, Lines) and one.ask == "Released by, name and time"
    ]


def every_text(sheet: Sheet) -> Iterator[str]:
    """Every string of a sheet."""
    yield from (sheet.title, *sheet.foot, *map(plain, sheet.head))
    for one in sheet.sections:
        yield from _of_section(one)


def _of_section(section: Section) -> Iterator[str]:
    yield section.title
    yield from (text for block in section.blocks for text in _strings(block))
    for inner in section.sections:
        yield from _of_section(inner)


def _strings(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        yield from (text for each in value for text in _strings(each))
    elif isinstance(value, Block | Blank | Box | Strong) or hasattr(value, "__struct_fields__"):
        yield from (text for name in value.__struct_fields__ for text in _strings(getattr(value, name)))
