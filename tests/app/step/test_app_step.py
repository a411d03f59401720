"""The step screen: readings, checks, and the acts of a step."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.sheets.words.sentences import worst_first
from jobtrack.store.file.writer import JobFile
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import fill, seen, type_in

OnJobs = Callable[[str], JobApp]


def again(app: JobApp) -> JobFile:
    """The job file read anew from the disk."""
    assert app.file is not None
    return JobFile(app.file.path)


def step_of(app: JobApp) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


async def test_typed_number_is_recorded(on_job: OnJobs) -> None:
    """A number and Enter record the reading named in spaced capitals, and the next one is chosen."""
    app = on_job("surveyed")
    async with app.run_test() as pilot:
        step_of(app).go("donor-axle")
        assert "R A T I O   B Y   T E N   T U R N S" in seen(app)
        await type_in(pilot, "3.9")
        assert "Recorded 09:41: Ratio by ten turns" in seen(app)
        assert "T U R N I N G   T O R Q U E" in seen(app)
        reading = again(app).job.places.reading("donor-axle", "ratio").reading
        assert reading is not None
        assert (reading.value, reading.typed) == (3.9, "3.9")


async def test_number_is_shown_back_in_both_systems(on_job: OnJobs) -> None:
    """While a number is typed it stands in both unit systems, and as not yet recorded."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("tack.right")
        await pilot.press(*"25.4 mm")
        await pilot.pause()
        assert "= 25.4 mm = 1 in" in seen(app)
        assert "NOT YET RECORDED" in seen(app)
        assert not again(app).job.places.reading("tack.right", "gap").acts


async def test_slip_is_questioned_and_not_refused(on_job: OnJobs) -> None:
    """38 typed where about 1012 mm are expected is asked about, and recorded if n says so, measured again."""
    app = on_job("surveyed")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("pin-spacing.donor")
        await pilot.press("down", *"38")
        await pilot.pause()
        assert "Was 38 in" in seen(app)
        await pilot.press("enter", "n", "enter")
        assert again(app).job.now.reading_value("pin-spacing.donor", "spacing") == 38


async def test_escape_drops_what_is_typed(on_job: OnJobs) -> None:
    """Escape records nothing and leaves no text in the field."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        before = len(app.file.job.view.entries) if app.file else 0
        await pilot.press(*"23.1", "escape")
        assert "Cancelled: what was asked or typed there isn't recorded." in seen(app)
        assert app.screen.query_one(Input).value == ""
        assert len(again(app).job.view.entries) == before


async def test_bad_input_keeps_the_text(on_job: OnJobs) -> None:
    """What can't be read is answered in one line, and the text stays in the field."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("down")
        await type_in(pilot, "23 kg")
        assert "kg is a mass" in seen(app)
        assert app.screen.query_one(Input).value == "23 kg"


async def test_letters_belong_to_the_field_while_typing(on_job: OnJobs) -> None:
    """Letters that are commands are text while a field is open."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("down", "w", *"fuq")
        assert app.screen.query_one(Input).value == "fuq"
        assert app.is_running


async def test_words_stand_for_a_reading(on_job: OnJobs) -> None:
    """w and words record that a reading couldn't be taken."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("down", "w")
        await fill(pilot, "can't reach")
        await pilot.press("enter")
        reading = again(app).job.places.reading("mark.right", "moved").reading
        assert reading is not None
        assert reading.word == "can't reach"


