"""What is said before something is recorded: hours, days, what a swap moves, what a mark leaves, what is unsettled."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction

import pytest

from jobtrack import units
from jobtrack.job.compose import steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.asking.choices import numbered_choice, who_recorded
from jobtrack.pages.asking.hours import day_meant, hours_read, hours_words, worked_words
from jobtrack.pages.asking.look_again import step_heading, steps_to_look_at, why_lines
from jobtrack.pages.asking.spared import spared_lines
from jobtrack.pages.asking.swapped import swap_lines
from jobtrack.pages.asking.unsettles import unsettles
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import NOW

Make = Callable[[str], JobFile]
TODAY = date(2031, 5, 14)


@pytest.mark.parametrize(
    ("text", "hours"),
    [("2.5", Fraction(5, 2)), ("2,5", Fraction(5, 2)), ("2 h 30 min", Fraction(5, 2)), ("1:30", Fraction(3, 2)),
     ("45 min", Fraction(3, 4)), ("2h30", Fraction(5, 2)), ("1 h 05", Fraction(13, 12))],
)  # fmt: skip
def test_hours_are_read_as_people_write_them(text: str, hours: Fraction) -> None:
    """A bare number is in hours. Sixty minutes to the hour."""
    assert hours_read(text) == hours


@pytest.mark.parametrize("text", ["0", "-1", "soon", "", "3 kg", ">2"])
def test_what_are_no_hours(text: str) -> None:
    """Answered with what is wanted."""
    with pytest.raises((ValueError, units.UnitError)):
        hours_read(text)


def test_hours_are_said_both_ways() -> None:
    """In hours, and in hours and minutes; a third of an hour isn't a whole number of tenths."""
    assert hours_words(Fraction(5, 2)) == "2.5 h = 2 h 30 min"
    assert hours_words(Fraction(1, 3)) == "0.3333 h = 0 h 20 min"
    assert hours_words(Fraction(1, 7)) == "0.1429 h ≈ 0 h 9 min"


def test_days() -> None:
    """Nothing is today, a number so many days ago, also over the end of a month; else a date."""
    assert day_meant("", TODAY) == TODAY
    assert day_meant("Yesterday", TODAY) == date(2031, 5, 13)
    assert day_meant("1", TODAY) == date(2031, 5, 13)
    assert day_meant("14", TODAY) == date(2031, 4, 30)
    assert day_meant(" 2031-05-02 ", TODAY) == date(2031, 5, 2)
    with pytest.raises(ValueError, match="how many days ago"):
        day_meant("Friday", TODAY)


def test_all_of_the_hours_is_said_back_and_what_is_odd_about_it() -> None:
    """Whose, which weekday, how long ago; more than a day has, and a day to come, are asked about."""
    said = worked_words(Fraction(5, 2), "Wim", date(2031, 5, 12), TODAY)
    assert said == "2.5 h = 2 h 30 min by Wim on Monday 12 May 2031, 2 days ago."
    assert "more than a day has" in worked_words(Fraction(25), "Wim", TODAY, TODAY)
    assert "still to come" in worked_words(Fraction(2), "Wim", date(2031, 5, 15), TODAY)


def test_a_number_alone_is_what_it_stands_in_front_of() -> None:
    """Other numbers and words stand as typed, with their spaces tidied."""
    offered = ["Hob Tansley", "Mara Quill"]
    assert numbered_choice("2", offered) == "Mara Quill"
    assert numbered_choice("3", offered) == "3"
    assert numbered_choice("  Ada   Prosser ", offered) == "Ada Prosser"
    assert numbered_choice("²", offered) == "²"


def test_who_recorded_last_stands_first(make: Make) -> None:
    """Each once, as first typed."""
    file = make("half-done")
    names = who_recorded(file.job)
    last = file.job.view.entries[-1].by
    assert names[0] == last
    assert sorted(names) == sorted({one.by for one in file.job.view.entries})


def test_ids_of_added_steps() -> None:
    """Plain letters and digits with hyphens, no dot, and none that is there already."""
    assert steps.id_of("Free the seized nut", ()) == "free-the-seized-nut"
    assert steps.id_of("Bolt M10x1.25: out!", ()) == "bolt-m10x1-25-out"
    assert steps.id_of("Büchse prüfen", ()) == "buchse-prufen"
    assert steps.id_of("螺母", ()) == "step"
    assert steps.id_of("strip", ("strip", "strip-2")) == "strip-3"
    assert len(steps.id_of("x" * 300, ())) <= 40


def drafted(file: JobFile, step: str, fill: Callable[[Draft], object]) -> Draft:
    draft = Draft(file.job, "Hob Tansley", NOW, step)
    fill(draft)
    return draft


def test_what_a_number_would_unsettle_is_said_before(make: Make) -> None:
    """The step by its title and side, and the hold that it had; a number that moves nothing unsettles nothing."""
    file = make("half-done")
    made = drafted(file, "mark.left", lambda d: values.reading(d, "moved", ["20"]))
    said = unsettles(made.before, made.job)
    assert said.startswith("Recording it: Mark the new place (left): look again: ")
    assert "its hold was released before a change" in said
    assert "?." not in said
    assert "its target was" not in said  # it has moved by less than is said of it
    made = drafted(file, "mark.left", lambda d: values.reading(d, "moved", ["23.25"]))
    assert unsettles(made.before, made.job) == "Recording it unsettles nothing."


def test_what_is_to_be_looked_at_again_and_why(make: Make) -> None:
    """Every such step in the order of the plan, its reasons by name, and its hold."""
    file = make("half-done")
    assert steps_to_look_at(file.job) == []
    made = drafted(file, "mark.left", lambda d: values.reading(d, "moved", ["20"]))
    assert steps_to_look_at(made.job)[0] == "mark.left"
    why = why_lines(made.job, "mark.left")
    assert "20 mm" in why[0]
    assert why[-1].startswith("its hold point is released anew by somebody: ")
    assert step_heading(made.job, "mark.left", looked_at=False) == "Mark the new place (left) - left as it is"


def test_a_swap_says_what_each_side_gets(make: Make) -> None:
    """A line a reading that stands on either side; a side without one gets none."""
    file = make("half-done")
    lines = swap_lines(file.job, file.job.steps["mark.right"])
    assert lines == ["New edge from the old one, inboard: left gets 22.8 mm, right gets 23.2 mm"]
    assert swap_lines(file.job, file.job.steps["strip"]) == []


def test_a_step_not_needed_says_its_hold_and_what_stays_open(make: Make) -> None:
    """The hold that stops nothing any more, and what the step opened or would have closed."""
    file = make("half-done")
    lines = spared_lines(file.job, "mark.right")
    assert lines[0].startswith("Its hold point then stops nothing any more: Cut release")
    assert [text for text in lines[1:] if "KEEP THE MARKS" in text]
    assert all(text.startswith("Stays recorded as open: ") for text in lines[1:])
