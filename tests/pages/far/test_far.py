"""The page of the far view: what has to be there is there, in rows and cells that there are."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from jobtrack.pages.far.large import SMALL, in_rows, large
from jobtrack.pages.far.last_recorded import Recorded
from jobtrack.pages.far.page import Far, far_lines
from jobtrack.pages.far.typed_large import mixed

OUTSIDE = Recorded("Toe, left", "4 mm", "outside", "1 ± 1 mm", "──━━┃")
WITHIN = Recorded("Toe, left", "1 mm", "within", "1 ± 1 mm", "──┃━━")
ASKED = Far("Set the toe: in hand", "right: Toe", "wanted: 1 ± 1 mm", ("with: rule",), unit="mm")
SIZES = [(76, 17), (76, 12), (56, 10), (116, 33), (196, 52)]


def plain(shown: Far, width: int, rows: int) -> list[str]:
    return [one.plain.rstrip() for one in far_lines(shown, width, rows)]


def has(page: list[str], drawn: list[str]) -> bool:
    """Whether rows of large characters stand on the page, one under the other."""
    wanted = [row.rstrip() for row in drawn]
    return any(
        all(there.startswith(row) for there, row in zip(page[at : at + len(wanted)], wanted, strict=True))
        for at in range(len(page) - len(wanted) + 1)
    )


@pytest.mark.parametrize(("width", "rows"), SIZES)
def test_what_is_typed_stands_in_large_digits_with_its_unit_in_words(width: int, rows: int) -> None:
    """At least five rows high; without a unit behind it the template's, with one that."""
    page = plain(
        Far("Set the toe: in hand", "right: Toe", "wanted: 1 ± 1 mm", typed="1/16", unit="mm"), width, rows
    )
    assert any(has(page, large("1/16", size)) for size in (1, 2, 3, 4))
    assert "millimetres" in page
    assert len(page) <= rows
    typed = plain(Far("Set the toe: in hand", "right: Toe", typed="1/16 in", unit="mm"), width, rows)
    assert "inches" in typed


@pytest.mark.parametrize(("width", "rows"), SIZES)
@pytest.mark.parametrize("recorded", [OUTSIDE, WITHIN, None])
def test_it_fits_and_says_what_is_asked(width: int, rows: int, recorded: Recorded | None) -> None:
    """The name in large letters or spaced capitals, what is wanted, what was recorded last: in the rows there are."""
    shown = Far(
        ASKED.title, ASKED.what, ASKED.wanted, ASKED.more, recorded=recorded, tags=("ON STANDS", "AXLE OUT")
    )
    page = plain(shown, width, rows)
    assert len(page) == rows
    assert all(len(row) <= width for row in page)
    letters = [in_rows(ASKED.what, size, width) for size in (SMALL, 1, 2)]
    assert "R I G H T :   T O E" in page or any(has(page, one) for one in letters if one)
    assert any("wanted:" in row for row in page)
    assert any("Recorded last: Toe, left" in row for row in page) == (recorded is not None)
    assert ("─" * width in page) == (recorded is not None)


def asked_and_recorded(rows: int, width: int = 76) -> tuple[list[str], list[str]]:
    """The page below and above the rule across, in so many rows."""
    page = plain(Far("T: in hand", "right: Toe", "wanted: 1 ± 1 mm", recorded=OUTSIDE), width, rows)
    across = page.index("─" * width)
    return page[across + 1 :], page[:across]


BESIDE = [
    f"{one}   {other}" for one, other in zip(mixed("4 mm", SMALL), large("outside", SMALL), strict=True)
]
"""The word for where it lies beside the value, as large as they come."""


@pytest.mark.parametrize("rows", range(7, 40))
def test_what_was_recorded_stands_above_a_rule_with_its_name_and_the_word_beside_its_value(rows: int) -> None:
    """Read from across the shop, an *outside* belongs to its own name and value, not to the next question."""
    asked, recorded = asked_and_recorded(rows)
    said = " ".join(recorded)
    loud = has(recorded, BESIDE)
    assert "Recorded last: Toe, left" in said
    assert loud or "Recorded last: Toe, left: 4 mm OUTSIDE, wanted 1 ± 1 mm" in said
    assert not has(asked, BESIDE)
    assert not any("OUTSIDE" in row or "Recorded" in row for row in asked)
    assert not asked[0]


