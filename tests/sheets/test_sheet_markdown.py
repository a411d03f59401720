"""What a person typed stays literal in the Markdown of the sheets, by two readers of Markdown and by the rule."""

from __future__ import annotations

import html
import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from jobtrack.literal import visible
from jobtrack.pages.paper import paper_lines
from jobtrack.sheets.markdown import md
from jobtrack.sheets.paper.blocks import Point, Points, Section, Sheet

# GitHub Flavored Markdown 0.29, 6.9 "Autolinks (extension)": what begins an extended www autolink or URL autolink
# (after a line's start, white space or one of * _ ~ parenthesis), and the extended email autolink.
WWW_OR_URL = re.compile(r"(?:^|[\s*_~(])(?:www\.[\w-]|(?:https?|ftp)://[\w-])", re.ASCII)
MAIL = re.compile(r"[A-Za-z0-9._+-]+@[A-Za-z0-9_-]+(?:\.[A-Za-z0-9_-]+)+")
ADDRESSES = [
    # The examples of GFM 6.9
    "www.commonmark.org", "Visit www.commonmark.org/help for more information.",
    "www.google.com/search?q=Markup+(business)",
    "http://commonmark.org", "(Visit https://encrypted.google.com/search?q=Markup+(business))", "foo@bar.baz",
    "hello@mail+xyz.example isn't valid, but hello+xyz@mail.example is.", "a.b-c_d@a.b",
    # and others that readers of Markdown take for one
    "WWW.shop.example", "ftp://shop.example/x", "mailto:foo@bar.baz", "xmpp:foo@bar.baz/txt", "//shop.com/x",
    "shop.com", "ask at yard.co.uk, or at a@yard.name.", "HTTPS://SHOP.COM", "@@a@b.cd@@", "x@`@`y.com", "a\\@b.com",
]  # fmt: skip
BLOCKS = [
    "    a note that is set in", "        twice", "\ta tab", "- dash", "---", "- - -", "-- ", "--", "+ plus", "* star",
    "***", "___",
    "1. one", "1) one", "12.", "===", "=", "= =", "# title", "> said", "~~~", "```", "| a | b |", "<b>", "<!-- x -->",
    "&amp;",
    "[a](b)", "![a](b)", "[a]: b", "\\", "a\\", "  two  ", "`a`", "**a**", "5 - 3", "-5 mm", ".5 in", "3.5 mm", "a\nb",
    "tack.left", "perch-shift.left_inboard", "e.g. this", "13:41", "M12x1.25 @ 80 N*m",
]  # fmt: skip


def shown(tokens: list[Token]) -> str:
    """The text of what was read, as it is shown."""
    return "".join(
        shown(one.children) if one.children else one.content for one in tokens if one.type != "softbreak"
    )


def texts(tokens: list[Token]) -> list[str]:
    """Each stretch of plain text between other things, its parts joined, as the rule's own reader takes it."""
    found = [""]
    for one in tokens:
        if one.type in ("text", "text_special"):
            found[-1] += one.content
        else:
            found.append("")
    return found


def wanted(typed: str) -> str:
    return visible(typed).strip(" ")


def as_written(typed: str) -> dict[str, str]:
    """Where a text stands in a sheet: in a list, in bold in one, in one in another, in a heading, in a sentence."""
    text = md(typed)
    return {"list": f"- {text}", "inner": f"- x\n  - y: {text}", "bold": f"- **x {text} x**",
            "heading": f"# Handover: {text}", "sentence": f"From {text} to x.\n{text}", "line": text}  # fmt: skip


def check(reader: MarkdownIt, typed: str) -> None:
    for where, written in as_written(typed).items():
        tokens = reader.parse(written)
        kinds = {one.type for one in tokens} | {child.type for one in tokens for child in one.children or ()}
        assert not kinds & {"code_block", "fence", "hr", "blockquote_open", "table_open", "html_block"}, where
        assert not kinds & {"link_open", "image", "html_inline", "em_open", "s_open", "hardbreak"}, where
        assert sum(one.type == "list_item_open" for one in tokens) == {"list": 1, "bold": 1, "inner": 2}.get(
            where, 0
        )
        assert wanted(typed) in shown(tokens), where
        for one in tokens:
            for text in texts(one.children or []):
                assert not MAIL.search(text), where
        assert not WWW_OR_URL.search(written), where


COMMON = MarkdownIt("commonmark")


@pytest.mark.parametrize("typed", [*ADDRESSES, *BLOCKS])
def test_a_text_stays_literal(typed: str) -> None:
    """No block, link or markup comes of it, and what is shown is what was typed."""
    check(COMMON, typed)


@pytest.mark.parametrize("typed", [*ADDRESSES, *BLOCKS])
def test_a_reader_that_looks_for_links_finds_none(typed: str) -> None:
    """The same for a reader with tables, strokes, and links made of whatever looks like an address."""
    pytest.importorskip("linkify_it", reason="in the extra dev")
    check(MarkdownIt("gfm-like"), typed)


@pytest.mark.parametrize("typed", [one for one in [*ADDRESSES, *BLOCKS] if one.strip()])
def test_the_app_shows_a_sheet_without_the_strokes(typed: str) -> None:
    """What keeps a text literal in Markdown isn't seen where the app shows the sheet."""
    sheet = Sheet("handover", "", (), (Section("", (Points((Point(f"x {typed} x"),)),)),))
    rows = [row.plain for row in paper_lines(sheet, 200)]
    assert " ".join(" ".join(rows).split()) == " ".join(f"- x {visible(typed)} x".split())


pieces = st.sampled_from(
    [*"`*_[]()<>#|~&\\-+.=@:/!1a \t\n", "www.", "http://", "a@b.com", "    ", "---", "x.com"]
)


@settings(max_examples=400, derandomize=True, database=None)
@given(st.lists(pieces, min_size=1, max_size=9).map("".join).filter(lambda text: wanted(text) != ""))
@example("`@`")
def test_any_mixture_stays_literal(typed: str) -> None:
    """Whatever is put together of what Markdown gives a meaning."""
    check(COMMON, typed)


def test_the_rule_itself_would_find_them() -> None:
    """The check can fail: unescaped, each example is a link by the rule or by the reader."""
    assert WWW_OR_URL.search("see www.commonmark.org")
    assert MAIL.search(html.unescape("foo&#64;bar.baz"))
    [_, inline, _] = COMMON.parse(r"foo\@bar.baz")
    assert MAIL.search("".join(texts(inline.children or [])))
