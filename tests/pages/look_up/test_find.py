"""The entries of the index: everything has one, in the order of letters, goes where it says, and is never cut."""

from __future__ import annotations

import re

import pytest
from rich.cells import cell_len

from jobtrack.job.compose import doing
from jobtrack.job.state.job import Job
from jobtrack.pages.look_up.find import (
    AGAIN,
    NOT_WITHIN,
    OPEN,
    Offer,
    Only,
    Row,
    Turn,
    all_rows,
    filed_under,
    list_rows,
)
from jobtrack.pages.look_up.found import destination, enter_words, entry_lines, where_words
from jobtrack.pages.look_up.matching import matching
from jobtrack.pages.step.items import items
from jobtrack.pages.typeset import shortened
from jobtrack.pages.wording import of_member
from jobtrack.units.chosen import METRIC_FIRST
from tests.support.builders import Copy, finish, given, marked, opens, read, surveyed, tick
from tests.support.job_fixtures import Make

OFFERS = [
    Offer(
        "finish", "Finish the step", "Finish the step. Where something is left it says what", "f", "finish"
    ),
    Offer("labour_hours", "Labour hours", "Labour hours of this job"),
]


def rows(job: Job, here: str | None = None) -> list[Row]:
    return all_rows(job, job.steps[here] if here else None, OFFERS)


def by(found: list[Row], what: str) -> list[str]:
    """The names of the rows of a kind, with their side."""
    return [f"{one.name} {one.side}".strip() for one in found if one.what == what]


def test_every_thing_of_a_template_has_its_row_once() -> None:
    """Steps, readings, checks, torque lines, what is known, by the names that people give them."""
    job = Copy().job
    found = rows(job)
    steps = job.steps.values()
    assert len(by(found, "step")) == len(job.steps)
    assert len(by(found, "reading")) == sum(len(one.step.reading) for one in steps)
    assert len(by(found, "check")) == sum(len(one.step.tick) for one in steps)
    assert by(found, "torque") == ["nuts"]
    assert len(by(found, "known")) == len(job.plan.givens)
    assert "spacing donor" in by(found, "reading")
    assert len(set(map(str, (one.to for one in found)))) == len(found)


def test_the_lists_stand_first_then_all_else_in_the_order_of_letters() -> None:
    """Whatever it is; an article in front doesn't count, as at the back of a book."""
    copy = surveyed()
    copy.call(None, opens("A jack leaks"))
    found = rows(copy.job, "mark.left")
    assert [one.to for one in found[:3]] == [Only(OPEN), Only(NOT_WITHIN), Only(AGAIN)]
    assert [one.name for one in found[:3]] == [
        "See what is open", "See readings outside, or too close to call", "See steps to look at again",
    ]  # fmt: skip
    filed = [filed_under(one) for one in found[3:]]
    assert filed == sorted(filed)
    assert "jack leaks" in filed
    assert {"do", "open", "step", "reading", "check", "known"} <= {one.what for one in found}


def test_the_lists_say_how_many_they_have() -> None:
    """None recorded is no all-clear."""
    copy = marked("22.8")
    assert [where_words(copy.job, one) for one in rows(copy.job)[1:3]] == ["none recorded", "none recorded"]
    copy.call("pin-spacing.donor", read("spacing", "1015"))
    copy.call("pin-spacing.donor", finish)
    many = [len(list_rows(copy.job, list)) for list in (OPEN, NOT_WITHIN, AGAIN)]
    assert [where_words(copy.job, one) for one in rows(copy.job)[:3]] == [str(one) for one in many]
    assert many[1:] == [1, 1]


def test_of_two_sides_the_one_at_hand_comes_first() -> None:
    """Steps and lines alike; the order of the work decides among the rest."""
    job = surveyed().job
    for side in ("left", "right"):
        found = matching(rows(job, f"mark.{side}"), "slope")
        assert next(one.side for one in found if one.name == "slope") == side
        assert (
            next(one.side for one in matching(rows(job, f"mark.{side}"), "tack") if one.what == "step")
            == side
        )


def test_a_row_goes_to_its_step_and_its_line() -> None:
    """The line is the one that an answer would go to; a reading that is worked out has none."""
    job = surveyed().job
    for row in rows(job):
        if isinstance(row.to, Turn) and row.what in ("reading", "check"):
            step, number = destination(job, row.to)
            assert step == row.to.step
            lines = items(job, job.steps[step])
            worked_out = row.what == "reading" and job.steps[step].step.reading[row.to.name].from_ is not None
            assert number is None if worked_out else lines[number or 0].name == row.to.name


def test_something_known_goes_to_the_first_step_that_asks_it() -> None:
    """And where none does it says so."""
    job = Copy().job
    held = next(one for one in rows(job) if one.what == "known" and one.name == "How the step is held")
    assert isinstance(held.to, Turn)
    assert destination(job, held.to)[0] == "clips"
    there = next(one for one in rows(job) if one.name == "Is the owner there?")
    assert isinstance(there.to, Turn)
    assert destination(job, there.to) == (None, None)
    assert "belongs to no step" in enter_words(job, there)


