"""What comes next, and what came too early: neither stops anybody."""

from __future__ import annotations

from functools import partial

import pytest

from jobtrack.job.about import About
from jobtrack.job.compose import ending, steps
from jobtrack.job.state.job import Job
from jobtrack.template.load import build
from jobtrack.template.plan import plan
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    Copy,
    close,
    finish,
    given,
    marked,
    not_needed,
    note,
    open_names,
    read,
    release,
    surveyed,
    tick,
    undo,
)  # fmt: skip
from tests.support.builders import template as small
from tests.support.said import step_problems


def early(copy: Copy, step: str) -> list[str]:
    return [one for one in step_problems(copy.job, step) if one.startswith("done ")]


def test_the_survey_comes_first() -> None:
    """With nothing recorded the steps without `after` are next, and none of a later stage."""
    assert Copy().job.next_steps == [RECIPIENT, DONOR]


def test_the_next_stage_waits_for_all_of_the_one_before() -> None:
    """The first steps of a stage are next once all before are finished."""
    assert surveyed().job.next_steps == ["mark.left", "mark.right"]


def test_a_step_waits_for_the_hold_before_it() -> None:
    """The step behind a hold is to come until the hold is released by name."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"), tick("scribed"), finish)
    assert copy.job.state("tack.left") == "to come"
    copy.call("mark.left", release, by="Ada")
    assert copy.job.state("tack.left") == "next"


def test_a_hold_released_by_the_one_who_finished_is_said() -> None:
    """One person in both parts: it counts, and the step says that no second person has seen it."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"), tick("scribed"), finish, release)
    assert copy.job.state("tack.left") == "next"
    said = "hold released by the one who finished the step: not seen by a second person"
    assert said in step_problems(copy.job, "mark.left")


def test_one_by_one_brings_the_side_begun_first_to_its_end() -> None:
    """With the left side begun, the right is to come until the left's last step is finished."""
    copy = marked("23.5")
    assert copy.job.next_steps == ["tack.left"]
    copy.call("tack.left", read("other", "2"), read("slope", "2"), finish)
    assert copy.job.state("mark.right") == "to come"
    copy.call("cold.left", tick("looked"), finish)
    assert copy.job.next_steps == ["mark.right"]


def test_one_by_one_waits_for_the_first_sides_holds_too() -> None:
    """An unreleased hold of the side begun first keeps the other side back, though all is finished."""
    copy = surveyed()
    for step in ("mark.left", "tack.left", "cold.left"):
        copy.call(step, finish)
    assert copy.job.state("mark.right") == "to come"
    copy.call("mark.left", release, by="Ada")
    assert copy.job.state("mark.right") == "next"


def test_the_other_side_begun_too_early_stays_written() -> None:
    """The right side begun while the left was half done: said, and still said after the left's end."""
    copy = marked("23.5")
    copy.call("mark.right", tick("scribed"))
    [reason] = early(copy, "mark.right")
    assert "tack.left" in reason
    copy.call("tack.left", finish)
    copy.call("cold.left", finish)
    assert early(copy, "mark.right") == [reason]


def test_an_open_condition_stops_what_may_not_go_on_beside_it() -> None:
    """`not_while` of any member: a tack waits while marks of either side aren't read back."""
    copy = marked("23.5")
    copy.call("mark.right", tick("scribed"))
    assert copy.job.state("tack.left") == "to come"
    copy.call(None, close("unread.right"))
    assert copy.job.state("tack.left") == "next"


def fitted_but_nuts(*tacked: str) -> Copy:
    """All before the nuts finished or not needed, with some sides tacked only."""
    copy = marked("23.5")
    for side in tacked:
        copy.call(f"tack.{side}", read("slope", "2"))
    for step in copy.job.steps:
        if step != "nuts" and copy.job.state(step) != "finished":
            copy.call(step, not_needed("left out"))
    return copy


@pytest.mark.parametrize(("side", "state"), [("left", "to come"), ("right", "next")])
def test_not_while_of_a_named_member(side: str, state: str) -> None:
    """`not_while` with a member named looks at that member only."""
    copy = fitted_but_nuts(side)
    assert open_names(copy.job) == [f"tacked.{side}"]
    assert copy.job.state("nuts") == state


def test_done_while_something_was_open_stays_written() -> None:
    """Nuts put on with the left bracket only tacked: said, and still said once it was looked at."""
    copy = fitted_but_nuts("left")
    copy.call("nuts", tick("painted"))
    copy.call(None, close("tacked.left"))
    assert any("Bracket only tacked (left)" in reason for reason in early(copy, "nuts"))


def test_only_when_decides_between_needed_and_not() -> None:
    """Unknown: to come; not met: not needed; met: as any other step."""
    copy = Copy()
    assert copy.job.state("clips") == "to come"
    copy.call(None, given("retention", "bolts"))
    assert copy.job.state("clips") == "not needed"
    copy.call(None, given("retention", "?"))
    assert copy.job.state("clips") == "to come"


