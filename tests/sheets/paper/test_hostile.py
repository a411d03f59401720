"""Hostile text in every place of a sheet stays text: no element, no mark and no control character comes of it."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from jobtrack.literal import visible
from jobtrack.sheets.paper.blocks import Sheet
from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.paper.rows import cells
from jobtrack.sheets.paper.text import COLUMNS
from tests.sheets.paper.every_block import every_block
from tests.support.hostile import LONG, TEXTS
from tests.support.spiteful import RAW, SPITE

BREAKING_OUT = [
    "</style><script>alert(1)</script>", "</title><img src=x onerror=alert(1)>", "\"><b>x</b>", "' onload='x", "]]>",
    "<!-- ", "--> ", "&lt;b&gt;", "&amp;#60;", "{{ 7*7 }}", "{% raw %}", "{# x #}",
    "\\22 } * { display: none", "*/ } /*",
    "<svg onload=x>", "javascript:alert(1)", "<?php ?>", "<![CDATA[x]]>", "| a | b |", "**x**", "`x`", "\u00a0x\u00a0",
    "www.a", "://b.com", "@b.com",
]  # fmt: skip
ROW = re.compile(
    r'<svg class="row" viewBox="[\d. ]+" style="width: [\d.]+mm"><text[^<>]*>([^<>]*)</text></svg>'
)
"""A row of a tag's words: how many there are goes by how long they are."""


class Elements(HTMLParser):
    """Every element with its attributes' names, in order, and every stretch of text."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, ...]] = []
        self.texts: list[str] = []
        self.attributes: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, *(name for name, _ in attrs)))
        self.attributes += [value or "" for _, value in attrs]

    def handle_endtag(self, tag: str) -> None:
        self.tags.append((f"/{tag}",))

    def handle_comment(self, data: str) -> None:
        self.tags.append(("!--", data))

    def handle_pi(self, data: str) -> None:
        self.tags.append(("?", data))

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def read(sheet: Sheet) -> Elements:
    found = Elements()
    found.feed(ROW.sub(r"\1", written(sheet, ".html").decode()))
    found.close()
    return found


def markdown_kinds(sheet: Sheet) -> list[str]:
    """What a reader of Markdown with tables makes of a sheet, plain words left out."""
    tokens = MarkdownIt("commonmark").enable("table").parse(written(sheet, ".md").decode())
    return [kind for one in tokens for kind in kinds(one)]


def kinds(one: Token) -> list[str]:
    """Elements: a piece of code may stand only between the parts of a mail address, where `md` puts it."""
    inner = one.children or ()
    found = [one.type if one.type != "inline" else ""]
    found += [each.type for each in inner if not (each.type == "code_inline" and set(each.content) == {"@"})]
    return [kind for kind in found if kind not in ("", "text", "text_special", "softbreak")]


def check_html(typed: str) -> None:
    plain, hostile = read(every_block(str)), read(every_block(lambda _: typed))
    assert hostile.tags == plain.tags
    shown = visible(typed)
    seen = "".join(hostile.texts)
    assert seen.count(shown) >= 40
    assert (
        sum(one == shown for one in hostile.attributes) >= 17
    )  # what a photo shows, and the head beside each cell
    assert not RAW.search(seen.replace("\n", ""))


def check_markdown(typed: str) -> None:
    plain = every_block(lambda _: "word") if typed.strip() else every_block(lambda _: "")
    assert but_stars(every_block(lambda _: typed)) == but_stars(plain)
    tokens = MarkdownIt("commonmark").parse(written(every_block(lambda _: typed), ".md").decode())
    assert words_of(tokens).count(visible(typed).strip(" ")) >= 40
    assert not RAW.search(written(every_block(lambda _: typed), ".md").decode())


def words_of(tokens: list[Token]) -> str:
    """The text as it is shown."""
    return "".join(words_of(one.children) if one.children else one.content for one in tokens)


def but_stars(sheet: Sheet) -> list[str]:
    """Words with a blank at an end have no stars round them."""
    return [one for one in markdown_kinds(sheet) if not one.startswith(("strong", "em"))]


def check_text(typed: str) -> None:
    found = written(every_block(lambda _: typed), ".txt").decode()
    assert not RAW.search(found)
    assert max(map(cells, found.splitlines())) <= COLUMNS
    assert re.sub(r"\s", "", visible(typed)) in re.sub(r"\s", "", found)


HOSTILE = [SPITE, *TEXTS.values(), *BREAKING_OUT]


@pytest.mark.parametrize("typed", HOSTILE)
def test_hostile_text_stays_text(typed: str) -> None:
    """In each of the three forms."""
    check_html(typed)
    check_markdown(typed)
    check_text(typed)


pieces = st.sampled_from(
    [*BREAKING_OUT, *"<>\"'&{}%#`*_[]()|~\\-+=@:/! \n\t\x00\u202e", "a", "1.", "    ", "---", "```"]
)


@settings(max_examples=20, derandomize=True, database=None)
@given(st.lists(pieces, min_size=1, max_size=7).map("".join))
@example(" ")
@example(LONG)
def test_any_mixture_stays_text(typed: str) -> None:
    """Whatever is put together of what HTML, CSS, Jinja and Markdown give a meaning."""
    check_html(typed)
    check_markdown(typed)
    check_text(typed)
