"""The page of the catalogue, read again by a Markdown parser that isn't ours."""

from __future__ import annotations

import re
from functools import cache

import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from jobtrack.sheets.catalogue_page import catalogue_markdown
from jobtrack.sheets.words import sentences as lines
from jobtrack.shopmath import catalogue
from jobtrack.shopmath.catalogue import WorkingOut, WorkingOutError, find, gives, takes
from jobtrack.workings.answers import answer
from jobtrack.workings.words import told

TOPICS = catalogue.by_topic()
NAMES = [name for names in TOPICS.values() for name in names]
PARSER = MarkdownIt("commonmark").enable("table")


def plain(token: Token) -> str:
    """The text of a block as a reader sees it, without its marks."""
    return "".join(child.content for child in token.children or [])


def blocks(page: str) -> list[tuple[str, str]]:
    """Each block of a page: its element, and its text."""
    found: list[tuple[str, str]] = []
    element = ""
    for token in PARSER.parse(page):
        if token.type == "code_block":
            found.append(("code", token.content.rstrip("\n")))
        elif token.type == "inline":
            found.append((element, plain(token)))
        elif token.nesting == 1:
            element = token.tag
    return found


@cache
def page() -> str:
    """All of the catalogue."""
    return catalogue_markdown()


@cache
def all_blocks() -> list[tuple[str, str]]:
    """Its blocks."""
    return blocks(page())


def entry(name: str) -> list[tuple[str, str]]:
    """The blocks between the heading of a working-out and the next heading."""
    read = all_blocks()
    start = read.index(("h3", name)) + 1
    ends = [place for place in range(start, len(read)) if read[place][0] in ("h2", "h3")]
    return read[start : min(ends, default=len(read))]


def cells(found: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The rows of the tables among some blocks."""
    texts = [text for element, text in found if element == "td"]
    return list(zip(texts[::2], texts[1::2], strict=True))


def test_each_working_out_stands_once_under_its_topic() -> None:
    """Topics and names stand in the order of the catalogue, all 81 of them."""
    headings = [text for element, text in all_blocks() if element in ("h2", "h3")]
    assert headings == [text for topic, names in TOPICS.items() for text in (topic, *names)]
    assert len(NAMES) == 81


def test_the_page_begins_and_ends_with_what_the_program_cannot_know() -> None:
    """The sentence of every job's beginning is the first and the last paragraph."""
    paragraphs = [text for element, text in all_blocks() if element in ("p", "em")]
    assert paragraphs[0] == lines.FIRST_WORD
    assert paragraphs[-1] == lines.FIRST_WORD


@pytest.mark.parametrize("name", NAMES)
def test_all_of_an_entry_reaches_the_reader_unchanged(name: str) -> None:
    """Formula, source, hazards, remarks and sentence are read as the catalogue has them."""
    work, found = find(name), [text for _, text in entry(name)]
    done = answer(name, work.example)
    assert work.source.strip()
    assert f"In words: {work.formula}." in found
    assert f"Source: {work.source}." in found
    assert {*work.hazards, *done.remarks, done.sentence()} <= set(found)


@pytest.mark.parametrize("name", NAMES)
def test_inputs_and_results_stand_with_their_units(name: str) -> None:
    """Each key has its unit or choices and its default; then come the example and its computed figures."""
    work, found = find(name), entry(name)
    done = answer(name, work.example)
    quantities = [(each.key, told(each)) for each in (*work.inputs, *work.results)]
    assert cells(found) == quantities + done.figures()
    assert [text for element, text in found if element == "code"] == [work.example_call()]


def test_each_link_has_a_heading() -> None:
    """What the list at the beginning points at is there."""
    headings = {text for element, text in all_blocks() if element in ("h2", "h3")}
    targets = re.findall(r"\]\(#([a-z-]+)\)", page())
    assert sorted(targets) == sorted([*TOPICS, *NAMES])
    assert set(targets) == headings


def test_one_working_out_alone() -> None:
    """With a name the page holds that one, between the same two sentences."""
    found = blocks(catalogue_markdown("joint-pair"))
    assert found[0] == ("h1", "Workings-out: joint-pair")
    assert found[1][1] == found[-1][1] == lines.FIRST_WORD
    assert [text for element, text in found if element == "h3"] == ["joint-pair"]
    assert all(block in found for block in entry("joint-pair"))


def test_an_unknown_name_is_refused() -> None:
    """The nearest name is told."""
    with pytest.raises(WorkingOutError, match="did you mean joint-pair"):
        catalogue_markdown("joint-pear")


AWKWARD = "a | b <i>*c*</i> `d` [e](f) # g _h_ ~i~ \\ & j\x1b[31m"


def test_awkward_characters_are_shown_as_they_are(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bars, stars, tags, links and control characters in an entry are text, in a table too."""
    perch = find("perch-shift")
    work = WorkingOut(
        perch.name, perch.topic, (takes("spacing_now", "mm"), takes("spacing_wanted", AWKWARD)),
        gives(left_inboard="mm", right_inboard="mm"), AWKWARD, AWKWARD, (AWKWARD,), (AWKWARD,),
        perch.example, perch.function, "{left_inboard} " + AWKWARD,
    )  # fmt: skip
    monkeypatch.setattr("jobtrack.sheets.catalogue_page.find", lambda name: work)
    found = blocks(catalogue_markdown("perch-shift"))
    shown = AWKWARD.replace("\x1b", "\u241b")
    assert ("h3", "perch-shift") in found
    assert f"In words: {shown}." in [text for _, text in found]
    assert f"Source: {shown}." in [text for _, text in found]
    assert [text for _, text in found].count(shown) >= 1
    assert cells(found)[1][0] == "spacing_wanted"
    assert "\x1b" not in catalogue_markdown("perch-shift")
