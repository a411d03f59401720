"""What a few letters mean: the best first, nothing lost that holds them, nothing taken that hasn't got them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from msgspec import Struct

from jobtrack.pages.look_up.matching import matching, plain


class Thing(Struct, frozen=True):
    """Something with a name and more words about it."""

    title: str
    words: str


def thing(name: str, more: str = "") -> Thing:
    return Thing(plain(name), plain(name) + plain(more))


def found(text: str, *names: str) -> list[str]:
    """The names that match, as `plain` gives them, without the space in front."""
    return [one.title.strip() for one in matching([thing(name) for name in names], text)]


def test_the_name_that_begins_so_is_first_then_words_then_inside() -> None:
    """The order given decides only between equals."""
    names = ("Sweep the pad", "Unpadded", "Slope of the pads", "Pad to pin")
    assert found("pad", *names) == ["pad to pin", "sweep the pad", "slope of the pads", "unpadded"]


def test_a_name_comes_before_what_else_is_said() -> None:
    """A reading of that name before one whose step has it."""
    rows = [thing("Gap", "in the step Spacing"), thing("Pin spacing")]
    assert [one.title for one in matching(rows, "spac")] == [" pin spacing", " gap"]


def test_several_words_may_come_in_any_order() -> None:
    """Each has to be there."""
    assert found("pin pad", "Pad to pin", "Pad alone") == ["pad to pin"]


def test_one_letter_is_the_beginning_of_a_word() -> None:
    """Inside a word it would mean nearly everything."""
    assert found("o", "Bolt", "The other", "Oil") == ["oil", "the other"]


def test_letters_in_order_only_where_nothing_holds_them_together() -> None:
    """The closest first; they begin where a word begins."""
    assert found("trq", "Turn it, quickly", "Torque", "Extra quarter") == ["torque", "turn it quickly"]
    assert found("tor", "Torque", "Turn or not") == ["torque"]


def test_case_accents_marks_and_hyphens_make_no_difference() -> None:
    """As they are typed with gloves on."""
    assert found("crème U bolt", "U-bolt, CREME") == ["u bolt creme"]
    assert found("u-b", "U_BOLTS") == ["u bolts"]


def test_nothing_typed_is_all_of_it_and_nonsense_is_nothing() -> None:
    """Blanks and marks alone are nothing typed."""
    assert found("  - ", "b", "a") == ["b", "a"]
    assert found("zzz", "b", "a") == []
    assert found("[/x]\x1b (", "b") == []


NAMES = st.lists(st.text(st.sampled_from("abc -É"), max_size=12), max_size=12)


@given(NAMES, st.text(st.sampled_from("abc -É[\\"), max_size=5))
def test_what_is_found_is_a_part_of_what_was_there_each_once(names: list[str], text: str) -> None:
    """Every row that holds all typed words is found, whatever else is; more letters never find more."""
    rows = [Thing(f"{plain(name)} {number}", plain(name)) for number, name in enumerate(names)]
    left = list(matching(rows, text))
    assert len({id(one) for one in left}) == len(left)
    assert all(any(one is row for row in rows) for one in left)
    words = plain(text).split()
    holds = [one for one in rows if all(f" {word}" in one.words for word in words)]
    assert all(one in left for one in holds)


@given(st.text(max_size=30))
def test_plain_text_is_one_space_before_each_word(text: str) -> None:
    """And again it stays as it is."""
    once = plain(text)
    assert once == " " + " ".join(once.split())
    assert plain(once) == once