def test_only_when_met_is_next_in_its_turn() -> None:
    """Clips that are wanted come next once all before are settled."""
    copy = fitted_but_nuts()
    copy.call(None, given("retention", "clips"))
    assert copy.job.state("clips") == "not needed"
    copy.call(None, undo)
    again = Copy()
    again.call(None, given("retention", "clips"))
    for step in again.job.steps:
        if step not in ("clips", "height", "nuts"):
            again.call(step, not_needed())
    assert again.job.next_steps == ["clips"]


def in_a_row(*, retention: str) -> Copy:
    """Three steps in a row, the one in the middle for clips only."""
    data = small()
    data["stage"] = {"survey": {"title": "Survey"}}
    data["step"] = {name: {"stage": "survey", "title": name} for name in ("first", "clips", "last")}
    data["step"]["clips"]["only_when"] = {"retention": ["clips"]}
    copy = Copy(Job.fold(About("row", "row", plan(build(data)), "00"), ()))
    copy.call(None, given("retention", retention))
    return copy


def test_a_branch_that_is_not_taken_is_no_way_round_what_stands_before_it() -> None:
    """What comes before a step that isn't needed comes before the one behind it, and is said when it didn't."""
    copy = in_a_row(retention="bolts")
    assert copy.job.state("clips") == "not needed"
    assert copy.job.next_steps == ["first"]
    copy.call("last", finish)
    assert early(copy, "last") == ["done before this was finished: first"]


def test_behind_a_branch_that_is_not_taken_comes_what_comes_before_it() -> None:
    """Without clips the step behind them waits for the stages before, as the clips would have."""
    copy = Copy()
    copy.call(None, given("retention", "bolts"))
    assert (copy.job.state("clips"), copy.job.state("height")) == ("not needed", "to come")
    for step in copy.job.steps:
        if step not in ("clips", "height", "nuts"):
            copy.call(step, not_needed())
    assert copy.job.next_steps == ["height"]


def test_what_a_person_marks_as_not_needed_holds_nothing_back() -> None:
    """Rust decides: marked not needed, the step before lets the next one begin, whatever stands before it."""
    copy = Copy()
    copy.call(None, given("retention", "clips"))
    assert copy.job.state("height") == "to come"
    copy.call("clips", not_needed())
    assert copy.job.state("height") == "next"


def test_an_after_that_is_written_down_is_taken_as_it_stands() -> None:
    """Named in `after`, a step that isn't needed is nothing to wait for; proofread remarks on it."""
    written = small()
    written["step"]["height"]["after"] = ["clips"]
    about = About("a", "b", plan(build(written)), "00")
    copy = Copy(Job.fold(about, ()))
    copy.call(None, given("retention", "bolts"))
    assert copy.job.state("height") == "next"


def test_work_on_what_is_not_needed_wins_as_a_problem() -> None:
    """In hand and finished win over an `only_when` that isn't met, and the step says so."""
    copy = Copy()
    copy.call(None, given("retention", "bolts"))
    copy.call("clips", tick("seen"))
    assert copy.job.state("clips") == "in hand"
    assert "done though what it depends on says that it isn't needed" in early(copy, "clips")
    copy.call("clips", finish)
    assert copy.job.state("clips") == "finished"


def test_not_needed_beside_work_it_had_not_seen() -> None:
    """Marked not needed here, worked on there: in hand, and the step says why."""
    copy = surveyed()
    other = copy.split("other")
    copy.call("mark.left", not_needed("stays"))
    other.call("mark.left", read("moved", "23"), by="Ada")
    copy.take(other)
    assert copy.job.state("mark.left") == "in hand"
    said = "marked not needed by somebody who hadn't seen what was done in it"
    assert said in step_problems(copy.job, "mark.left")


def test_not_needed_after_having_seen_all() -> None:
    """Marked not needed with all its acts in sight, a step is not needed."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"))
    copy.call("mark.left", not_needed("stays"))
    assert copy.job.state("mark.left") == "not needed"


def test_done_before_its_turn_stays_written_after_a_later_release() -> None:
    """Tacked before the cut release: the release comes later, the words stay."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"), finish)
    copy.call("tack.left", read("slope", "2"))
    [reason] = early(copy, "tack.left")
    assert "mark.left" in reason
    copy.call("mark.left", release, by="Ada")
    assert early(copy, "tack.left") == [reason]


def test_done_before_is_judged_by_what_the_entry_follows() -> None:
    """Finished in another copy meanwhile, the step before wasn't finished for whoever went on here."""
    copy = Copy()
    other = copy.split("other")
    copy.call("mark.left", read("moved", "23"))
    other.call(DONOR, read("spacing", "1012"), finish)
    copy.take(other)
    assert copy.job.state(DONOR) == "finished"
    assert any(DONOR in reason for reason in early(copy, "mark.left"))


