"""What may be wrong with a sheet in a browser: each check gives one line for each fault that it finds."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from unicodedata import normalize

from tests.support.browser.printed import POINTS_IN_MM, Printed, Word, rendered
from tests.support.contrast import AA, RGB, contrast

EDGE = 5 * POINTS_IN_MM
"""Points at each edge of a paper that a printer leaves white. Common practice, no source."""
LINES = 3
"""Rows of text below which a page is an orphan, unless a picture or room to write fills a quarter of it."""
FILLED = 0.25
ROUNDED = 1.0
"""Points by which a letter may stand out of its box: overhangs, and rounding."""
COLOUR = re.compile(r"rgba?\(([\d.]+), ([\d.]+), ([\d.]+)(?:, ([\d.]+))?\)")
WHITE = (255.0, 255.0, 255.0)


def nothing_cut_off(printed: Printed) -> list[str]:
    """Every word is on the paper, inside its margins, and nothing is wider than its box, there or on a telephone."""
    return [
        *(f"{printed.paper}: not printed: {word}" for word in _lost(printed)),
        *(f"{printed.paper}: outside the margins: {word.text}" for word in _outside(printed)),
        *(f"{printed.paper}: wider than its box: {one}" for one in printed.on_paper.wide),
        *(f"telephone: wider than its box: {one}" for one in printed.on_phone.wide),
    ]


def _lost(printed: Printed) -> Iterator[str]:
    """Words that the page has and the paper hasn't; one that is broken over two rows is looked for without blanks.

    Beside letters of a tag the PDF's reader gives the small ones in another order: where every letter is there as
    often as the page has it, none is lost.
    """
    there = [normalize("NFKC", word.text) for page in printed.pages for word in printed.inside(page)]
    asked = Counter(normalize("NFKC", one) for one in printed.on_paper.words)
    joined = "".join(there)
    if not Counter("".join(asked.elements())) - Counter(joined):
        return
    for word, times in asked.items():
        if there.count(word) < times and joined.count(word) < times:
            yield word


def _outside(printed: Printed) -> Iterator[Word]:
    _, right, _, left = printed.margins
    for page in printed.pages:
        for word in page.words:
            across = left - ROUNDED <= word.left and word.right <= page.width - right + ROUNDED
            if not across or word.bottom < EDGE or word.top > page.height - EDGE:
                yield word


def no_orphan_page(printed: Printed) -> list[str]:
    """No page holds fewer than three rows of text, unless something else fills a quarter of it."""
    return [
        f"{printed.paper}: page {number} of {len(printed.pages)} has {rows} rows: {page.text[:60]}"
        for number, page in enumerate(printed.pages, 1)
        if (rows := _rows(printed.inside(page))) < LINES and page.ink < FILLED
    ]


def _rows(words: list[Word]) -> int:
    """Rows that words stand in; two whose heights overlap stand in one."""
    rows, below = 0, float("inf")
    for word in sorted(words, key=lambda one: -one.bottom):
        if word.top <= below + ROUNDED:
            rows, below = rows + 1, word.bottom
    return rows


def contrast_is_enough(printed: Printed) -> list[str]:
    """Each text against what is behind it by WCAG 2.2, 1.4.3 (AA), large letters no exception; paper and telephone."""
    found = []
    for where, measured in ((printed.paper, printed.on_paper), ("telephone", printed.on_phone)):
        for one in measured.texts:
            ink, behind = _seen(one["ink"], one["behind"], one["opacity"])
            if (ratio := contrast(ink, behind)) < AA:
                found.append(f"{where}: {ratio:.2f} to 1, {ink} on {behind}: {one['text'][:60]}")
    return found


def _seen(ink: str, behind: list[str], opacity: float) -> tuple[RGB, RGB]:
    """The colour of a text, and what lies behind it: its ancestors' backgrounds, the nearest first, on white."""
    ground = WHITE
    for colour, alpha in map(_colour, reversed(behind)):
        ground = _over(colour, alpha, ground)
    colour, alpha = _colour(ink)
    return _rounded(_over(colour, alpha * opacity, ground)), _rounded(ground)


def _colour(css: str) -> tuple[tuple[float, float, float], float]:
    found = COLOUR.fullmatch(css)
    assert found, f"a colour that isn't known here: {css}"
    return (float(found[1]), float(found[2]), float(found[3])), float(found[4] or 1)


def _over(
    colour: tuple[float, float, float], alpha: float, ground: tuple[float, float, float]
) -> tuple[float, float, float]:
    red, green, blue = (alpha * one + (1 - alpha) * under for one, under in zip(colour, ground, strict=True))
    return red, green, blue


def _rounded(colour: tuple[float, float, float]) -> RGB:
    red, green, blue = map(round, colour)
    return red, green, blue


def headings_in_order(printed: Printed) -> list[str]:
    """One h1, the first of all; below each heading at most the next level; none of them empty."""
    levels = [level for level, _ in printed.on_paper.headings]
    found = [f"a heading without words: h{level}" for level, text in printed.on_paper.headings if not text]
    if levels.count(1) != 1 or levels[0] != 1:
        found.append(f"headings begin {levels[:3]}, with {levels.count(1)} of level 1")
    for before, (level, text) in zip(levels, printed.on_paper.headings[1:], strict=False):
        if level > before + 1:
            found.append(f"h{level} below h{before}: {text}")
    return found


def stands_by_itself(printed: Printed) -> list[str]:
    """It asked for nothing from elsewhere, and the browser had nothing to say against it."""
    return [f"asked for or refused: {one}" for one in printed.asked_for]


CHECKS: tuple[Callable[[Printed], list[str]], ...] = (
    nothing_cut_off, no_orphan_page, contrast_is_enough, headings_in_order, stands_by_itself,
)  # fmt: skip


def faults(html: str | bytes) -> list[str]:
    """Every fault on A4 and Letter and on a telephone, each once."""
    printed = (rendered(html, "A4"), rendered(html, "Letter"))
    return list(dict.fromkeys(fault for one in printed for check in CHECKS for fault in check(one)))