def test_each_state_is_what_is_recorded() -> None:
    """A reading with where it lies, a check with its answer, a part with its buying."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "30"), tick("scribed"))
    copy.call(None, given("retention", "clips"))
    said = {(one.what, one.name, one.side): where_words(copy.job, one) for one in rows(copy.job)}
    assert said["do", "Finish the step", ""] == "press f"
    assert said["do", "Labour hours", ""] == "Enter does it"
    order = list(copy.job.steps)
    left, right = (f"step {order.index(f'mark.{side}') + 1}" for side in ("left", "right"))
    assert said["reading", "moved", "left"] == f"{left}, 30 mm, outside"
    moved = next(
        one for one in rows(copy.job) if (one.what, one.name, one.side) == ("reading", "moved", "left")
    )
    assert where_words(copy.job, moved, METRIC_FIRST.turned) == f"{left}, 1.181 in, outside"  # 30 mm / 25.4
    assert said["check", "Scribed line past the old and the new place?", "left"] == f"{left}, yes"
    assert said["check", "Scribed line past the old and the new place?", "right"] == right
    assert said["known", "How the step is held", ""] == f"step {order.index('clips') + 1}, clips"
    assert said["known", "Is the owner there?", ""].startswith("what is known")
    assert said["step", "Mark the new place", "left"] == f"{left}, in hand"
    assert said["torque", "nuts", ""] == f"step {order.index('nuts') + 1}"
    copy.call("nuts", lambda draft: doing.torque(draft, "nuts.1", "2"))
    nuts = next(one for one in rows(copy.job) if one.what == "torque")
    assert where_words(copy.job, nuts) == f"step {order.index('nuts') + 1}, 1 of 2 final"


def test_a_part_that_nobody_planned_is_found_too() -> None:
    """By the words of whoever needed it."""
    copy = Copy()
    copy.call(None, lambda draft: doing.buying(draft, "split pin", "asked"))
    copy.call(None, lambda draft: doing.buying(draft, "split pin", "ordered"))
    found = [one for one in matching(rows(copy.job), "split") if one.what == "part"]
    assert [(one.name, where_words(copy.job, one)) for one in found] == [("split pin", "parts, ordered")]


def test_the_three_lists() -> None:
    """What is open, what lies outside, what is to be looked at again; each empty where there is nothing."""
    copy = marked("22.8")
    assert list_rows(copy.job, NOT_WITHIN) == list_rows(copy.job, AGAIN) == []
    copy.call("pin-spacing.donor", read("spacing", "1015"))
    copy.call("pin-spacing.donor", finish)
    assert [(one.name, one.side) for one in list_rows(copy.job, NOT_WITHIN)] == [("moved", "left")]
    assert [(one.name, one.side) for one in list_rows(copy.job, AGAIN)] == [("Mark the new place", "left")]
    copy.call(None, opens("Jack leaks"))
    assert "Jack leaks" in [one.name for one in list_rows(copy.job, OPEN)]
    assert len(list_rows(copy.job, OPEN)) == len(copy.job.open_conditions)


@pytest.mark.parametrize("width", [36, 76, 116, 196])
def test_no_entry_is_cut_and_dots_lead_to_where_it_is(make: Make, width: int) -> None:
    """Each name stands whole, in as many rows as it takes; its last row ends in the key or the step.

    What is recorded there is cut only where it alone is wider than the page.
    """
    job = make("half-done").job
    for row in rows(job, "mark.right"):
        drawn = [one.plain for one in entry_lines(job, row, width, chosen=True)]
        assert all(cell_len(one) <= width for one in drawn)
        assert drawn[0].startswith("▸ ")
        where = shortened(where_words(job, row), width - 10)
        assert re.search(r" \. {1,2}$", drawn[-1].removesuffix(where))
        whole = " ".join(" ".join(drawn).split())
        assert whole.startswith(f"▸ {of_member(row.name, row.side or None)} . .")
        assert "…" not in whole.removesuffix(where) or "…" in row.name


def test_dots_stand_under_each_other() -> None:
    """In the same columns from entry to entry, whatever is on either side."""
    job = surveyed().job
    drawn = [entry_lines(job, row, 76, chosen=False)[-1].plain for row in rows(job)]
    assert {dot.start() % 2 for one in drawn for dot in re.finditer(r"(?<= )\.(?= )", one)} == {1}


def test_words_of_people_are_shown_not_obeyed_and_leave_room_for_others() -> None:
    """A line feed or a terminal's control sequence in a condition; one of 10,000 letters takes some rows only."""
    copy = Copy()
    copy.call(None, opens("first\nsecond \x1b[31m"))
    copy.call(None, opens("long " * 2000))
    for row in list_rows(copy.job, OPEN):
        drawn = entry_lines(copy.job, row, 76, chosen=False)
        assert not {"\n", "\x1b"} & set("".join(one.plain for one in drawn))
        assert len(drawn) <= 7
        if len(drawn) == 7:
            assert row.name in enter_words(copy.job, row)