def test_with_room_the_word_stands_large_beside_its_value_and_with_few_rows_it_shrinks_first() -> None:
    """What is asked stays large."""
    assert has(asked_and_recorded(20)[1], BESIDE)
    asked, recorded = asked_and_recorded(10)
    name = in_rows("right: Toe", SMALL, 76)
    assert name is not None
    assert has(asked, name)
    assert not has(recorded, BESIDE)


def test_more_room_makes_it_larger() -> None:
    """What is typed takes five rows more in each size, as far as the page is high and wide."""
    highest = [
        next(
            size
            for size in (4, 3, 2, 1)
            if has(plain(Far("T", "Toe", typed="23", unit="mm"), 196, rows), large("23", size))
        )
        for rows in (13, 20, 30, 40)
    ]
    assert highest == sorted(highest)
    assert highest[0] < highest[-1]


def test_units_stay_as_they_are_written() -> None:
    """Numbers are drawn, letters stand at their foot: mm never becomes MM."""
    rows = mixed("12 mm", 1)
    assert rows[-1].endswith(" mm")
    assert "mm" not in "".join(rows[:-1])
    assert mixed("21 °C", 1)[-1].endswith(" °C")
    assert not mixed("12° 30'", 1)[-1].endswith("'")


@example("\N{MATHEMATICAL BOLD DIGIT ZERO}", 20, 3)
@example("\N{ARABIC-INDIC DIGIT FIVE}", 20, 3)
@given(st.text(max_size=30), st.integers(20, 200), st.integers(3, 60))
def test_whatever_is_typed_is_shown(text: str, width: int, rows: int) -> None:
    """No text makes it fail, digits of other writings neither, and none makes a row wider than the page."""
    for line in far_lines(Far("T: in hand", "Toe", "wanted: 1 mm", typed=text, unit="mm"), width, rows):
        assert len(line.plain) <= width


def test_what_is_asked_is_large_unless_an_amount_stands_in_it() -> None:
    """A bolt's number is drawn; a question with millimetres in it stays as it is written."""
    drawn = in_rows("bolt 1 of 4, stage 1 of 3", SMALL, 76)
    assert drawn is not None
    assert has(plain(Far("T: in hand", "bolt 1 of 4, stage 1 of 3"), 76, 12), drawn)
    assert "It has 24.5 mm. Now: 23 mm." in plain(Far("T: in hand", "It has 24.5 mm. Now: 23 mm."), 76, 12)


def test_with_many_rows_a_long_question_leaves_room_for_the_word_beside_the_value() -> None:
    """It is large, but not so large that what was recorded has to be small."""
    page = plain(
        Far("T: in hand", "right: Toe of the front wheel before the clamp", recorded=OUTSIDE), 196, 36
    )
    assert has(page, BESIDE)
    assert any(has(page, one) for size in (SMALL, 1)
               if (one := in_rows("right: Toe of the front wheel before the clamp", size, 196)))  # fmt: skip


def test_the_step_is_no_larger_than_what_is_asked() -> None:
    """A question too long to be large stands under a small heading; where it is large the heading may be."""
    title = in_rows("Set the toe: in hand", SMALL, 76)
    assert title is not None
    long = "Punch marks and scribed line reach past the old and the new place on either side of the axle?"
    assert "Set the toe: in hand" in plain(Far("Set the toe: in hand", long), 76, 17)
    assert has(plain(Far("Set the toe: in hand", "Toe"), 76, 17), title)


@pytest.mark.parametrize("rows", range(6, 30))
def test_the_step_keeps_its_name_while_something_is_asked_in_between(rows: int) -> None:
    """A number typed where a check stands is asked about with the step's name above."""
    page = plain(Far("Set the toe: in hand", "A number can't be recorded here.", recorded=OUTSIDE), 76, rows)
    title = in_rows("Set the toe: in hand", SMALL, 76)
    assert title is not None
    assert "Set the toe: in hand" in page or has(page, title)