async def test_checks_take_yes_and_no(on_job: OnJobs) -> None:
    """y and n answer the chosen check, Enter goes on; a number typed there is kept apart and not recorded."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        step_of(app).go("cut.right")
        await pilot.press("down", "5", "n", "enter")
        assert "Not recorded: 5n." in seen(app)
        await pilot.press("escape", "n", "enter", "y")
        job = again(app).job
        assert job.places.tick("cut.right", "no-notch").value is False
        assert job.places.tick("cut.right", "watched").value is True


async def test_finish_that_closes_takes_a_second_key(on_job: OnJobs) -> None:
    """Finishing says what it leaves and the tag of what it closes; only Enter records, a second f doesn't."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("f")
        assert "Tag KEEP THE MARKS: is it off the steering wheel?" in seen(app)
        assert again(app).job.state("mark.right") == "in hand"
        await pilot.press("escape")
        assert again(app).job.state("mark.right") == "in hand"
        await pilot.press("f", "f")
        assert again(app).job.state("mark.right") == "in hand"
        await pilot.press("enter")
        assert again(app).job.state("mark.right") == "finished"


async def test_undo_takes_one_key(on_job: OnJobs) -> None:
    """u undoes one's own last entry and says which."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("down")
        await type_in(pilot, "24.9")
        await pilot.press("enter", "u")
        said = " ".join(seen(app).split())
        assert "Undone: Mark the new place (right): New edge from the old one, inboard 24.9" in said
        assert float(again(app).job.now.reading_value("mark.right", "moved") or 0) == 22.8


async def test_release_asks_name_and_second_key(on_job: OnJobs) -> None:
    """A hold is released by a typed name and a second r, and the screen says what wasn't looked at."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 60)) as pilot:
        await pilot.press("r")
        await fill(pilot, "Mara Quill")
        assert again(app).job.hold("mark.right").state == "to come"  # type: ignore[union-attr]
        await pilot.press("r")
        await pilot.pause()
        hold = again(app).job.hold("mark.right")
        assert hold is not None
        assert (hold.state, hold.release and hold.release.entry.by) == ("released", "Mara Quill")
        assert "Released by Mara Quill (as typed)" in seen(app)
        assert "Not checked who typed it or what they are qualified for." in seen(app)
        assert app.session.by == "Hob Tansley"


async def test_unsafe_opens_a_condition(on_job: OnJobs) -> None:
    """! and words open a condition, which then stands among those on top."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("!")
        await fill(pilot, "stand under the left rail leans")
        assert "Recorded as open: stand under the left rail leans" in seen(app)
        assert "stand under the left rail leans" in [one.text for one in again(app).job.open_conditions]


async def test_condition_is_closed_by_name(on_job: OnJobs) -> None:
    """c, a condition, a name and a second c close it and nothing else."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        before = [one.name for one in again(app).job.open_conditions]
        second, tag = worst_first(again(app).job)[1].name, worst_first(again(app).job)[1].tag
        await pilot.press("c", "down", "enter")
        await pilot.pause()
        await fill(pilot, "Mara Quill")
        assert f"Tag {tag}: is it off the steering wheel?" in seen(app)
        assert [one.name for one in again(app).job.open_conditions] == before
        await pilot.press("c")
        left = [one.name for one in again(app).job.open_conditions]
        assert left == [one for one in before if one != second]


async def test_note_and_mark(on_job: OnJobs) -> None:
    """t writes a note, m marks the place."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("t")
        await fill(pilot, "wire wheel is on the shelf")
        await pilot.press("m")
        await fill(pilot, "front edge punched")
        acts = [done.act for done in again(app).job.view.in_step("mark.right")]
        assert NoteAct("wire wheel is on the shelf") in acts
        assert MarkAct("front edge punched") in acts


async def test_not_needed_with_a_reason(on_job: OnJobs) -> None:
    """Its row marks the step as not needed, with the reason typed."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        step_of(app).go("offer-up")
        await choose_row(pilot, "not_needed")
        await fill(pilot, "done last year")
        assert again(app).job.state("offer-up") == "not needed"


