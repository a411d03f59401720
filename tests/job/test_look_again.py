"""What a changed value unsettles, and what it doesn't. Targets: arithmetic only, half of (now less wanted)."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.steps import StandsAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose import steps
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, RELEASED, RELEASED_BEFORE
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    Copy,
    Do,
    finish,
    given,
    marked,
    note,
    open_names,
    read,
    release,
    settle,
    stands,
    states,
    surveyed,
    tick,
    undo,
)  # fmt: skip
from tests.support.said import step_problems, why_look_again

MARK = "mark.left"


def test_the_target_is_half_of_the_change_of_spacing() -> None:
    """Donor 1012 mm and recipient 965 mm give 23.5 mm each side, inboard, with limits 1.0 mm either way."""
    limits = surveyed().job.now.limits(MARK, "moved")
    assert [limits.target, limits.low, limits.high] == [23.5, 22.5, 24.5]


def test_finished_within_and_closed() -> None:
    """Moved 22.8 against 23.5 ± 1.0 is within; the step is finished, its hold released, its marks closed."""
    job = marked("22.8").job
    hold = job.hold(MARK)
    assert job.now.verdict(MARK, "moved") == "within"
    assert job.state(MARK) == FINISHED
    assert hold is not None
    assert hold.state == RELEASED
    assert open_names(job) == []


def test_a_moved_target_unsettles() -> None:
    """Donor 1013 makes the target 24.0: 22.8 is outside, the step is to be looked at again, its hold was
    released before a change, and the marks that it had closed are open again."""
    copy = marked("22.8")
    before = states(copy.job)
    copy.call(DONOR, read("spacing", "1013"), finish)
    hold = copy.job.hold(MARK)
    assert hold is not None
    assert copy.job.now.limits(MARK, "moved").target == 24
    assert hold.state == RELEASED_BEFORE
    assert open_names(copy.job) == ["unread.left"]
    changed = {step for step, state in states(copy.job).items() if state != before[step]}
    assert changed == {MARK, "tack.left"}
    assert (copy.job.state(MARK), copy.job.state("tack.left")) == (LOOK_AGAIN, "to come")
    problems = step_problems(copy.job, MARK)
    assert "look again: moved 22.8 mm is outside: its target was 23.5 mm and is now 24 mm" in problems
    assert "hold released before a change: Cut release: side and figure read back aloud?" in problems


def test_a_moved_target_leaves_alone_what_does_not_stand_on_it() -> None:
    """Steps that are only behind the unsettled one, finished or in hand, keep their state."""
    copy = marked("22.8")
    copy.call("tack.left", read("other", "1.8"), read("slope", "1.9"), finish)
    copy.call("cold.left", tick("looked"))
    copy.call("height", read("gap", "0.5"))
    before = states(copy.job)
    copy.call(DONOR, read("spacing", "1013"), finish)
    assert {step for step, state in states(copy.job).items() if state != before[step]} == {MARK}
    assert open_names(copy.job) == ["unread.left", "tacked.left"]


def test_a_moved_target_that_the_reading_still_meets_unsettles_nothing() -> None:
    """Moved 24.4 with the donor measured again as 1015: the target is 25.0, 24.4 within, and all stands."""
    copy = marked("24.4")
    before = states(copy.job)
    copy.call(DONOR, read("spacing", "1015"), finish)
    hold = copy.job.hold(MARK)
    assert hold is not None
    assert copy.job.now.limits(MARK, "moved").target == 25
    assert (states(copy.job), hold.state, open_names(copy.job)) == (before, RELEASED, [])


@pytest.mark.parametrize(("moved", "donor"), [("22.8", "1013"), ("24.4", "1015")])
def test_undoing_puts_everything_back(moved: str, donor: str) -> None:
    """With the new measurement undone, every state, hold and closing is as it was before."""
    copy = marked(moved)
    before, hold = states(copy.job), copy.job.hold(MARK)
    copy.call(DONOR, read("spacing", donor), finish)
    copy.call(None, undo)
    assert (states(copy.job), copy.job.hold(MARK), open_names(copy.job)) == (before, hold, [])


def test_the_survey_step_itself_waits_for_its_finish() -> None:
    """A survey reading taken again beyond its doubt unsettles its own step until that is finished anew."""
    copy = surveyed()
    copy.call(DONOR, read("spacing", "1013.1"))
    assert copy.job.state(DONOR) == LOOK_AGAIN
    copy.call(DONOR, finish)
    assert copy.job.state(DONOR) == FINISHED


@pytest.mark.parametrize(
    ("again", "state"), [("1012", FINISHED), ("1013", FINISHED), ("1011", FINISHED), ("1013.001", LOOK_AGAIN)]
)
def test_a_record_only_reading_is_bound_by_its_doubt(again: str, state: str) -> None:
    """A reading without limits unsettles its step only where it changed by more than its doubt of 1.0 mm."""
    copy = surveyed()
    copy.call(DONOR, read("spacing", again))
    assert copy.job.state(DONOR) == state


def test_a_reading_of_the_step_taken_again_beyond_its_doubt() -> None:
    """Even within its limits, the step's own reading changed beyond its doubt asks for a new finish."""
    copy = marked("22.8")
    copy.call(MARK, read("moved", "23.4"))
    assert copy.job.state(MARK) == FINISHED
    copy.call(MARK, read("moved", "23.5"))
    assert copy.job.state(MARK) == LOOK_AGAIN
    copy.call(MARK, finish)
    assert (copy.job.state(MARK), open_names(copy.job)) == (FINISHED, [])


