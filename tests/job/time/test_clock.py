"""Time worked: whose, on which step, and what the clock's acts do to it. Sums: arithmetic only."""

from __future__ import annotations

import pytest

from jobtrack.job.about import About
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.state.job import Job
from jobtrack.job.time.clock import Stretch, Times, hours_by, times, without_overlap
from jobtrack.job.time.runs import Span
from tests.support.builders import DONOR, RECIPIENT, Copy, Do, about, clock, minutes, note, read, tick, undo
from tests.support.said import time_problems

Line = tuple[float, str | None, Do]
"""Hours after eight, the step, what."""


def worked(*lines: Line, by: str = "Wim", copy: Copy | None = None) -> Copy:
    """A copy with one person's entries at these hours."""
    copy = copy or Copy()
    for hour, step, do in lines:
        copy.call(step, do, by=by, at=minutes(60 * hour))
    return copy


def by_step(copy: Copy) -> dict[str, float]:
    return hours_by(without_overlap(times(copy.job).stretches), "step")


def by_person(copy: Copy) -> dict[str, float]:
    return hours_by(without_overlap(times(copy.job).stretches), "person")


ON, OFF, BREAK = clock("on"), clock("off"), clock("break")
SPACING = read("spacing", "1012")


def test_a_stretch_belongs_to_the_step_of_the_later_entry() -> None:
    """On at 8, donor recorded at 9, recipient at 11, off at 12: 1 h donor, 2 h and the rest recipient."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (3, RECIPIENT, SPACING), (4, None, OFF))
    assert by_step(copy) == {DONOR: 1, RECIPIENT: 3}
    assert times(copy.job).running == ()


def test_an_entry_without_step_divides_nothing() -> None:
    """A note to no step between two entries leaves the stretch to the later step."""
    copy = worked((0, None, ON), (1, None, note()), (2, DONOR, SPACING), (3, None, OFF))
    assert by_step(copy) == {DONOR: 3}


def test_a_clock_without_any_step() -> None:
    """On and off with nothing between is time on no step."""
    assert by_step(worked((0, None, ON), (1.5, None, OFF))) == {"(no step)": 1.5}


def test_without_a_clock_there_is_no_time() -> None:
    """Entries alone make no hours."""
    assert by_step(worked((0, DONOR, SPACING), (2, RECIPIENT, SPACING))) == {}


def test_what_comes_after_off_is_not_counted() -> None:
    """Between off and the next on nobody works."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (1, None, OFF), (5, RECIPIENT, SPACING), (6, None, ON),
                  (7, RECIPIENT, SPACING), (8, None, OFF))  # fmt: skip
    assert by_step(copy) == {DONOR: 1, RECIPIENT: 2}


@pytest.mark.parametrize("back", [note(), ON])
def test_any_entry_ends_a_break(back: Do) -> None:
    """From break to the next entry no time counts, whatever that entry is."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (2, None, BREAK), (5, None, back), (6, None, OFF))
    assert sum(by_step(copy).values()) == 3


def test_a_break_ended_by_a_reading_leaves_the_rest_to_its_step() -> None:
    """After the break the reading that ended it is the last, so that the time to off is its step's."""
    copy = worked(
        (0, None, ON), (1, DONOR, SPACING), (2, None, BREAK), (3, RECIPIENT, SPACING), (5, None, OFF)
    )
    assert by_step(copy) == {DONOR: 2, RECIPIENT: 2}


def test_off_typed_afterwards_reaches_the_clock_of_that_time() -> None:
    """Off forgotten at 12 and typed the next morning, after a new on, ends the clock of the day before."""
    copy = worked((0, None, ON), (3, DONOR, SPACING), (24, None, ON), (4, None, OFF), (25, DONOR, SPACING))
    assert (by_step(copy), times(copy.job).running) == ({DONOR: 5}, ("Wim",))


def test_who_is_on_a_break() -> None:
    """On a break from break to the next entry; the clock stands among those that are on all the while."""
    paused = worked((0, None, ON), (1, DONOR, SPACING), (2, None, BREAK))
    assert (times(paused.job).running, times(paused.job).on_break) == (("Wim",), ("Wim",))
    back = worked((0, None, ON), (1, None, BREAK), (2, DONOR, SPACING))
    assert (times(back.job).running, times(back.job).on_break) == (("Wim",), ())


