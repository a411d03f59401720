"""The card as a browser prints it: nothing cut off, and room to write by hand."""

from __future__ import annotations

from itertools import pairwise

import pytest
import tomli

from jobtrack.sheets.paper.blocks import Sheet
from jobtrack.sheets.paper.forms import written
from tests.sheets.job_card.test_empty_card import SHIPPED, card, read
from tests.support.browser import CHECKS, rendered
from tests.support.browser.printed import POINTS_IN_MM, Page, Paper, Printed
from tests.support.cli_calls import TEMPLATE

HAND = 9.0
"""Millimetres of a row to write in by hand; ruled paper for writing has 7 to 10 mm, common practice, no source."""
ROUNDED = 0.15


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_small_card_is_whole_and_has_room_to_write(paper: Paper) -> None:
    """Every check of a printed sheet; rows of yes and no stand as far apart as a hand needs."""
    data = tomli.loads(TEMPLATE.read_text(encoding="utf-8"))
    data["step"]["tack"]["tick"] |= {f"seen-{number}": {"ask": "Corner seen?"} for number in range(3)}
    sheet = card(data)
    printed = rendered(written(sheet, ".html"), paper)
    assert [fault for check in CHECKS for fault in check(printed)] == []
    assert titles_at_the_end(printed, sheet) == []
    apart = [gap for page in printed.pages for gap in answers_apart(page)]
    assert apart
    assert min(apart) >= HAND - ROUNDED


def titles_at_the_end(printed: Printed, sheet: Sheet) -> list[str]:
    """Titles below which nothing stands on their page."""
    titles = {one.title for stage in sheet.sections for one in (stage, *stage.sections)}
    ends = (" ".join(word.text for word in printed.inside(page)) for page in printed.pages)
    return [title for end in ends for title in titles if end.endswith(title)]


def answers_apart(page: Page) -> list[float]:
    """Millimetres from each row with boxes for yes and no to the next one below it, column by column."""
    columns: dict[int, list[float]] = {}
    for one, then in pairwise(page.words):
        if (one.text, then.text) == ("yes", "no"):
            columns.setdefault(round(one.left), []).append(one.bottom)
    rows = (sorted(column, reverse=True) for column in columns.values())
    return [(upper - lower) / POINTS_IN_MM for column in rows for upper, lower in pairwise(column)]


@pytest.mark.whole
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("template", SHIPPED)
def test_the_card_of_every_template_is_whole(template: str, paper: Paper) -> None:
    """Prints how many pages each has."""
    sheet = card(read(template))
    printed = rendered(written(sheet, ".html"), paper)
    print(f"{template}, {paper}: {len(printed.pages)} pages")
    assert [fault for check in CHECKS for fault in check(printed)] == []
    assert titles_at_the_end(printed, sheet) == []
