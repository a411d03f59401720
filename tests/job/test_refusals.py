"""What may be refused, and what never is: the contract's table."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.doing import WeldAct
from jobtrack.job.acts.people import WorkedAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.compose import conditions, doing, ending, mending, people, said, steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.units import UnitError
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    Copy,
    Do,
    clock,
    close,
    close_job,
    finish,
    given,
    marked,
    not_needed,
    note,
    opens,
    read,
    release,
    settle,
    surveyed,
    tick,
    undo,
)  # fmt: skip
from tests.support.said import job_problems, step_problems

NEVER: tuple[tuple[str, Do], ...] = (
    ("tack.left", read("slope", "2")), ("cold.left", tick("looked", yes=False)), ("nuts", note()),
    ("nuts", lambda draft: draft.add(MarkAct("bolt 1"))),
    ("nuts", lambda draft: doing.torque(draft, "nuts.1", "final")),
    ("tack.right", lambda draft: draft.add(WeldAct("bracket"))), ("nuts", given("step-height", "400")),
    ("nuts", lambda draft: draft.add(WorkedAct(1.5))), ("nuts", clock("on")), ("nuts", finish),
)  # fmt: skip


def with_hold_unreleased() -> Copy:
    copy = surveyed()
    copy.call("mark.left", read("moved", "30"), finish)
    return copy


def stopped() -> Copy:
    copy = surveyed()
    copy.call(None, lambda draft: ending.stop_job(draft, "sold"))
    return copy


def with_condition_open() -> Copy:
    copy = surveyed()
    copy.call("tack.left", read("slope", "2"))
    return copy


@pytest.mark.parametrize("state", [Copy, with_hold_unreleased, with_condition_open, stopped])
@pytest.mark.parametrize(("step", "do"), NEVER)
def test_recording_is_never_refused(state: type[Copy], step: str, do: Do) -> None:
    """With nothing before it done, a hold unreleased, a condition open or the job ended, it is recorded."""
    copy = state()
    entry = copy.call(step, do)
    assert copy.entries[-1] == entry


def test_finished_is_not_refused_and_says_what_is_missing() -> None:
    """A step finished with a reading outside, none, a tick no or a hold unreleased is finished, with problems."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "30"), tick("scribed", yes=False), finish)
    copy.call("height", finish)
    assert copy.job.state("mark.left") == "finished"
    problems = step_problems(copy.job, "mark.left")
    assert "moved: 30 mm is outside (22.5 mm to 24.5 mm)" in problems
    assert "Scribed line past the old and the new place? no" in problems
    assert "hold not released: Cut release: side and figure read back aloud?" in problems
    assert "height: no reading" in step_problems(copy.job, "height")


