"""Lists taken apart, or refused with every reading that may be meant."""

from __future__ import annotations

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jobtrack.units import UnitError, list_items, unit_is_missing

TAKEN = [
    ("2, 3.5, 1.25", ("2", "3.5", "1.25")),
    ("2; 3.5; 1.25", ("2", "3.5", "1.25")),
    ("2,3.5", ("2", "3.5")),
    ("4.2,4,4.3", ("4.2", "4", "4.3")),
    ("30,60,90", ("30", "60", "90")),
    ("20, 5 kg", ("20", "5 kg")),
    ("1/2,3/4", ("1/2", "3/4")),
    ("1:30,2:15", ("1:30", "2:15")),
    ("2½,3", ("2½", "3")),
    ("20", ("20",)),
    ("4,,5", ("4", "", "5")),
    (" 4 ,", ("4", "")),
    ("90 kg @ 3.1 m, -40 kg @ 800 mm", ("90 kg @ 3.1 m", "-40 kg @ 800 mm")),
]


@pytest.mark.parametrize(("text", "items"), TAKEN)
def test_a_list_with_one_sign_between_its_items(text: str, items: tuple[str, ...]) -> None:
    """Commas or semicolons part the items, and a comma beside a space or a dotted number is no decimal comma."""
    assert list_items(text) == items


SEVERAL = [
    ("2,5; 3,5", ["2.5; 3.5 (2 items)", "2; 5; 3; 5 (4 items)"]),
    ("3,5; 5; 4,2", ["3.5; 5; 4.2 (3 items)", "3; 5; 5; 4; 2 (5 items)"]),
    ("20,5 kg, 18 kg", ["20.5 kg; 18 kg (2 items)", "20; 5 kg; 18 kg (3 items)"]),
    ("20,5", ["20.5 (1 item)", "20; 5 (2 items)"]),
    ("-2,5", ["-2.5 (1 item)", "-2; 5 (2 items)"]),
    ("2,5,3,5", ["2.5; 3.5 (2 items)", "2; 5; 3; 5 (4 items)"]),
    ("4.2, 5,3", ["4.2; 5.3 (2 items)", "4.2; 5; 3 (3 items)"]),
    ("90 @ 3,1", ["90 @ 3.1 (1 item)", "90 @ 3; 1 (2 items)"]),
    ("1,012, 1,014", ["1.012; 1.014 (2 items)", "1012; 1014 (2 items)", "1; 012; 1; 014 (4 items)"]),
    ("1,012.5", ["1012.5 (1 item)", "1; 012.5 (2 items)"]),
    ("1,012,500", ["1012500 (1 item)", "1; 012; 500 (3 items)"]),
]


@pytest.mark.parametrize(("text", "readings"), SEVERAL)
def test_a_list_with_several_meanings_is_refused(text: str, readings: list[str]) -> None:
    """A comma that may be that of a decimal or of thousands: every reading is shown as it can be typed."""
    with pytest.raises(UnitError) as caught:
        list_items(text)
    assert f"write {' or '.join(readings)}; in a list a decimal has its dot" in str(caught.value)


@pytest.mark.parametrize(
    ("text", "write"),
    [("20; 30, 40", "20; 30; 40"), ("332 lb @ 162 in; 58.8 lb, 5", "332 lb @ 162 in; 58.8 lb; 5")],
)
def test_two_signs_between_items_are_refused(text: str, write: str) -> None:
    """A semicolon beside a comma is refused though no comma can be a decimal's."""
    with pytest.raises(UnitError, match=f"two signs between its items: write {re.escape(write)};"):
        list_items(text)


def test_a_list_has_a_largest_length() -> None:
    """A list longer than anybody types is refused before it is taken apart."""
    with pytest.raises(UnitError, match="longer than 4000"):
        list_items("1, " * 2001)


typed_numbers = st.tuples(
    st.sampled_from(["", "-", "~"]),
    st.one_of(
        st.integers(0, 2000).map(str),
        st.tuples(
            st.integers(0, 2000), st.sampled_from(",."), st.sampled_from(["5", "25", "125", "012"])
        ).map(lambda parts: "".join(map(str, parts))),
    ),
    st.sampled_from(["", " mm", "in", " kg"]),
).map("".join)


@given(st.lists(typed_numbers, min_size=1, max_size=6), st.sampled_from([",", ", ", ";", "; "]))
def test_no_decimal_comma_parts_two_items(numbers: list[str], sign: str) -> None:
    """Whatever numbers stand in a list, each is an item as typed, or the list is refused.

    Decimal commas with bare commas between them are left out: nobody can read 1,5,2,5,3.
    """
    assume(sign != "," or not any("," in one for one in numbers))
    try:
        items = list_items(sign.join(numbers))
    except UnitError:
        return
    assert items == tuple(numbers)


@given(st.text(alphabet="0123456789,;. -/@kgm", max_size=60) | st.text(max_size=60))
def test_any_list_is_taken_apart_or_refused(text: str) -> None:
    """Any text gives as many items as it has separators and one, or a refusal of one printable line."""
    taken = _items_or_refusal(text)
    if isinstance(taken, str):
        assert taken.isprintable()
    else:
        assert len(taken) == text.count(",") + text.count(";") + 1


def _items_or_refusal(text: str) -> tuple[str, ...] | str:
    try:
        return list_items(text)
    except UnitError as error:
        return str(error)


@pytest.mark.parametrize(
    ("texts", "why"),
    [
        (("1.75", "0.375", "3 in"), "1.75 has no unit beside 3 in; give each item its unit"),
        (("30", "60", "100 %"), "30 has no unit beside 100 %; give each item its unit"),
        (("2 h", "1"), "1 has no unit beside 2 h; give each item its unit"),
        (("1:30", "2"), "2 has no unit beside 1:30; give each item its unit"),
        (("1:30", "2 h"), None),
        (("1", "2"), None),
        (("1 in", "2 mm"), None),
        ((), None),
    ],
)
def test_an_item_without_a_unit_beside_one_with(texts: tuple[str, ...], why: str | None) -> None:
    """Whether a bare number takes the unit of its neighbour or that of the box can't be told."""
    assert unit_is_missing(texts) == why
