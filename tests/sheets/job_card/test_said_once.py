"""What a card says of a step it says once: what it goes by, what isn't known yet, and what two members share."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from jobtrack.sheets.paper.blocks import Inline, Message, Paragraph, Section, Sheet, Strong, Table
from tests.sheets.job_card.reading_cards import ids_of, plain, strong, takes_of
from tests.sheets.job_card.test_empty_card import SHIPPED, card, read
from tests.sheets.job_card.test_filled_card import card as filled
from tests.sheets.job_card.test_filled_card import sample


def cards(sheet: Sheet) -> dict[tuple[str, ...], Section]:
    """The cards of steps by the ids on them."""
    return {tuple(ids_of(one)): one for stage in sheet.sections for one in stage.sections}


def said(section: Section) -> list[str]:
    return [plain(one.text) for one in section.blocks if isinstance(one, Paragraph)]


@pytest.mark.parametrize("template", SHIPPED)
def test_no_paragraph_stands_twice_on_a_card(template: str) -> None:
    """Nor does a step of two say its notes of each, unless they differ."""
    for ids, section in cards(card(read(template))).items():
        labels = [one for one in said(section) if not re.search("Hold point|Go or stop", one)]
        assert [one for one, times in Counter(labels).items() if times > 1] == [], ids


@pytest.mark.parametrize("template", SHIPPED)
def test_what_isnt_known_is_named_at_one_place(template: str) -> None:
    """A given that a limit waits for stands below the table, one of a branch with its branch; neither above it too."""
    for ids, section in cards(card(read(template))).items():
        takes = takes_of(section)
        assert "not known yet" not in plain(takes)
        names = re.findall("“([^”]*)”", after(takes, "Not known yet: "))
        assert len(names) == len(set(names)), ids
        below = [one for one in said(section) if "comes from" in one or one.startswith("Only where")]
        assert [name for name in names if any(f"“{name}”" in one for one in below)] == [], ids


def after(text: tuple[Inline, ...], label: str) -> str:
    """What stands behind a label in a row of words."""
    return str(text[text.index(Strong(label)) + 1]) if Strong(label) in text else ""


def test_what_is_known_has_its_value_and_the_rest_is_said_in_one_go() -> None:
    """The rating that each part of the axle carries, three of them not known by anybody so far."""
    found = cards(filled(sample("axle-exchange-half-done")))["weights.recipient",]
    takes = takes_of(found)
    known, unknown = after(takes, "Goes by: "), after(takes, "Not known yet: ")
    assert "Rear axle load on its plate (recipient): 1350 kg (2976 lb)" in known
    assert "Front axle load on its plate" not in known  # the table has it: it is itself the limit
    assert len(re.findall("“[^”]*”", unknown)) == 3
    assert " and “" in unknown


def test_two_members_stand_on_one_card_and_what_differs_by_whose_it_is() -> None:
    """Hazards and words once, a column for the answers of each; of the limits that differ each with its own."""
    sheet = card(read("axle-exchange"))
    found = cards(sheet)["tack.left", "tack.right"]
    hazards = [one for one in found.blocks if isinstance(one, Message)]
    assert len(hazards) == len(set(hazards))
    tables = [one for one in found.blocks if isinstance(one, Table)]
    assert tables[0].head[2:] == (
        "left: measured", "left: where it lies; who, when", "right: measured", "right: where it lies; who, when",
    )  # fmt: skip
    weights = cards(sheet)["weights.recipient", "weights.donor"]
    wanted = next(one for one in weights.blocks if isinstance(one, Table)).rows[0][1]
    assert strong(wanted) == "recipient: donor: "


def test_a_member_that_isnt_needed_leaves_the_other_a_card_of_its_own() -> None:
    """The loose axle isn't weighed."""
    assert ("weights.recipient",) in cards(filled(sample("axle-exchange-half-done")))
