"""A sheet as Markdown; every text in it literal, by `md` of `sheets/markdown.py`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import Any

from jobtrack.sheets.markdown import md
from jobtrack.sheets.paper.blocks import (
    Blank,
    Block,
    Box,
    Cut,
    Inline,
    Lines,
    Look,
    Message,
    Named,
    Paragraph,
    Photo,
    Picture,
    Point,
    Points,
    Section,
    Sheet,
    Shout,
    Strong,
    Table,
    Text,
)
from jobtrack.sheets.paper.text import COLUMNS, STANDING_OUT, cut_words, drawn_rows
from jobtrack.sheets.words.hazards import hazard_message

SIX = 6
"""Levels of headings that Markdown has."""
BOX = "☐"
LINE = "\\_" * 40


def markdown(sheet: Sheet) -> str:
    """The page."""
    parts = [f"# {md(sheet.title)}", *map(row, sheet.head)]
    parts += [part for one in sheet.sections for part in _section(one, 2)]
    parts += [_marked(md(one), "*") for one in sheet.foot]
    return "\n\n".join(filter(None, parts)) + "\n"


def _section(one: Section, level: int) -> Iterator[str]:
    yield f"{'#' * level} {md(one.title)}"
    yield from (WRITTEN[type(block)](block) for block in one.blocks)
    for inner in one.sections:
        yield from _section(inner, min(level + 1, SIX))


def row(text: Text) -> str:
    """A row of words."""
    parts = (text,) if isinstance(text, str) else text
    found = (_together(list(group)) for _, group in groupby(parts, lambda part: isinstance(part, str)))
    return _apart("".join(found).strip(" "))


def _together(pieces: list[Inline]) -> str:
    """Plain words side by side are one text; what is more than words stands by itself."""
    plain = "".join(piece for piece in pieces if isinstance(piece, str))
    others = "".join(_inline(piece) for piece in pieces if not isinstance(piece, str))
    return _plain(plain) if plain else others


def _plain(text: str) -> str:
    """Literal words with the blanks around them kept, one at each end."""
    words = md(text)
    if not words:
        return " " if text else ""
    return f"{' ' * text.startswith(' ')}{words}{' ' * text.endswith(' ')}"


EDGE = "\ue000"
"""Stands at each end of strong words until it is seen what is beside them; no text holds it once it is visible."""


def _inline(part: Strong | Box | Blank) -> str:
    words = md(part.text)
    match part:
        case Strong():
            return f"{EDGE}{_marked(words, '**')}{EDGE}"
        case Box():
            return f"{BOX} {words}" if words else BOX
        case Blank():
            return f"{LINE[: 2 * part.letters]} {words}".rstrip()


def _marked(words: str, stars: str) -> str:
    """Words between stars, unless there is a blank at an end, beside which stars are read as stars."""
    return words if not words or words[0].isspace() or words[-1].isspace() else f"{stars}{words}{stars}"


def _apart(text: str) -> str:
    """A blank between strong words and a letter beside them, where the stars would else be read as stars."""
    return re.sub(rf"(?<=\w){EDGE}|{EDGE}(?=\w)", " ", text).replace(EDGE, "")


def _paragraph(one: Paragraph) -> str:
    return _worded(one.look)(one.text)


def _worded(look: Look) -> Callable[[Text], str]:
    return _strong if look in STANDING_OUT else row


def _strong(text: Text) -> str:
    """A whole row of words as strong ones, where there are no other strong ones among them."""
    return row((Strong(text),)) if isinstance(text, str) else row(text)


def _points(one: Points) -> str:
    return "\n".join(line for each in one.points for line in _point(each, "", _worded(one.look)))


def _point(one: Point, indent: str, worded: Callable[[Text], str]) -> Iterator[str]:
    yield f"{indent}- {worded(one.text)}"
    for each in one.under:
        yield from _point(each, f"{indent}  ", row)


def _table(one: Table) -> str:
    rule = "|".join(" --- " for _ in one.head)
    blanks = ("",) * (len(one.head) - 1)
    rows = (cells if len(cells) == len(one.head) else (*cells, *blanks) for cells in one.rows)
    return "\n".join((_cells(one.head), f"|{rule}|", *map(_cells, rows)))


def _cells(texts: Sequence[Text]) -> str:
    return f"| {' | '.join(map(row, texts))} |"


def _named(one: Named) -> str:
    return "\n".join(f"- {row((Strong(f'{name}:'), ' ', *_parts(text)))}" for name, text in one.rows)


def _parts(text: Text) -> tuple[Any, ...]:
    return (text,) if isinstance(text, str) else text


def _message(one: Message) -> str:
    return f"> {row((Strong(one.signal), f' {hazard_message(one)}'))}"


def _picture(one: Picture) -> str:
    drawn = drawn_rows(one.drawing, COLUMNS, False)
    fence = "`" * (3 + max((len(run) for line in drawn for run in re.findall("`+", line)), default=0))
    return "\n\n".join(filter(None, (_strong(one.title), "\n".join((fence, *drawn, fence)), md(one.note))))


def _photo(one: Photo) -> str:
    return md(f"Photo: {one.title}")


def _shout(one: Shout) -> str:
    return "\n\n".join(filter(None, (_strong(one.words), *map(md, one.under))))


def _lines(one: Lines) -> str:
    return "\n\n".join(filter(None, (md(one.ask), *(LINE for _ in range(one.rows)))))


def _cut(one: Cut) -> str:
    return f"---\n\n{md(cut_words(one))}"


WRITTEN: dict[type[Block], Callable[[Any], str]] = {
    Paragraph: _paragraph, Points: _points, Table: _table, Named: _named, Message: _message, Picture: _picture,
    Photo: _photo, Shout: _shout, Lines: _lines, Cut: _cut,
}  # fmt: skip
