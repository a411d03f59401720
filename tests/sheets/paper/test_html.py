"""What every sheet as HTML is held to, whatever stands on it: read back, and in a browser."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Literal

import pytest

from jobtrack.sheets.paper import html
from jobtrack.sheets.paper.blocks import Lines, Message, Paragraph, Section, Sheet, Table
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.sheets.words.hazards import WORST
from tests.sheets.paper.every_block import every_block
from tests.sheets.paper.test_hostile import read
from tests.support.browser import Printed, Word, faults, no_orphan_page, rendered
from tests.support.contrast import AA, RGB, contrast

LOOKS = (Path(html.__file__).parent / "sheet.css").read_text(encoding="utf-8")


def sheet(*blocks: object, title: str = "A sheet", new_page: bool = False) -> Sheet:
    return Sheet("job-card", title, ("By Wim.",), (Section("A part", blocks, new_page=new_page),))  # type: ignore[arg-type]


def page_of(one: Sheet) -> str:
    return written(one, ".html").decode()


def test_it_is_one_page_that_asks_for_nothing() -> None:
    """Its language, its width on a telephone, and a policy of its own that lets nothing come from elsewhere."""
    page = page_of(every_block(str))
    assert page.startswith('<!doctype html>\n<html lang="en-GB">')
    policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
    assert f'<meta http-equiv="Content-Security-Policy" content="{policy}">' in page
    assert '<meta name="viewport" content="width=device-width, initial-scale=1">' in page
    assert not re.search(r"<script|<link|@import|url\(|\bon\w+=|src=(?!\"data:)", page)
    assert "@page" in page
    assert not re.search(r"@page[^}]*\bsize\s*:", page)  # the paper is the printer's


def colour(name: str) -> RGB:
    found = re.search(rf"--{name}: #(..)(..)(..);", LOOKS)
    assert found
    red, green, blue = (int(each, 16) for each in found.groups())
    return red, green, blue


@pytest.mark.parametrize("signal", WORST)
def test_a_signal_word_reads_on_its_colour(signal: str) -> None:
    """By WCAG 2.2, 1.4.3; white on red and blue, black on orange and yellow, as ANSI Z535.4 has it (from memory)."""
    ink, panel = colour(f"{signal.lower()}-ink"), colour(signal.lower())
    assert ink == ((255, 255, 255) if signal in ("DANGER", "NOTICE") else (0, 0, 0))
    assert contrast(ink, panel) >= AA


@pytest.mark.parametrize("signal", WORST)
def test_a_panel_says_its_word_and_all_three_parts(signal: str) -> None:
    """The triangle stands before each but NOTICE, which is about property alone (ANSI Z535.4, from memory)."""
    page = page_of(sheet(Message(signal, "It can fall", "crushes a hand", "prop it")))
    [panel] = re.findall(
        r'<div class="message (\w+)" role="note">\n<p class="signal">(.*?)</p>', page, re.DOTALL
    )
    assert panel[0] == signal.lower()
    assert panel[1].endswith(f"<span>{signal}</span>")
    assert ("<svg" in panel[1]) == (signal != "NOTICE")
    shown = "".join(read(sheet(Message(signal, "It can fall", "crushes a hand", "prop it"))).texts)
    assert "It can fall.What it does: crushes a hand.How to avoid it: prop it." in shown


def test_an_unknown_signal_word_is_a_word_without_colour() -> None:
    """No class comes of a person's text."""
    page = page_of(sheet(Message('x" onload="y', "a", "b", "c")))
    assert '<div class="message other" role="note">' in page


def rows_of(printed: Printed, number: int) -> list[list[Word]]:
    """The words of a page row by row, from the top."""
    found: list[list[Word]] = []
    for word in sorted(printed.inside(printed.pages[number]), key=lambda one: (-round(one.bottom), one.left)):
        if found and abs(found[-1][0].bottom - word.bottom) < 3:
            found[-1].append(word)
        else:
            found.append([word])
    return found