REFUSED: tuple[tuple[str | None, Do, str], ...] = (
    (None, undo, "Jo has recorded nothing that could be undone"),
    ("cold.left", release, "cold.left has no hold to release"),
    (None, close("unread"), "no open condition 'unread'"),
    (None, close("tacked.left"), "no open condition 'tacked.left'"),
    (DONOR, settle("spacing", "1012"), "nothing is recorded for 'spacing'"),
    (DONOR, settle("length", "1012"), "no given 'length'"),
    ("mark.left", read("shift", "1"), "no reading 'shift' in mark.left; there are: moved"),
    ("tack.left", read("level", "1"), "level is worked out, not typed"),
    ("mark.left", tick("looked"), "no check 'looked' in mark.left; there are: scribed"),
    (None, given("height", "400"), "no given 'height' in this job; there are: recipient.name"),
    (None, given("retention", "glue"), "retention is one of clips, bolts; not 'glue'"),
    (None, given("owner-there", "maybe"), "owner-there wants yes or no"),
    (None, given("step-height", ">400"), "step-height wants one number in mm"),
    (None, read("moved", "23"), "this belongs to a step"),
    (None, finish, "this belongs to a step"),
    ("nuts", lambda draft: doing.torque(draft, "bolts", "final"), "no torque 'bolts' in nuts; there are: nuts"),
    (None, clock("off"), "Jo has no clock on in this job"),
    (None, clock("pause"), "the clock goes on, off or break"),
    (None, lambda draft: people.hand_over(draft, " "), "say to whom"),
    (None, people.take_over, "no handover is recorded"),
    (None, lambda draft: ending.stop_job(draft, " "), "say why"),
    (None, lambda draft: ending.due_done(draft, "oil"), "nothing due afterwards is called 'oil'; there are: nuts"),
    (None, lambda draft: mending.take_in(draft, "ff"), "no altered entry with the hash 'ff'"),
    ("nuts", steps.swap, "nuts isn't done on two sides"),
    (None, lambda draft: steps.add_step(draft, "nuts", "Nuts", None), "'nuts' can't be a new step's id"),
    (None, lambda draft: steps.add_step(draft, "seat", "Seat", "nowhere"), "no step 'nowhere' in this job"),
    (None, lambda draft: steps.add_step(draft, "seat", "Seat", None, "mark"), "did you mean mark.left or mark.right?"),
    (None, lambda draft: steps.add_step(draft, "seat", "Seat", "nuts", "height"), "say which of the two"),
    (None, lambda draft: said.met(draft, "rusty"), "sheared, seized, cracked, missing, worn, other; not 'rusty'"),
    ("mark.left", lambda draft: values.reading(draft, "moved", ["23"], mistyped=True), "no value yet that could be"),
    (None, lambda draft: None, "nothing to record"),
    (None, note("x" * 10241), "a note is at most 10240 bytes"),
    (None, lambda draft: conditions.opens(draft, "長" * 3414), "a text is at most 10240 bytes"),
    ("marks.left", note(), "no step 'marks.left' in this job; did you mean mark.left"),
    ("mark", note(), "no step 'mark' in this job; did you mean mark.left or mark.right?"),
)  # fmt: skip


@pytest.mark.parametrize(("step", "do", "why"), REFUSED)
def test_what_is_refused_says_why_and_writes_nothing(step: str | None, do: Do, why: str) -> None:
    """A refusal is one line that says what and what to do, and the copy holds what it held."""
    copy = Copy()
    with pytest.raises(Refused) as caught:
        copy.call(step, do, by="Jo")
    assert why in str(caught.value)
    assert "\n" not in str(caught.value)
    assert copy.entries == ()


def test_one_refused_act_spoils_the_call() -> None:
    """A call with one refused act among others writes none of them."""
    copy = Copy()
    with pytest.raises(Refused):
        copy.call("mark.left", read("moved", "23"), tick("looked"))
    assert copy.entries == ()


@pytest.mark.parametrize("typed", ["1,012", "nan", "inf", "12 kg", "", "1112-100"])
def test_what_cannot_be_read_is_refused(typed: str) -> None:
    """Two meanings, no number, a wrong kind of unit: one line, and nothing is written."""
    copy = Copy()
    with pytest.raises(UnitError):
        copy.call(DONOR, read("spacing", typed))
    assert copy.entries == ()


@pytest.mark.parametrize("by", ["", "  ", "x" * 201])
def test_a_name_is_wanted(by: str) -> None:
    """Nobody records without a name, nor with one longer than 200 characters."""
    with pytest.raises(Refused, match=r"a name is wanted"):
        Copy().call(None, note(), by=by)


def test_undo_reaches_only_ones_own_last_entry() -> None:
    """Ada's undo takes back her own entry, not the later one of somebody else; then nothing is left to undo."""
    copy = Copy()
    hers = copy.call(DONOR, read("spacing", "1012"), by="Ada")
    copy.call(RECIPIENT, read("spacing", "965"), by="Wim")
    undoing = copy.call(None, undo, by=" ada ")
    assert undoing.did[0].as_dict() == {"undoes": hers.id}
    assert copy.job.places.reading(DONOR, "spacing").acts == ()
    assert copy.job.places.reading(RECIPIENT, "spacing").value == 965


def done_but(*left: str) -> Copy:
    """All steps finished or not needed but some, everything closed."""
    copy = marked("23.5")
    for step in copy.job.steps:
        if step not in left and copy.job.state(step) != "finished":
            copy.call(step, not_needed("not this time"))
    return copy


