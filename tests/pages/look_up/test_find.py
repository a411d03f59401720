"""The rows of Find: everything has one, goes where it says, and fits on a line."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from jobtrack.job.compose import doing
from jobtrack.job.state.job import Job
from jobtrack.pages.look_up.find import (
    AGAIN,
    LISTS,
    NOT_WITHIN,
    OPEN,
    Do,
    Offer,
    Only,
    Row,
    Turn,
    all_rows,
    list_rows,
)
from jobtrack.pages.look_up.found import destination, enter_words, row_line, state_words
from jobtrack.pages.look_up.matching import matching
from jobtrack.pages.step.items import items
from jobtrack.units.chosen import METRIC_FIRST
from tests.support.builders import Copy, finish, given, marked, opens, read, surveyed, tick
from tests.support.job_fixtures import Make

OFFERS = [
    Offer("finish", "finish", "Finish the step", "f"),
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


def test_the_lists_stand_on_top_then_what_the_screen_does_then_the_step_at_hand() -> None:
    """While nothing is typed."""
    found = rows(surveyed().job, "mark.left")
    assert [one.name for one in found[:3]] == list(LISTS.values())
    assert [one.key for one in found[3:5]] == ["f", ""]
    assert [(one.what, one.side) for one in found[5:7]] == [("reading", "left"), ("check", "left")]


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
    said = {(one.what, one.name, one.side): state_words(copy.job, one) for one in rows(copy.job)}
    assert said["reading", "moved", "left"] == "outside, 30 mm"
    moved = next(
        one for one in rows(copy.job) if (one.what, one.name, one.side) == ("reading", "moved", "left")
    )
    assert state_words(copy.job, moved, METRIC_FIRST.turned) == "outside, 1.181 in"  # 30 mm / 25.4
    assert said["check", "Scribed line past the old and the new place?", "left"] == "yes"
    assert said["check", "Scribed line past the old and the new place?", "right"] == "not answered"
    assert said["known", "How the step is held", ""] == "clips"
    assert said["step", "Mark the new place", "left"] == "in hand"
    assert said["torque", "nuts", ""] == ""
    copy.call("nuts", lambda draft: doing.torque(draft, "nuts.1", "2"))
    nuts = next(one for one in rows(copy.job) if one.what == "torque")
    assert state_words(copy.job, nuts) == "1 of 2 final"


def test_a_part_that_nobody_planned_is_found_too() -> None:
    """By the words of whoever needed it."""
    copy = Copy()
    copy.call(None, lambda draft: doing.buying(draft, "split pin", "asked"))
    copy.call(None, lambda draft: doing.buying(draft, "split pin", "ordered"))
    found = [one for one in matching(rows(copy.job), "split") if one.what == "part"]
    assert [(one.name, state_words(copy.job, one)) for one in found] == [("split pin", "ordered")]


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
def test_every_row_is_one_line_that_fits(make: Make, width: int) -> None:
    """And where its name is cut, what Enter does says it whole."""
    job = make("half-done").job
    for row in rows(job, "mark.right"):
        drawn = row_line(job, row, width, chosen=True)
        assert cell_len(drawn.plain) <= width
        assert drawn.plain.startswith("▸ ")
        if "…" in drawn.plain and not isinstance(row.to, Only | Do) and row.what != "step":
            assert row.name in enter_words(job, row)


def test_words_of_people_stay_one_line() -> None:
    """A line feed or a terminal's control sequence in a condition is shown, not obeyed."""
    copy = Copy()
    copy.call(None, opens("first\nsecond \x1b[31m"))
    row = list_rows(copy.job, OPEN)[-1]
    assert "\n" not in row_line(copy.job, row, 76, chosen=False).plain
    assert "\x1b" not in row_line(copy.job, row, 76, chosen=False).plain