@pytest.mark.parametrize("step", ["mark.left", "height"])
def test_a_note_is_never_too_early(step: str) -> None:
    """Words in a step that isn't next make no problem, and leave it where it was."""
    copy = Copy()
    copy.call(step, note())
    assert (copy.job.state(step), early(copy, step)) == ("to come", [])


def test_go_or_stop_holds_what_comes_behind() -> None:
    """A go is a hold whose release is the go: what comes behind waits for it."""
    copy = fitted_but_nuts()
    copy.call("height", read("gap", "0.5"), finish)
    assert copy.job.state("nuts") == "to come"
    copy.call("height", release, by="Ada")
    assert copy.job.state("nuts") == "next"


def test_nothing_is_next_once_the_job_has_ended() -> None:
    """A job that was stopped has no next step."""
    copy = surveyed()
    copy.call(None, lambda draft: ending.stop_job(draft, "sold"))
    assert copy.job.next_steps == []


def test_an_added_step_stands_behind_the_one_named() -> None:
    """A step put in while the job runs comes behind that one, and can be worked on like any other."""
    copy = surveyed()
    copy.call(None, lambda draft: steps.add_step(draft, "seat", "Clean the seat", DONOR))
    assert list(copy.job.steps)[:3] == [RECIPIENT, DONOR, "seat"]
    assert copy.job.state("seat") == "next"
    copy.call("seat", finish)
    assert copy.job.state("seat") == "finished"


def test_an_added_step_stands_ahead_of_the_one_named() -> None:
    """Put in before another, it waits for what that one waited for, and that one waits for it."""
    copy = surveyed()
    copy.call(None, lambda draft: steps.add_step(draft, "seat", "Clean the seat", None, "mark.left"))
    order = list(copy.job.steps)
    assert order.index("seat") + 1 == order.index("mark.left")
    assert (copy.job.state("seat"), copy.job.state("mark.left")) == ("next", "to come")
    assert copy.job.state("mark.right") == "next"
    copy.call("seat", finish)
    assert copy.job.state("mark.left") == "next"


def test_a_step_added_before_one_that_is_finished_unsettles_nothing() -> None:
    """What is done stays done, and no problem is written against it."""
    copy = surveyed()
    copy.call(None, lambda draft: steps.add_step(draft, "seat", "Clean the seat", None, DONOR))
    assert copy.job.state(DONOR) == "finished"
    assert step_problems(copy.job, DONOR) == step_problems(surveyed().job, DONOR)


def test_added_steps_can_stand_among_each_other() -> None:
    """One may go before an added one, and another behind it; each waits for the one ahead."""
    copy = surveyed()
    for new, after, before in (("seat", DONOR, None), ("wash", None, "seat"), ("paint", "seat", None)):
        copy.call(None, partial(steps.add_step, step=new, title=new, after=after, before=before))
    assert list(copy.job.steps)[1:5] == [DONOR, "wash", "seat", "paint"]
    assert [copy.job.state(one) for one in ("wash", "seat", "paint")] == ["next", "to come", "to come"]


def test_an_added_step_whose_place_is_gone_stands_last() -> None:
    """With the step it stood before undone, it is at the end and can be worked on."""
    copy = surveyed()
    copy.call(None, lambda draft: steps.add_step(draft, "seat", "Clean the seat", DONOR))
    copy.call(None, lambda draft: steps.add_step(draft, "wash", "Wash it", None, "seat"), by="Ada")
    copy.call(None, undo, by="Wim")
    assert list(copy.job.steps)[-1] == "wash"
    assert copy.job.state("wash") == "next"


def test_an_added_step_can_be_undone() -> None:
    """With its adding undone, the step is gone, and so is what waited for it."""
    copy = surveyed()
    copy.call(None, lambda draft: steps.add_step(draft, "seat", "Clean the seat", DONOR))
    copy.call(None, lambda draft: steps.add_step(draft, "paint", "Paint the seat", "seat"), by="Ada")
    copy.call("paint", finish, by="Ada")
    copy.call(None, undo, by="Wim")
    assert "seat" not in copy.job.steps
    assert step_problems(copy.job, "paint") == []


def long_job(steps: int) -> Job:
    """A job whose steps come one behind the other."""
    data = small()
    data["step"] = {f"s{number}": {"stage": "survey", "title": "x"} for number in range(steps)}
    data["stage"] = {"survey": {"title": "Survey"}}
    return Job.fold(About("long", "long", plan(build(data)), "00"), ())


def test_a_long_job_can_be_asked_for_its_last_step_first() -> None:
    """Five hundred steps in a row, asked from the end, are no deeper than five."""
    assert long_job(500).state("s499") == "to come"


def test_steps_that_wait_for_each_other_are_to_come() -> None:
    """A template with crossed `after`, which `proofread` finds, opens all the same."""
    data = small()
    data["step"]["mark"]["after"] = ["tack"]
    job = Job.fold(About("crossed", "crossed", plan(build(data)), "00"), ())
    assert job.state("tack.left") == "to come"