def test_close_is_refused_with_the_list() -> None:
    """A job isn't closed while a step is undone or a condition open; the refusal lists both."""
    copy = done_but("nuts", "cold.left")
    copy.call(None, opens("jack lent to a neighbour"))
    with pytest.raises(Refused) as caught:
        copy.call(None, close_job)
    assert "open: jack lent to a neighbour" in str(caught.value)
    assert "nuts is next" in str(caught.value) or "nuts is to come" in str(caught.value)
    assert "cold.left is" in str(caught.value)


def test_close_is_refused_while_a_step_is_to_be_looked_at() -> None:
    """A step to be looked at again keeps the job open."""
    copy = done_but()
    copy.call(DONOR, read("spacing", "1016"), finish)
    with pytest.raises(Refused, match=r"mark.left is look again"):
        copy.call(None, close_job)


def test_closed_with_what_passes_to_the_list() -> None:
    """What passes to the due-afterwards list keeps no job open, and is off the open list once it is closed."""
    copy = done_but("nuts")
    copy.call("nuts", tick("painted"), finish)
    assert [one.name for one in copy.job.open_conditions] == ["nuts-new"]
    copy.call(None, close_job)
    assert copy.job.ended == "closed"
    assert copy.job.open_conditions == []


def test_what_no_closing_saw_is_written_out() -> None:
    """Work recorded in another copy beside the closing leaves the job closed and is said; closing again takes it in."""
    copy = done_but()
    other = copy.split("other")
    copy.call(None, close_job)
    other.call("nuts", tick("painted"), by="Ada")
    copy.take(other)
    assert copy.job.ended == "closed"
    assert "recorded beside the closing: nuts, by Ada" in job_problems(copy.job)
    assert "closed, but nuts is in hand" in job_problems(copy.job)
    copy.call("nuts", finish)
    copy.call(None, close_job)
    assert job_problems(copy.job) == []


def test_what_came_between_looking_and_closing_is_unseen() -> None:
    """An entry that came in after the closing was made up, and before it was written, wasn't seen by it."""
    copy = done_but()
    drafted = Draft(copy.job, "Wim", copy.entries[-1].at, None, id="closing")
    ending.close_job(drafted)
    copy.call("height", read("gap", "0.5"), by="Ada")
    copy.put(drafted.done(), drafted)
    assert "recorded beside the closing: height, by Ada" in job_problems(copy.job)


def test_stopped_wins_over_closed() -> None:
    """A job closed here and stopped there is stopped."""
    copy = done_but()
    other = copy.split("other")
    copy.call(None, close_job)
    other.call(None, lambda draft: ending.stop_job(draft, "frame cracked"))
    assert copy.take(other).job.ended == "stopped"


def test_stopping_is_always_possible() -> None:
    """A job with everything open can be stopped, with a reason."""
    assert stopped().job.ended == "stopped"


def test_what_is_recorded_after_the_end_says_so() -> None:
    """A tick after the job was stopped counts, and its step says when it came."""
    copy = stopped()
    copy.call("nuts", tick("painted"))
    assert "done after the job was stopped" in step_problems(copy.job, "nuts")


def test_a_draft_made_up_again_under_its_name_holds_only_its_own() -> None:
    """A retry under the same id, with other values, stands on those and not on the first try's."""
    copy = Copy()
    for typed in ("1012", "1013"):
        draft = Draft(copy.job, "Wim", next(copy.clock), DONOR, id="retried")
        values.reading(draft, "spacing", [typed])
        steps.finished(draft)
    assert draft.did[-1].as_dict()["on"] == {f"{DONOR}.spacing": 1013.0}


def test_notes_of_a_base_step_name_its_members() -> None:
    """NoteAct and any other act are refused in a step that isn't one of the job's."""
    with pytest.raises(Refused, match=r"did you mean"):
        Draft(Copy().job, "Wim", next(Copy().clock), "mark").add(NoteAct("x"))
