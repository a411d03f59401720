"""A job card read back from its blocks: which section is which step, and the rows of its tables."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.sheets.paper.blocks import (
    Blank,
    Block,
    Box,
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
    """The sections of steps, by the id that stands in small letters under the title; each id once."""
    found: dict[str, Section] = {}
    for stage in sheet.sections:
        for one in stage.sections:
            first = one.blocks[0]
            assert isinstance(first, Paragraph)
            id = plain(first.text).partition(",")[0]
            assert id not in found
            found[id] = one
    return found


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
            found.append((strong(before.text).removeprefix(f"{kind}, ").removesuffix(": "), block))
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
