"""A page of HTML as Chromium prints it: the words of each page with their boxes, and what it measures of itself."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from msgspec import Struct

from tests.support.browser.chromium import in_browser

if TYPE_CHECKING:
    from playwright.sync_api import Page as Tab

Paper = Literal["A4", "Letter"]
MM_ACROSS: dict[Paper, float] = {"A4": 210, "Letter": 215.9}
"""ISO 216; ANSI/ASME Y14.1: 8.5 in."""
PHONE = 360
"""Pixels of CSS that a small telephone is wide."""
PIXELS_IN_MM = 96 / 25.4
POINTS_IN_MM = 72 / 25.4
PAPER = 250
"""Grey above which a spot counts as white."""
STROKE, AT_THE_END = "-", "\ufffe"
"""What the reader of PDF gives for a stroke at which a word goes on in the next row (found by trying)."""
MEASURED = (Path(__file__).parent / "measured.js").read_text(encoding="utf-8")
BROKEN_AT = "\ufffe"
"""What stands for a word's own dash at the end of a row in the text of a page."""
LENGTH = re.compile(r"([\d.]+)(mm|cm|in|pt|px)?")
MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "px": 25.4 / 96, None: 1.0}


class Word(NamedTuple):
    """A word on a printed page and its box: points from the lower left corner."""

    text: str
    left: float
    bottom: float
    right: float
    top: float


class Page(Struct, frozen=True):
    """One printed page; points."""

    width: float
    height: float
    words: tuple[Word, ...]
    ink: float
    """Which part of its rows between the margins has any ink."""

    @property
    def text(self) -> str:
        """Its words, those in its margins too."""
        return " ".join(word.text for word in self.words)


class Measured(Struct, frozen=True):
    """What the page measured of itself, on paper or on a telephone (see `measured.js`)."""

    texts: list[dict[str, Any]]
    wide: list[str]
    words: list[str]
    headings: list[tuple[int, str]]
    margins: list[str]


class Printed(Struct, frozen=True):
    """A page of HTML printed on one paper, backgrounds left out as a browser does unless it is told otherwise."""

    paper: Paper
    pdf: bytes
    pages: tuple[Page, ...]
    margins: tuple[float, float, float, float]
    """Top, right, bottom, left, in points."""
    on_paper: Measured
    on_phone: Measured
    asked_for: tuple[str, ...]
    """What it wanted from elsewhere, and what the browser refused it."""

    def inside(self, page: Page) -> list[Word]:
        """The words of a page that don't stand in the margins above and below."""
        top, _, bottom, _ = self.margins
        return [one for one in page.words if one.top > bottom and one.bottom < page.height - top]

    def save_pngs(self, folder: Path, name: str, scale: float = 1.5) -> list[Path]:
        """Each page as a picture to look at."""
        import pypdfium2

        paths = [folder / f"{name}-{self.paper}-{number}.png" for number in range(1, len(self.pages) + 1)]
        for page, path in zip(pypdfium2.PdfDocument(self.pdf), paths, strict=True):
            page.render(scale=scale).to_pil().save(path)
        return paths


def rendered(html: str | bytes, paper: Paper = "A4") -> Printed:
    """Print a page of HTML. Skips the test where there is no browser."""
    data = html.encode() if isinstance(html, str) else html
    on_phone, on_paper, pdf, asked_for = in_browser(lambda tab: _visited(tab, data, paper))
    top, right, bottom, left = (mm(one) * POINTS_IN_MM for one in on_paper.margins)
    pages = tuple(_pages(pdf, top, bottom))
    return Printed(paper, pdf, pages, (top, right, bottom, left), on_paper, on_phone, tuple(asked_for))


def _visited(tab: Tab, data: bytes, paper: Paper) -> tuple[Measured, Measured, bytes, list[str]]:
    asked_for: list[str] = []

    def hear_request(request: Any) -> None:
        if not request.url.startswith(("data:", "file:")):
            asked_for.append(request.url)

    def hear_console(message: Any) -> None:
        asked_for.append(message.text)

    tab.on("request", hear_request)
    tab.on("console", hear_console)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "page.html"
        path.write_bytes(data)
        tab.emulate_media(media="screen")
        tab.set_viewport_size({"width": PHONE, "height": 740})
        tab.goto(path.as_uri())
        on_phone = _measured(tab)
        tab.emulate_media(media="print")
        across = MM_ACROSS[paper] - mm(on_phone.margins[1]) - mm(on_phone.margins[3])
        tab.set_viewport_size({"width": int(across * PIXELS_IN_MM), "height": 1000})
        on_paper = _measured(tab)
        pdf = tab.pdf(format=paper)
    tab.remove_listener("request", hear_request)
    tab.remove_listener("console", hear_console)
    return on_phone, on_paper, pdf, asked_for


def _measured(tab: Tab) -> Measured:
    return Measured(**tab.evaluate(MEASURED))


def mm(length: str) -> float:
    """Millimetres of a length of CSS."""
    found = LENGTH.match(length)
    return float(found[1]) * MM[found[2]] if found else 0.0


def _pages(pdf: bytes, top: float, bottom: float) -> Iterator[Page]:
    import pypdfium2

    for page in pypdfium2.PdfDocument(pdf):
        width, height = page.get_size()
        yield Page(
            width, height, tuple(_words(page.get_textpage())), _ink(page, top / height, bottom / height)
        )


def _words(text: Any) -> Iterator[Word]:
    """Words as blanks part them; a row's end parts them too."""
    letters: list[tuple[str, tuple[float, float, float, float]]] = []
    for number, letter in enumerate(_letters(text)):
        if letter.strip():
            letters.append((STROKE if letter == AT_THE_END else letter, text.get_charbox(number)))
        elif letters:
            yield _word(letters)
            letters = []
    if letters:
        yield _word(letters)


def _letters(text: Any) -> Iterable[str]:
    """The letters by their numbers; one by one where some are written in two, and so have two."""
    whole: str = text.get_text_range()
    count: int = text.count_chars()
    return whole if len(whole) == count else [text.get_text_range(one, 1) for one in range(count)]


def _word(letters: list[tuple[str, tuple[float, float, float, float]]]) -> Word:
    left, bottom, right, top = zip(*(box for _, box in letters), strict=True)
    text = "".join(letter for letter, _ in letters).replace(BROKEN_AT, "-")
    return Word(text, min(left), min(bottom), max(right), max(top))


def _ink(page: Any, top: float, bottom: float) -> float:
    """From a picture of half a pixel a point."""
    picture = page.render(scale=0.5, grayscale=True).to_pil()
    across, spots = int(picture.width), bytes(picture.tobytes())
    rows = range(int(top * picture.height), int((1 - bottom) * picture.height))
    return sum(min(spots[row * across : (row + 1) * across]) < PAPER for row in rows) / len(rows)