def test_a_reading_outside_is_asked_the_second_question() -> None:
    """A step finished with its reading outside is unsettled by the donor only beyond the donor's doubt."""
    copy = marked("30")
    copy.call(DONOR, read("spacing", "1013"), finish)
    assert copy.job.state(MARK) == FINISHED
    copy.call(DONOR, read("spacing", "1013.5"), finish)
    assert copy.job.state(MARK) == LOOK_AGAIN


def test_a_reading_outside_that_comes_within_stays_to_be_looked_at() -> None:
    """A change beyond the doubt unsettles, though the reading lies within the new limits."""
    copy = marked("30")
    copy.call(DONOR, read("spacing", "1025"), finish)
    assert copy.job.now.verdict(MARK, "moved") == "within"
    assert copy.job.state(MARK) == LOOK_AGAIN


@pytest.mark.parametrize(
    "do", [tick("scribed", yes=False), read("moved", "can't reach"), read("moved", ">22")]
)
def test_a_changed_tick_or_word_unsettles(do: Do) -> None:
    """A tick that turned to no, or words in the place of a number, unsettle the step."""
    copy = marked()
    copy.call(MARK, do)
    assert copy.job.state(MARK) == LOOK_AGAIN


def test_a_tick_given_the_same_again_unsettles_nothing() -> None:
    """The same answer once more changes nothing."""
    copy = marked()
    copy.call(MARK, tick("scribed"))
    assert copy.job.state(MARK) == FINISHED


def test_a_changed_only_when_given_unsettles() -> None:
    """A finished step whose `only_when` is answered otherwise is to be looked at again, as a problem too."""
    copy = Copy()
    copy.call(None, given("retention", "clips"))
    copy.call("clips", tick("seen"), finish)
    copy.call(None, given("retention", "bolts"))
    assert copy.job.state("clips") == LOOK_AGAIN
    problems = step_problems(copy.job, "clips")
    assert "look again: retention was clips and is now bolts" in problems
    assert "done though what it depends on says that it isn't needed" in problems


def height_finished(height: str = "400") -> Copy:
    copy = Copy()
    copy.call(None, given("step-height", "402"))
    copy.call("height", read("height", height), finish)
    return copy


def test_a_given_that_feeds_only_limits_is_asked_the_first_question() -> None:
    """A given as target: 400 within 402 ± 5 stands with 405, and not with 406."""
    copy = height_finished()
    copy.call(None, given("step-height", "405"))
    assert copy.job.state("height") == FINISHED
    copy.call(None, given("step-height", "406"))
    assert copy.job.state("height") == LOOK_AGAIN


