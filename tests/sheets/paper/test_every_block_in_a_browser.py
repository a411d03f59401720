"""A sheet with every block, printed on A4 and Letter and shown on a telephone."""

from __future__ import annotations

import pytest

from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.paper.html import LONGEST_TITLE
from tests.sheets.paper.every_block import KINDS, every_block
from tests.support.browser import faults, nothing_cut_off, rendered, stands_by_itself
from tests.support.spiteful import SPITE


@pytest.mark.parametrize("kind", KINDS)
def test_every_block_is_whole(kind: str) -> None:
    """Nothing cut off, no orphan, contrast, headings in order, nothing asked for from elsewhere."""
    [one] = [each for each in KINDS if each == kind]
    assert faults(written(every_block(str, one), ".html")) == []


def test_each_printed_page_says_of_what_it_is() -> None:
    """The title and which page of how many stand at the foot of each."""
    printed = rendered(written(every_block(str), ".html"))
    assert len(printed.pages) > 1
    for number, page in enumerate(printed.pages, 1):
        foot = " ".join(word.text for word in page.words if word not in printed.inside(page))
        assert foot == f"Handover: flatbed, axle exchange page {number} of {len(printed.pages)}"


def test_the_longest_and_worst_texts_break_no_page() -> None:
    """Words without an end, wide and narrow, and what would break out, are cut at the foot and nowhere else."""
    printed = rendered(written(every_block(lambda text: f"{text} {SPITE} {'長' * 60} {'x' * 90}"), ".html"))
    assert stands_by_itself(printed) == []
    wide = [one for one in nothing_cut_off(printed) if "wider than its box" in one or "outside" in one]
    assert wide == []
    foot = " ".join(
        word.text for word in printed.pages[0].words if word not in printed.inside(printed.pages[0])
    )
    assert len(foot) < LONGEST_TITLE + 30