def test_a_table_over_several_pages_has_its_head_on_each() -> None:
    """No row is parted by the end of a page, and no heading or head stands alone at the foot of one."""
    rows = tuple(
        (f"Line{number}", f"first{number} " + "and so on " * 25 + f"last{number}") for number in range(40)
    )
    printed = rendered(page_of(sheet(Table(("Number", "What was done"), rows))))
    assert len(printed.pages) > 2
    for number, page in enumerate(printed.pages):
        first = rows_of(printed, number)[0 if number else 3]
        assert " ".join(word.text for word in first) == "Number What was done"
        assert re.findall(r"first(\d+)", page.text) == re.findall(r"last(\d+)", page.text) != []


@pytest.mark.parametrize("kind", ["handover", "vehicle-record"])
def test_a_table_of_many_columns_is_as_wide_as_its_page(kind: Literal["handover", "vehicle-record"]) -> None:
    """In the large type too; short words stay whole where there is room for them."""
    head = ("Reading", "Wanted", "Measured", "Verdict", "Instrument", "By", "When", "Whose limit")
    row = ("Spring seats, left", "1012 ± 1.5 mm", "1011.4 mm", "within", "trammel/tape", "Maximilian", "15 May 15:40",
           "limit set in this template, no published source")  # fmt: skip
    one = Sheet(kind, "A sheet", (), (Section("Measured", (Table(head, (row,) * 12),)),), ("The end.",))
    page = page_of(one)
    assert faults(page) == []
    there = {word.text for word in rendered(page).pages[0].words}
    assert {"within", "template,", "seats,"} <= there
    assert kind == "handover" or {"trammel/tape", "Maximilian", "Instrument"} <= there


def test_a_heading_stays_with_what_follows() -> None:
    """The last row of a page is never a heading, and the last page is no orphan, however long the text above is."""
    for above in (31, 33, 35, 37, 39, 41):
        blocks = tuple(Paragraph(f"Row {number}.") for number in range(above))
        parts = tuple(Section(f"Heading {number}", (Paragraph("Three rows. " * 30),)) for number in range(4))
        one = Sheet("job-card", "A sheet", (), (Section("A part", blocks), *parts), ("The end.",))
        printed = rendered(page_of(one))
        for number in range(len(printed.pages)):
            assert rows_of(printed, number)[-1][0].text != "Heading"
        assert no_orphan_page(printed) == []


def test_lines_to_write_on_are_far_enough_apart() -> None:
    """At least 9 mm for a hand with a pencil. Common practice, no source."""
    page = page_of(sheet(Lines("What broke?", 3)))
    heights = [float(one) for one in re.findall(r"\.line \{ height: ([\d.]+)mm", LOOKS)]
    assert heights
    assert min(heights) >= 9
    assert page.count('<div class="line"></div>') == 3


def test_a_new_page_begins_where_it_is_wanted() -> None:
    """On paper."""
    assert len(rendered(page_of(sheet(Paragraph("x"), new_page=True))).pages) == 2
    assert len(rendered(page_of(sheet(Paragraph("x")))).pages) == 1


def test_a_title_can_break_out_of_no_style() -> None:
    """It stands at the foot of each page by a rule of the looks, each sign of it as its number."""
    page = page_of(sheet(title='Van "</style><b>\\ } * { display: none } é長🔧'))
    [looks] = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    assert re.search(r'content: "(?:[A-Za-z0-9]|\\[0-9a-f]{6})+"; font', looks)
    assert "none }" not in looks.replace(LOOKS, "")


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_same_sheet_is_the_same_bytes(ending: str) -> None:
    """Nothing but the sheet goes into it: no time, no machine."""
    assert written(every_block(str), ending) == written(every_block(str), ending)


def test_another_ending_is_refused() -> None:
    """With the endings that there are."""
    with pytest.raises(ValueError, match=r"'\.pdf'; one of \.html, \.md, \.txt does"):
        written(every_block(str), ".pdf")