def test_a_given_beside_a_reading_outside_may_not_change_at_all() -> None:
    """Finished outside its limits, a step stands on the given without doubt: any change unsettles."""
    copy = height_finished("410")
    copy.call(None, given("step-height", "402.1"))
    assert copy.job.state("height") == LOOK_AGAIN


def test_a_target_that_is_gone_fails() -> None:
    """A target's given set to don't know yet leaves no limits, and the step is to be looked at again."""
    copy = height_finished()
    copy.call(None, given("step-height", "?"))
    assert copy.job.state("height") == LOOK_AGAIN
    assert "look again: the limits of height can't be worked out any more" in step_problems(
        copy.job, "height"
    )


def test_a_disagreement_fails_until_it_is_settled() -> None:
    """Two donor spacings that didn't know of each other leave no target; settled, the step stands again."""
    copy = marked("22.8")
    other = copy.split("other")
    copy.call(DONOR, read("spacing", "1012.2"))
    other.call(DONOR, read("spacing", "1014"), by="Ada")
    copy.take(other)
    assert copy.job.state(MARK) == LOOK_AGAIN
    assert copy.job.now.limits(MARK, "moved").target is None
    copy.call(DONOR, settle("spacing", "1012.2"))
    assert copy.job.state(MARK) == FINISHED
    assert copy.job.now.limits(MARK, "moved").target == pytest.approx(23.6)


def test_stands_puts_step_closings_and_not_the_hold_back() -> None:
    """*Stands* with a reason settles the step and its closings; its hold is released anew."""
    copy = marked("22.8")
    copy.call(DONOR, read("spacing", "1013"), finish)
    copy.call(MARK, stands("new rule: 22.8 is what fits"))
    assert (copy.job.state(MARK), open_names(copy.job)) == (FINISHED, [])
    hold = copy.job.hold(MARK)
    assert hold is not None
    assert hold.state == RELEASED_BEFORE
    copy.call(MARK, release, by="Ada")
    hold = copy.job.hold(MARK)
    assert hold is not None
    assert hold.state == RELEASED


def test_stands_itself_stands_only_on_its_values() -> None:
    """After *stands* the next change beyond the doubt unsettles the step again."""
    copy = marked("22.8")
    copy.call(DONOR, read("spacing", "1013"), finish)
    copy.call(MARK, stands())
    copy.call(DONOR, read("spacing", "1016"), finish)
    assert copy.job.state(MARK) == LOOK_AGAIN


def test_one_stands_for_several_steps() -> None:
    """One *stands* can name several steps, and settles each."""
    copy = marked("22.8")
    copy.call("mark.right", read("moved", "22.8"), tick("scribed"), finish)
    copy.call(DONOR, read("spacing", "1013"), finish)
    copy.call(MARK, lambda draft: steps.stands(draft, "both measured again", [MARK, "mark.right"]))
    assert [copy.job.state(step) for step in (MARK, "mark.right")] == [FINISHED, FINISHED]


def test_stands_without_a_finish_finishes_nothing() -> None:
    """A *stands* beside no *finished* leaves the step in hand."""
    copy = surveyed()
    copy.call(MARK, read("moved", "23.5"))
    copy.call(MARK, lambda draft: draft.add(StandsAct((MARK,), "so", {})))
    assert copy.job.state(MARK) == IN_HAND


def test_stands_is_refused_where_nothing_is_to_be_looked_at() -> None:
    """*Stands* for a step that is finished is refused, and says how the step is."""
    with pytest.raises(Refused, match=r"mark.left is finished"):
        marked().call(MARK, stands())


def test_an_older_finish_that_answers_right_is_enough() -> None:
    """Finished on 1012, again on 1013, and 1012 counts again: the first *finished* carries the step."""
    copy = marked("22.8")
    copy.call(DONOR, read("spacing", "1013"), finish)
    copy.call(MARK, read("moved", "22.8"), finish)
    copy.call(DONOR, read("spacing", "1012"), finish)
    assert (copy.job.state(MARK), open_names(copy.job)) == (FINISHED, [])


