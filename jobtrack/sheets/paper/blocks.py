"""What stands on a sheet, as plain data: no form of writing is known here, and every text is plain words.

A sheet is put together once and written in three forms: HTML for the printer and the telephone, Markdown, and plain
text. People's words stand in it as they were typed; each form makes them literal in its own way.
"""

from __future__ import annotations

from typing import Literal, TypeAlias

from msgspec import Struct

from jobtrack.figures.drawing import Drawing

Look: TypeAlias = Literal["", "large", "small", "strong", "columns"]
"""How a block looks; `columns`: a table of short rows, on paper in two columns beside each other."""


class Strong(Struct, frozen=True):
    """Words that stand out of their row."""

    text: str


class Box(Struct, frozen=True):
    """An empty square to mark by hand, and the word beside it: "yes"."""

    text: str = ""


class Blank(Struct, frozen=True):
    """An empty frame to write a value in by hand, and what stands behind it: a unit."""

    text: str = ""
    letters: int = 8
    """About how many letters of a hand it has room for."""


Inline: TypeAlias = str | Strong | Box | Blank
Text: TypeAlias = str | tuple[Inline, ...]
"""A row of words; a plain string is one whole."""


class Paragraph(Struct, frozen=True):
    """One paragraph."""

    text: Text
    look: Look = ""


class Point(Struct, frozen=True):
    """One thing of a list, and what belongs under it."""

    text: Text
    under: tuple[Point, ...] = ()


class Points(Struct, frozen=True):
    """A list; each begins with a dash."""

    points: tuple[Point, ...]
    look: Look = ""


class Table(Struct, frozen=True):
    """A ruled table; every row has as many cells as the head, or one alone that goes across all columns."""

    head: tuple[str, ...]
    rows: tuple[tuple[Text, ...], ...]
    look: Look = ""


class Named(Struct, frozen=True):
    """Names and what stands beside each, row by row."""

    rows: tuple[tuple[str, Text], ...]


class Message(Struct, frozen=True):
    """A hazard message with its signal word: the hazard, what it does, how to avoid it."""

    signal: str
    hazard: str
    does: str
    avoid: str


class Picture(Struct, frozen=True):
    """A drawing, what it shows, and what isn't known of it; a small one stands beside a table that says the same."""

    drawing: Drawing
    title: str
    note: str = ""
    look: Look = ""


class Photo(Struct, frozen=True):
    """A photo that lies in the sheet itself, nothing but the picture in its bytes."""

    data: bytes
    mime: str
    title: str


class Shout(Struct, frozen=True):
    """Words to be read from outside the vehicle, as large as half a page lets them be, and small rows under them."""

    words: str
    under: tuple[str, ...] = ()
    lesser: bool = False
    """Whether it stands in smaller letters, two side by side, below the larger ones of its section."""


class Lines(Struct, frozen=True):
    """Ruled lines to write on by hand, and what is asked for."""

    ask: str
    rows: int = 1


class Cut(Struct, frozen=True):
    """Where the paper is cut: what lies below is given back or hung up by itself."""

    text: str = ""


Block: TypeAlias = Paragraph | Points | Table | Named | Message | Picture | Photo | Shout | Lines | Cut


class Section(Struct, frozen=True):
    """A heading and what stands below it; sections in it have the next smaller heading."""

    title: str
    blocks: tuple[Block, ...] = ()
    sections: tuple[Section, ...] = ()
    new_page: bool = False
    """Whether it begins on a page of its own when it is printed."""


class Sheet(Struct, frozen=True):
    """One paper: its name, what it is about, who and when, its sections, and the small words at its end."""

    kind: Literal["handover", "tag", "job-card", "vehicle-record"]
    title: str
    head: tuple[Text, ...]
    sections: tuple[Section, ...]
    foot: tuple[str, ...] = ()
