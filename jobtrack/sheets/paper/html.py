"""A sheet as one page of HTML that stands by itself: its looks and pictures inside, no script, no network."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jobtrack.figures.checked import respelt
from jobtrack.figures.drawing import FigureError
from jobtrack.figures.svg import in_svg
from jobtrack.literal import visible
from jobtrack.sheets.paper.blocks import Inline, Photo, Picture, Section, Sheet, Shout, Text
from jobtrack.sheets.paper.columns import longest_whole
from jobtrack.sheets.paper.rows import cells
from jobtrack.sheets.paper.shouting import Row, fitted
from jobtrack.sheets.paper.text import as_words
from jobtrack.sheets.words.hazards import WORST

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

HERE = Path(__file__).parent
SHORT = 6
"""Rows of a table up to which it stands on one page, whole."""
LONGEST_TITLE = 70
"""Letters of the title at the foot of each printed page."""
TRIANGLE = (
    '<svg viewBox="0 0 20 18" aria-hidden="true"><path d="M10 1 19 17H1Z" fill="none" stroke="currentColor" '
    'stroke-width="1.8" stroke-linejoin="round"/><path d="M10 6v6" stroke="currentColor" stroke-width="2"/>'
    '<circle cx="10" cy="14.4" r="1.2" fill="currentColor"/></svg>'
)
"""The safety alert symbol: a triangle with an exclamation mark."""
SMALL = {"width": 80.0, "height": 40.0}
"""Millimetres of a small picture; its texts are as large as those of any other."""


def html(sheet: Sheet) -> str:
    """The page. Every text on it is literal, whatever was typed."""
    from markupsafe import Markup

    looks = Markup((HERE / "sheet.css").read_text(encoding="utf-8") + _at_each_page(sheet))
    written = _environment().get_template("sheet.html.jinja")
    return written.render(sheet=sheet, looks=looks) + "\n"


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    made = Environment(
        loader=FileSystemLoader(HERE), autoescape=True, finalize=_literal, undefined=StrictUndefined
    )
    made.globals |= {
        "pieces": _pieces, "kind": _kind, "look": _look, "breaking": _breaking, "drawn": _drawn,
        "signal_class": _signal_class, "has_triangle": _has_triangle, "triangle": Markup(TRIANGLE),
        "data_address": _data_address, "short": SHORT, "shouted": _shouted, "longest_whole": longest_whole,
    }  # fmt: skip
    return made


def _literal(value: Any) -> Any:
    """What is about to be written: people's text made visible; what is markup of ours already stays."""
    return value if not isinstance(value, str) or hasattr(value, "__html__") else visible(value)


def _kind(block: object) -> str:
    return type(block).__name__


def _pieces(text: Text) -> tuple[Inline, ...]:
    return (text,) if isinstance(text, str) else text


def _look(block: Any) -> Markup:
    from markupsafe import Markup

    return Markup(' class="{}"').format(block.look) if block.look else Markup("")


def _breaking(cell: Text, whole: int) -> str:
    """Whether a cell has a word so long that it may be broken anywhere, rather than hold the table apart."""
    return "breaks" if any(cells(word) > whole for word in as_words(cell).split()) else "whole"


def _signal_class(signal: str) -> str:
    return signal.lower() if signal in WORST else "other"


def _has_triangle(signal: str) -> bool:
    """NOTICE is about property alone and has none."""
    return signal in WORST and signal != "NOTICE"


def _data_address(photo: Photo) -> str:
    return f"data:{photo.mime};base64,{b64encode(photo.data).decode()}"


def _drawn(one: Picture) -> Markup:
    from markupsafe import Markup

    size = SMALL if one.look == "small" else {}
    try:
        return Markup(in_svg(respelt(one.drawing, visible), **size))
    except FigureError as error:  # a template's unit may be any text
        return Markup("<p>Can't be drawn: {}.</p>").format(visible(str(error)))


def _shouted(section: Section) -> dict[int, list[Row]]:
    """The rows of each block of a section that is to be read from afar, by its place."""
    found = [(place, one) for place, one in enumerate(section.blocks) if isinstance(one, Shout)]
    rows = fitted([one for _, one in found])
    return {place: of_one for (place, _), of_one in zip(found, rows, strict=True)}


def _at_each_page(sheet: Sheet) -> str:
    """The margins of each printed page, and at its foot the title and which page of how many it is.

    A tag is cut off in the middle of its page: its margins are the same above and below, and it has no foot.
    """
    if sheet.kind == "tag":
        return "@page { margin: 8mm }\n"
    shown = visible(sheet.title)
    short = shown if len(shown) <= LONGEST_TITLE else f"{shown[: LONGEST_TITLE - 1]}…"
    looks = 'font: 8.5pt "Helvetica Neue", Helvetica, Arial, "Liberation Sans", sans-serif; color: #000'
    margins = "10mm 12mm 14mm" if sheet.kind == "job-card" else "15mm 14mm 17mm"
    return (
        f"@page {{ margin: {margins}; "
        f"@bottom-left {{ content: {_css_string(short)}; {looks}; width: 80% }} "
        f'@bottom-right {{ content: "page " counter(page) " of " counter(pages); {looks} }} }}\n'
    )


def _css_string(text: str) -> str:
    """A text as a string of CSS, every sign that isn't a letter or a figure as its number."""
    return (
        '"' + "".join(one if one.isascii() and one.isalnum() else f"\\{ord(one):06x}" for one in text) + '"'
    )
