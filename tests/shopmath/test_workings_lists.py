"""Typed lists of the workings-out: refused, or shown as they were read."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import WorkingOutError, by_topic, find
from jobtrack.units import UnitError, read, show
from jobtrack.workings.answers import answer, read_back, read_inputs

LISTS = [
    (name, quantity.key)
    for names in by_topic().values()
    for name in names
    for quantity in find(name).inputs
    if quantity.items
]

REFUSED = [
    ("sum-of-times", {"medians": "2,5; 3,5", "log_spreads": "0.4; 0.3"}, "medians", "2.5; 3.5 (2 items)"),
    ("learned-time", {"seen": "3,5; 5; 4,2"}, "seen", "3.5; 5; 4.2 (3 items)"),
    ("team-lift", {"each": "20,5 kg, 18 kg"}, "each", "20; 5 kg; 18 kg (3 items)"),
    ("u-bolt-leg", {"stack": "1.75, 0.375, 3 in"}, "stack", "1.75 has no unit beside 3 in"),
    ("axle-loads", {"items": "90 kg @ 3,1 m"}, "items", "90 kg @ 3.1 m (1 item)"),
    ("axle-loads", {"items": "90 kg @ 3 m, -40 @ 1 m"}, "items", "-40 has no unit beside 90 kg"),
    ("axle-loads", {"items": "90 @ 3 m, -40 @ 800"}, "items", "800 has no unit beside 3 m"),
    ("repeat-readings", {"readings": "4,2; 4,3", "resolution": "0.1"}, "readings", "4.2; 4.3 (2 items)"),
    ("torque-stages", {"shares": "30, 60, 100 %"}, "shares", "30 has no unit beside 100 %"),
]


@pytest.mark.parametrize(("name", "typed", "key", "says"), REFUSED)
def test_a_list_that_can_be_read_otherwise_is_refused(
    name: str, typed: dict[str, str], key: str, says: str
) -> None:
    """Every reading is shown in one line, or the item whose unit isn't known."""
    with pytest.raises(WorkingOutError, match=f"^{key}: .*{re.escape(says)}") as refusal:
        answer(name, find(name).example | typed)
    assert "\n" not in str(refusal.value)


@pytest.mark.parametrize(("name", "key"), LISTS)
def test_the_answer_shows_the_list_as_read(name: str, key: str) -> None:
    """Each list of the catalogue stands in the answer with its items and their number; read back alone too."""
    work = find(name)
    typed = {**work.example} if key in work.example else {**work.example, key: "30, 60, 100"}
    lines = [
        line
        for line in answer(name, typed).as_text().splitlines()
        if line.startswith(f"{key.replace('_', ' ')}, as read: ")
    ]
    assert len(lines) == 1
    count = len(re.split("[,;]", typed[key]))
    assert lines[0].endswith(f" ({count} item{'s' if count > 1 else ''}).")
    assert read_back(work, typed, key).removeprefix("= ") == lines[0].partition(": ")[2].removesuffix(".")


def test_the_items_are_shown_in_the_unit_they_count_in() -> None:
    """Inches and pounds stand as what they were read for, unrounded; pairs with their distance."""
    stack = answer("u-bolt-leg", {"stack": "3 in; 12 mm", "washer": "3", "nut": "14", "projection": "8"})
    assert "stack, as read: 76.2 mm, 12 mm (2 items)." in stack.as_text()
    loads = answer("axle-loads", {"wheelbase": "3 m", "items": "90 kg @ 1.5 m"})
    assert "items, as read: 90 kg @ 1500 mm (1 item)." in loads.as_text()


items = st.tuples(
    st.one_of(
        st.integers(1, 400).map(str),
        st.tuples(st.integers(0, 40), st.sampled_from(",."), st.sampled_from(["5", "25", "75", "125"])).map(
            lambda parts: "".join(map(str, parts))
        ),
        st.sampled_from(["1/2", "2 3/4", "1½"]),
    ),
    st.sampled_from(["", "", " kg", "lb"]),
).map("".join)


def _each(text: str) -> tuple[Fraction, ...] | None:
    """The list as it is taken; None where it is refused."""
    try:
        taken = read_inputs(find("team-lift"), {"each": text})["each"]
    except WorkingOutError:
        return None
    assert isinstance(taken, tuple)
    return taken


@given(st.lists(items, min_size=1, max_size=5), st.sampled_from([", ", ";", "; "]))
def test_a_list_is_refused_or_each_item_is_what_it_is_alone(numbers: list[str], sign: str) -> None:
    """Whatever stands in a list, a list that is taken holds what each item is in a plain input."""
    taken = _each(sign.join(numbers))
    if taken is not None:
        assert taken == tuple(read(one, "kg").value for one in numbers)


@given(
    st.lists(items, min_size=1, max_size=5),
    st.lists(st.sampled_from([",", ", ", ";", "; "]), min_size=5, max_size=5),
)
def test_a_list_is_refused_or_shown_as_it_was_read(numbers: list[str], signs: list[str]) -> None:
    """Whatever signs stand between the items, what is shown is what was taken, item by item."""
    text = "".join(f"{one}{sign}" for one, sign in zip(numbers, signs, strict=False))[
        : -len(signs[len(numbers) - 1])
    ]
    taken = _each(text)
    if taken is not None:
        shown = ", ".join(show(one, "kg") for one in taken)
        assert read_back(find("team-lift"), {"each": text}, "each").startswith(
            f"= {shown} ({len(taken)} item"
        )


@given(items)
def test_one_number_is_read_in_a_list_as_anywhere(number: str) -> None:
    """A list of one number is that number, or is refused where its comma may part two."""
    taken = _each(number)
    try:
        alone = read(number, "kg").value
    except UnitError:
        alone = None
    assert taken == ((alone,) if taken is not None else None)
    assert taken is not None or "," in number