def test_off_in_a_break() -> None:
    """A break that ends with off counts to the break."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (2, None, BREAK), (5, None, OFF))
    assert by_step(copy) == {DONOR: 2}


def test_somebody_elses_entry_ends_no_break() -> None:
    """A person's clock hears only that person."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (2, None, BREAK))
    worked((3, DONOR, SPACING), by="Ada", copy=copy)
    worked((5, None, OFF), copy=copy)
    assert by_person(copy) == {"Wim": 2}


def test_a_running_clock_counts_to_the_last_entry_and_says_so() -> None:
    """Without off the time goes to that person's last entry, and the clock is named as running."""
    copy = worked((0, None, ON), (2, DONOR, SPACING))
    assert (by_step(copy), times(copy.job).running) == ({DONOR: 2}, ("Wim",))


def test_a_second_on_ends_the_first() -> None:
    """On at 8, donor at 9, on again at 10, off at 11: three hours, none twice and none lost."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (2, None, ON), (3, None, OFF))
    assert sum(by_step(copy).values()) == 3
    assert by_step(copy)[DONOR] == 2


def test_two_laptops_of_one_person_are_one_time() -> None:
    """On at 8 here and at 9 there, off at 10 here and at 11 there: three hours from 8 to 11."""
    here = Copy()
    there = here.split("there")
    worked((0, None, ON), (1.5, DONOR, SPACING), (2, None, OFF), copy=here)
    worked((1, None, ON), (2.5, RECIPIENT, SPACING), (3, None, OFF), copy=there, by=" WIM ")
    both = here.take(there)
    assert list(by_person(both).values()) == [3]
    # Each clock's time is shared among its own entries; then the later one has the time from 9 on.
    assert by_step(both) == {DONOR: 1, RECIPIENT: 2}


def test_off_reaches_only_the_on_that_it_names() -> None:
    """The first laptop's off, at 10, doesn't end the second's clock, which went on at 9."""
    here = Copy()
    there = here.split("there")
    worked((0, None, ON), (2, None, OFF), copy=here)
    worked((1, None, ON), copy=there)
    worked((3, DONOR, SPACING), copy=there)
    here.take(there)
    assert (by_person(here), times(here.job).running) == ({"Wim": 3}, ("Wim",))


def test_a_clock_inside_the_other_laptops_loses_nothing() -> None:
    """On from 8 to 12 here and from 9 to 10 there: four hours, one of them there, and it is said."""
    here = Copy()
    there = here.split("there")
    worked((0, None, ON), (3, DONOR, SPACING), (4, None, OFF), copy=here)
    worked((1, None, ON), (1.5, RECIPIENT, SPACING), (2, None, OFF), copy=there)
    here.take(there)
    assert by_step(here) == {DONOR: 3, RECIPIENT: 1}
    assert time_problems(here.job) == [
        "Wim's clock was on in two copies of this job from 2031-04-01 09:00 to 10:00; "
        "that time is counted once, on the clock that went on later"
    ]


def test_one_clock_carried_to_a_second_laptop_is_marked() -> None:
    """Where the clock went on before the copy was made, time from one copy's entry to the other's is said."""
    here = worked((0, None, ON))
    there = here.split("there")
    worked((1, DONOR, SPACING), (3, DONOR, note()), copy=here)
    worked((2, RECIPIENT, SPACING), (4, RECIPIENT, note()), copy=there)
    here.take(there)
    assert sum(by_step(here).values()) == 4
    assert time_problems(here.job) == [
        "Wim's time from 2031-04-01 09:00 to 12:00 is counted from entries in two copies of this job"
    ]


def test_off_after_a_merge_ends_every_clock_that_runs() -> None:
    """Two clocks left on in two copies are both ended by one off that saw them."""
    here = Copy()
    there = here.split("there")
    worked((0, None, ON), (1, DONOR, SPACING), copy=here)
    worked((2, None, ON), (3, RECIPIENT, SPACING), copy=there)
    here.take(there)
    worked((4, None, OFF), copy=here)
    assert (by_step(here), times(here.job).running) == ({DONOR: 2, RECIPIENT: 2}, ())


