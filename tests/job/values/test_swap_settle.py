"""Sides that were confused, and values that disagreed: what a swap and a settlement make count."""

from __future__ import annotations

from fractions import Fraction

import pytest

from jobtrack.job.compose import steps
from jobtrack.job.compose.refusal import Refused
from tests.support.builders import (
    DONOR,
    Copy,
    finish,
    given,
    marked,
    read,
    release,
    settle,
    surveyed,
    tick,
    undo,
)  # fmt: skip

LEFT, RIGHT = "mark.left", "mark.right"


def values(copy: Copy) -> tuple[object, object]:
    left, right = (copy.job.places.reading(step, "moved").written for step in (LEFT, RIGHT))
    return left, right


def both_sides() -> Copy:
    copy = surveyed()
    copy.call(LEFT, read("moved", "22.8"), finish)
    copy.call(RIGHT, read("moved", "24"), finish)
    return copy


def test_a_swap_changes_the_sides_of_the_readings() -> None:
    """After a swap each side has the other's reading, and both finished steps are to be looked at again."""
    copy = both_sides()
    copy.call(LEFT, steps.swap)
    assert values(copy) == (24.0, 22.8)
    assert [copy.job.state(step) for step in (LEFT, RIGHT)] == ["look again", "look again"]


def test_a_swap_can_be_undone_and_done_twice() -> None:
    """Undone, or swapped once more, every reading is back on its side and the steps stand."""
    for again in (undo, steps.swap):
        copy = both_sides()
        copy.call(LEFT, steps.swap)
        copy.call(LEFT if again is steps.swap else None, again)
        assert values(copy) == (22.8, 24.0)
        assert copy.job.state(LEFT) == "finished"


def test_a_swap_reaches_only_what_it_saw() -> None:
    """A reading taken elsewhere beside the swap stays on its side, in disagreement with the one that came over."""
    copy = both_sides()
    other = copy.split("other")
    copy.call(LEFT, steps.swap)
    other.call(LEFT, read("moved", "23.1"), by="Ada")
    copy.take(other)
    standing = copy.job.places.reading(LEFT, "moved")
    assert standing.agreed is False
    assert {done.entry.by for done in standing.acts} == {"Wim", "Ada"}
    assert copy.job.places.reading(RIGHT, "moved").value is not None


def test_a_reading_after_a_swap_stays_where_it_was_taken() -> None:
    """Measured again after the swap, the new value counts on its own side."""
    copy = both_sides()
    copy.call(LEFT, steps.swap)
    copy.call(LEFT, read("moved", "23.3"))
    assert values(copy) == (23.3, 22.8)


def test_a_swap_of_one_side_alone() -> None:
    """With one side measured, the swap leaves that side without a reading."""
    copy = surveyed()
    copy.call(LEFT, read("moved", "22.8"))
    copy.call(RIGHT, steps.swap)
    assert values(copy) == (None, 22.8)


def apart() -> Copy:
    copy = marked("22.8")
    other = copy.split("other")
    copy.call(DONOR, read("spacing", "1012.4"), finish)
    other.call(DONOR, read("spacing", "1016"), by="Ada")
    return copy.take(other)


@pytest.mark.parametrize(
    ("whose", "value", "state"), [("wim", 1012.4, "finished"), ("Ada", 1016.0, "look again")]
)
def test_settled_by_whose(whose: str, value: float, state: str) -> None:
    """Settled by whose it is, that value counts from then on, with all that follows from it."""
    copy = apart()
    copy.call(DONOR, settle("spacing", "", whose), by="Jo")
    assert copy.job.places.reading(DONOR, "spacing").written == value
    assert copy.job.state(LEFT) == state


def test_settled_by_a_third_value() -> None:
    """A settlement may name a value that neither had, in any unit of length."""
    copy = apart()
    copy.call(DONOR, settle("spacing", "40 in"), by="Jo")
    assert copy.job.places.reading(DONOR, "spacing").value == 1016


def test_a_settlement_wants_a_number_or_a_known_person() -> None:
    """Words settle no reading, and nobody's value can be chosen who recorded none."""
    copy = apart()
    with pytest.raises(Refused, match=r"settled by a number"):
        copy.call(DONOR, settle("spacing", "can't reach"))
    with pytest.raises(Refused, match=r"Jo recorded none of the values"):
        copy.call(DONOR, settle("spacing", "", "Jo"))


def test_two_settlements_apart_disagree() -> None:
    """A settlement stands as such an act: two that didn't know of each other disagree."""
    copy = apart()
    other = copy.split("other 2")
    copy.call(DONOR, settle("spacing", "1012"))
    other.call(DONOR, settle("spacing", "1016"))
    assert copy.take(other).job.places.reading(DONOR, "spacing").agreed is False


def test_a_measurement_after_the_settlement_counts() -> None:
    """Measured again with the settlement in sight, the measurement counts."""
    copy = apart()
    copy.call(DONOR, settle("spacing", "1012"))
    copy.call(DONOR, read("spacing", "1013"))
    assert copy.job.places.reading(DONOR, "spacing").value == 1013


def test_an_undone_settlement_leaves_the_disagreement() -> None:
    """With the settlement taken back both values stand against each other again."""
    copy = apart()
    copy.call(DONOR, settle("spacing", "1012"))
    copy.call(None, undo)
    assert copy.job.places.reading(DONOR, "spacing").agreed is False


def test_a_tick_is_settled_by_yes_or_no() -> None:
    """A check in disagreement is settled by an answer."""
    copy = surveyed()
    other = copy.split("other")
    copy.call(LEFT, tick("scribed"))
    other.call(LEFT, tick("scribed", yes=False))
    copy.take(other)
    copy.call(LEFT, settle("scribed", "yes"))
    standing = copy.job.places.tick(LEFT, "scribed")
    assert (standing.value, standing.agreed) == (True, True)


def test_a_vehicles_given_is_settled_by_its_short_name_too() -> None:
    """In a step of that vehicle its given goes by its own name, and the settlement ends the disagreement."""
    copy = Copy()
    other = copy.split("other")
    copy.call(None, given("donor.plate", "150"))
    other.call(None, given("donor.plate", "180"))
    copy.take(other)
    copy.call(DONOR, settle("plate", "180"))
    standing = copy.job.places.given("donor.plate")
    assert (standing.value, standing.agreed) == (180, True)


def test_a_settled_value_is_that_persons_repeats() -> None:
    """Settled by whose, repeats stay repeats: their mean counts, and a working-out that wants a list gets it."""
    copy = Copy()
    other = copy.split("other")
    copy.call("height", read("plate", "8.1", "8.2", "8.3"))
    other.call("height", read("plate", "9", "9", "9"), by="Ada")
    copy.take(other)
    copy.call("height", settle("plate", "", "Wim"))
    standing = copy.job.places.reading("height", "plate")
    assert standing.written == pytest.approx(8.2)
    assert standing.values == (Fraction("8.1"), Fraction("8.2"), Fraction("8.3"))
    assert copy.entries[-1].did[0].words() == "settled plate: 8.1; 8.2; 8.3, by Wim"


def test_a_hold_names_its_step_from_anywhere() -> None:
    """Settling beside a release in one call: the release stands on the settled value."""
    copy = apart()
    copy.call(DONOR, settle("spacing", "1012"), finish)
    copy.call(LEFT, release, by="Ada")
    hold = copy.job.hold(LEFT)
    assert hold is not None
    assert hold.state == "released"