def test_a_release_before_the_step_is_finished_is_asked_both_questions() -> None:
    """A hold released on 1012 is released before a change once the donor is 1016, finished or not."""
    copy = surveyed()
    copy.call(MARK, read("moved", "23.5"))
    copy.call(MARK, release, by="Ada")
    copy.call(DONOR, read("spacing", "1016"), finish)
    hold = copy.job.hold(MARK)
    assert hold is not None
    assert (copy.job.state(MARK), hold.state) == (IN_HAND, RELEASED_BEFORE)


def test_a_note_unsettles_nothing() -> None:
    """Words beside a finished step change no state."""
    copy = marked()
    copy.call(MARK, note("seen by two"))
    assert copy.job.state(MARK) == FINISHED


def test_a_strict_reading_taken_as_about_can_be_finished() -> None:
    """`~0.5` of a strict reading is too close to call; finishing on it isn't unsettled at once."""
    copy = Copy()
    copy.call("height", read("gap", "~0.5"), finish)
    assert copy.job.now.verdict("height", "gap") == "too close to call"
    assert copy.job.state("height") == FINISHED


def test_a_strict_reading_with_another_instrument_can_be_finished() -> None:
    """A coarser instrument's own doubt decides, when finishing as afterwards."""
    copy = Copy()
    coarse = ReadingAct("gap", 0.5, "mm", "0.5", with_="rule", doubt=0.6)
    copy.call("height", lambda draft: draft.add(coarse), finish)
    assert copy.job.now.verdict("height", "gap") == "too close to call"
    assert copy.job.state("height") == FINISHED


def test_typed_inches_stay_exact_in_what_was_stood_on() -> None:
    """38 in against 965.2 mm is the same value: taken again in millimetres it unsettles nothing."""
    copy = surveyed("1012", "38 in")
    copy.call(MARK, read("moved", "23.4"), finish)
    copy.call(RECIPIENT, read("spacing", "965.2"))
    assert (copy.job.state(RECIPIENT), copy.job.state(MARK)) == (FINISHED, FINISHED)


def test_a_coarser_instrument_leaves_a_strict_reading_to_be_looked_at() -> None:
    """The same value, taken again with more doubt, is no longer within; taken back, the step stands as before."""
    copy = Copy()
    copy.call("height", read("gap", "0.7"), finish)
    assert copy.job.state("height") == FINISHED
    coarse = ReadingAct("gap", 0.7, "mm", "0.7", with_="rule", doubt=0.6, replaces=names(copy, "gap"))
    copy.call("height", lambda draft: draft.add(coarse))
    assert copy.job.state("height") == "look again"
    assert why_look_again(copy.job, "height") == ["gap 0.7 mm is too close to call"]
    copy.call("height", undo)
    assert copy.job.state("height") == FINISHED


def test_a_finer_instrument_unsettles_nothing() -> None:
    """The same value with less doubt leaves a step finished."""
    copy = Copy()
    copy.call("height", read("gap", "0.7"), finish)
    fine = ReadingAct("gap", 0.7, "mm", "0.7", with_="gauge", doubt=0.05, replaces=names(copy, "gap"))
    copy.call("height", lambda draft: draft.add(fine))
    assert copy.job.state("height") == FINISHED


def test_a_coarser_instrument_and_finished_anew_in_one_call_stands() -> None:
    """What was finished on the coarser instrument stands on what it was."""
    copy = Copy()
    copy.call("height", read("gap", "0.7"), finish)
    coarse = ReadingAct("gap", 0.7, "mm", "0.7", with_="rule", doubt=0.6, replaces=names(copy, "gap"))
    copy.call("height", lambda draft: draft.add(coarse), finish)
    assert copy.job.state("height") == FINISHED


def names(copy: Copy, reading: str) -> tuple[str, ...]:
    """The acts that stand at a reading of the height step."""
    return tuple(done.name for done in copy.job.places.reading("height", reading).acts)