def test_a_lost_entry_parts_no_clock() -> None:
    """Where an entry is missing from a chain, those behind it count on the clock before it, unmarked."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (2, RECIPIENT, SPACING), (3, None, OFF))
    kept = [entry for entry in copy.entries if entry.n != 2]
    job = Job.fold(about(), kept)
    assert hours_by(times(job).stretches, "step") == {RECIPIENT: 3}
    assert time_problems(job) == []


def test_two_people_on_one_step_count_both() -> None:
    """Two clocks on one step at one time are two people's hours, and nothing is said against it."""
    copy = worked((0, None, ON), (2, DONOR, SPACING), (2, None, OFF))
    worked((0, None, ON), (2, DONOR, note()), (2, None, OFF), by="Ada", copy=copy)
    assert by_step(copy) == {DONOR: 4}
    assert by_person(copy) == {"Wim": 2, "Ada": 2}
    assert time_problems(copy.job) == []


def test_an_undone_on_counts_nothing() -> None:
    """With its on taken back, the off that named it has no time."""
    copy = worked((0, None, ON), (0.1, None, undo))
    copy.call(None, lambda draft: draft.add(ClockAct("off", (copy.entries[0].name(0),))), at=minutes(120))
    assert (by_step(copy), times(copy.job).running) == ({}, ())


def test_an_undone_off_leaves_the_clock_running() -> None:
    """With its off taken back the clock runs, to the person's last entry."""
    copy = worked((0, None, ON), (1, DONOR, SPACING), (2, None, OFF), (3, None, undo))
    assert (by_step(copy), times(copy.job).running) == ({DONOR: 3}, ("Wim",))


def test_two_people_have_their_own_time() -> None:
    """Two clocks at the same time count for both, by name as first typed."""
    copy = worked((0, None, ON), (2, DONOR, SPACING), (2, None, OFF))
    worked((0, None, ON), (1, RECIPIENT, SPACING), (1, None, OFF), by="Ada", copy=copy)
    worked((3, None, ON), (4, RECIPIENT, SPACING), (4, None, OFF), by="ada", copy=copy)
    assert by_person(copy) == {"Wim": 2, "Ada": 2}


def test_a_persons_entries_go_by_their_times() -> None:
    """Entered in another order than done, the time is that of the clock on the wall."""
    copy = worked((0, None, ON), (3, RECIPIENT, SPACING), (1, DONOR, SPACING), (4, None, OFF))
    assert by_step(copy) == {DONOR: 1, RECIPIENT: 3}


def test_the_clock_put_on_with_the_first_reading() -> None:
    """On in the same call as a reading in a step begins the time there."""
    copy = Copy()
    copy.call(DONOR, ON, SPACING, at=minutes(0))
    worked((1, "mark.left", tick("scribed")), (2, None, OFF), copy=copy)
    assert by_step(copy) == {"mark.left": 2}


def another_job(*lines: Line) -> Times:
    """The same person's time in another job."""
    copy = Copy(Job.fold(About("job-2", "Second", about().plan, about().hash), ()))
    return times(worked(*lines, copy=copy).job)


def test_an_on_in_another_job_covers_this_one() -> None:
    """From 9 to 10 the other job's clock was on: that hour is taken from this job, and only there."""
    here = times(worked((0, None, ON), (4, DONOR, SPACING), (4, None, OFF)).job)
    there = another_job((1, None, ON), (2, RECIPIENT, SPACING), (2, None, OFF))
    left = without_overlap([*here.stretches, *there.stretches])
    assert hours_by(left, "step") == {DONOR: 3, RECIPIENT: 1}


def test_time_is_shared_among_steps_before_it_is_cut() -> None:
    """The hour of the other job is taken from the step that had it, not from all of them."""
    here = times(worked((0, None, ON), (2, DONOR, SPACING), (4, RECIPIENT, SPACING), (4, None, OFF)).job)
    there = another_job((1, None, ON), (2, "nuts", note()), (2, None, OFF))
    left = [one for one in without_overlap([*here.stretches, *there.stretches]) if one.job == "job-1"]
    assert hours_by(left, "step") == {DONOR: 1, RECIPIENT: 2}


def test_nobody_is_counted_twice_however_the_clocks_lie() -> None:
    """Three clocks that overlap add up to the time that they cover together."""
    at = minutes

    def one(job: str, start: float, end: float) -> Stretch:
        on = Span(at(60 * start), at(60 * end), job, "on/0")
        return Stretch(job, "Wim", "s", at(60 * start), at(60 * end), on)

    left = without_overlap([one("a", 0, 5), one("b", 1, 3), one("c", 2, 6)])
    assert sum(stretch.hours for stretch in left) == 6
    assert hours_by([one for one in left if one.job == "c"], "person") == {"Wim": 4}