async def test_clock_on_and_off(on_job: OnJobs) -> None:
    """k and o turn one's own clock off where it runs, k turns it on again."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        assert "Clock on: Hob Tansley" in seen(app)
        await pilot.press("k", "o")
        assert "clock off" in seen(app)
        await pilot.press("k")
        assert "Clock on: Hob Tansley" in seen(app)


async def test_look_again_and_stands(on_job: OnJobs) -> None:
    """A target that moved away unsettles a step; its row and a reason let it stand."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("pin-spacing.donor")
        await pilot.press("down")
        await type_in(pilot, "1015.5")
        await pilot.press("enter")
        assert "Mark the new place (left): look again" in seen(app)
        assert again(app).job.state("mark.left") == "look again"
        step_of(app).go("mark.left")
        await choose_row(pilot, "stands")
        await fill(pilot, "welded where it is, shown to the owner")
        assert again(app).job.state("mark.left") == "finished"


async def test_stands_is_refused_in_one_line(on_job: OnJobs) -> None:
    """What is refused comes back as one line and records nothing."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await choose_row(pilot, "stands")
        await fill(pilot, "because")
        assert "not to be looked at again" in seen(app)


async def test_disagreement_is_settled(on_job: OnJobs) -> None:
    """Two measurements that didn't know of each other have no value until somebody says which counts."""
    app = on_job("surveyed")
    async with app.run_test(size=(120, 40)) as pilot:
        await measured_apart(app)
        step_of(app).go("donor-axle")
        assert "disagreement" in seen(app)
        await choose_row(pilot, "settle")
        await pilot.press("down", "enter")
        await pilot.pause()
        standing = again(app).job.places.reading("donor-axle", "backlash")
        assert standing.agreed
        assert standing.value is not None


async def measured_apart(app: JobApp) -> None:
    """Two people record one reading on what each could see then."""
    assert app.file is not None
    file = app.file
    job = file.job
    for by, text in (("Hob Tansley", "0.15"), ("Mara Quill", "0.21")):
        draft = Draft(job, by, app.session.now(), "donor-axle")
        values.reading(draft, "backlash", [text])
        file.append(draft.done(), draft.by, draft.at, id=draft.id, step="donor-axle")


async def test_name_is_asked_before_the_first_record(make: Callable[[str], JobFile]) -> None:
    """Without a name the first record asks for one, and remembers it."""
    file = make("half-done")
    app = JobApp(file.path.parent, None, file)
    async with app.run_test() as pilot:
        await pilot.press("down")
        await type_in(pilot, "23.3")
        assert "Who is there?" in seen(app)
        await fill(pilot, "  Ada   Prosser ")
        await pilot.press("enter")
        assert again(app).job.view.entries[-1].by == "Ada Prosser"
        await pilot.press("up", "2", "enter")
        assert app.session.by == "Ada Prosser"


async def test_first_reading_says_what_the_step_opens(on_job: OnJobs) -> None:
    """The first record of a step that leaves something open says so in one line."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("tack.right")
        await type_in(pilot, "0.4")
        assert "Recorded as open: Perch only tacked (right)" in " ".join(seen(app).split())


async def test_out_of_order_is_recorded_all_the_same(on_job: OnJobs) -> None:
    """A step whose hold before it isn't released takes readings, and says what stood before it."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 60)) as pilot:
        step_of(app).go("cut.right")
        assert "Not next: not finished: Mark the new place (right)" in seen(app)
        await type_in(pilot, "0.3")
        assert "Wrong or missing in this step:" in seen(app)
        assert again(app).job.now.verdict("cut.right", "wall-loss") == "within"


@pytest.mark.parametrize(("key", "to"), [("right", "cut.right"), ("left", "mark.left")])
async def test_left_and_right_turn_the_step(on_job: OnJobs, key: str, to: str) -> None:
    """Left and Right turn to the step before and after."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        order = list(app.file.job.steps) if app.file else []
        await pilot.press(key)
        assert step_of(app).step == order[order.index("mark.right") + (1 if key == "right" else -1)]
        assert to in order


async def test_given_is_answered_later(on_job: OnJobs) -> None:
    """What wasn't known at the start is typed in the step that wants it, choices by their number."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("side-by-side")
        await type_in(pilot, "2")
        givens = [again(app).job.places.given(name).value for name in ("follow-angle", "follow-flange")]
        assert "move" in givens
