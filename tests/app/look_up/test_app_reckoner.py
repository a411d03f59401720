"""The reckoner: the list and how it narrows, what goes in, the answer, and where it is put."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.reckoner.answer import AnswerScreen
from jobtrack.app.screens.reckoner.choosing import ReckonerScreen
from jobtrack.app.screens.reckoner.working import WorkingScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose import conditions
from jobtrack.job.compose.draft import Draft
from jobtrack.shopmath import catalogue
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile
from jobtrack.workings.answers import answer
from tests.support.invented_jobs import on_top, seen, type_in

OnJobs = Callable[[str], JobApp]
OnFolder = Callable[[], JobApp]
Compare = Callable[..., bool]
SHIFT = {"spacing_now": "1012", "spacing_wanted": "38 in"}


def again(app: JobApp) -> JobFile:
    """The job file read anew from the disk."""
    assert app.file is not None
    return JobFile(app.file.path)


def words(app: JobApp) -> str:
    """What is seen, its rows joined."""
    return " ".join(seen(app).split())


async def put(pilot: Pilot[int], *texts: str) -> None:
    """Text into the open field and Enter, for each; empty: Enter alone."""
    for text in texts:
        await pilot.pause()
        if text:
            pilot.app.screen.query_one(Input).value = text
            await pilot.pause()
        await pilot.press("enter")
    await pilot.pause()


async def at_step(app: JobApp, pilot: Pilot[int], step: str) -> None:
    """Turn to a step."""
    await pilot.pause()
    assert isinstance(app.screen, StepScreen)
    app.screen.go(step)
    await pilot.pause()


async def test_all_are_listed_once_and_the_step_s_own_first(on_job: OnJobs) -> None:
    """The list is the catalogue, each once; what the step works out comes first, under its own title."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("x")
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, ReckonerScreen)
        names = [one.work.name for one in screen.shown]
        assert sorted(names) == sorted(name for topic in catalogue.by_topic().values() for name in topic)
        assert (len(names), names[0]) == (81, "perch-shift")
        assert "This step, with its own values ▸ shift, perch-shift:" in words(app)
        assert "81 workings-out" in words(app)


async def test_a_few_letters_narrow_the_list(on_job: OnJobs) -> None:
    """Letters of a name, or of what it takes, leave those that hold them; names that begin so come first."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("x", *"tor")
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, ReckonerScreen)
        names = [one.work.name for one in screen.shown]
        assert names[0] == "torque-stages"
        assert {"tightening-torque", "shaft-torque", "flange-slip-torque", "adapter-setting"} <= set(names)
        assert len(names) < 20
        await pilot.press(*" zz")
        await pilot.pause()
        assert "No working-out has these letters in it" in seen(app)
        await pilot.press("enter", *["backspace"] * 6)
        await pilot.pause()
        assert len(screen.shown) == 81
        assert app.screen is screen


async def test_arrows_and_enter_choose_to_the_last(on_job: OnJobs) -> None:
    """Up and Down mark one while letters can be typed, the last too is in sight, and Enter opens it."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("x", *["down"] * 90)
        await pilot.pause()
        assert "▸ sum-of-times" in seen(app)
        await pilot.press("up", "enter")
        await pilot.pause()
        assert isinstance(app.screen, WorkingScreen)
        assert app.screen.work.name == "learned-time"


async def test_the_step_s_values_are_filled_in(on_job: OnJobs) -> None:
    """What the template gives to its working-out stands typed already, in the readings' units, and is worked out."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        await pilot.press("x", "enter")
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, WorkingScreen)
        assert screen.typed == {"spacing_now": "1012 mm", "spacing_wanted": "965.2 mm"}
        assert "Worked out: left inboard 23.4 mm; right inboard 23.4 mm." in seen(app)


async def test_what_is_not_known_is_left_to_type(on_job: OnJobs) -> None:
    """A working-out of a step whose readings aren't there yet asks first for what is missing."""
    app = on_job("surveyed")
    async with app.run_test() as pilot:
        await at_step(app, pilot, "strip")
        await pilot.press("x", "enter")
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, WorkingScreen)
        assert screen.typed == {"spacing_wanted": "965.2 mm"}
        assert screen.key == "face_distance"
        assert "Still wanted: face distance, left face to perch, right face to perch." in words(app)


async def test_the_answer_is_the_command_s(on_folder: OnFolder) -> None:
    """Without a job too, the page shows what the command prints, word for word, and what went in."""
    app = on_folder()
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x")
        await put(pilot, "perch-shift", *SHIFT.values(), "")
        assert isinstance(app.screen, AnswerScreen)
        text = words(app)
        assert "With spacing now 1012, spacing wanted 38 in:" in text
        assert " ".join(answer("perch-shift", SHIFT).as_text().split()) in text
        assert "put into" not in text
        await pilot.press("t", "p", "b")
        await pilot.pause()
        assert "Jobs in this folder" in seen(app)


async def test_an_input_a_row_with_what_it_takes(on_folder: OnFolder) -> None:
    """Each input has its key in words, its unit or choices, whether it can be left out, and an example."""
    app = on_folder()
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x")
        await put(pilot, "bolt-circle")
        text = seen(app)
        assert "▸ holes" in text
        assert "1 centres, 2 inner edges, 3 outer" in text
        assert "mm (can be left out)" in text
        assert "a whole number (can be left out: 1)" in text
        assert "58.71" in text


async def test_wrong_input_keeps_everything(on_folder: OnFolder) -> None:
    """What can't be taken is answered in one line under its input; every typed text stays, also after going back."""
    app = on_folder()
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x")
        await put(pilot, "perch-shift", "1012", "38 kg")
        screen = app.screen
        assert isinstance(screen, WorkingScreen)
        with pytest.raises(catalogue.WorkingOutError) as refused:
            answer("perch-shift", SHIFT | {"spacing_wanted": "38 kg"})
        rows = seen(app).split("\n")
        row = next(number for number, text in enumerate(rows) if "▸ spacing wanted" in text)
        assert str(refused.value) in rows[row + 1]
        assert app.screen.query_one(Input).value == "38 kg"
        assert screen.typed == SHIFT | {"spacing_wanted": "38 kg"}
        await pilot.press("up")
        assert app.screen.query_one(Input).value == "1012"
        await pilot.press("escape", "enter")
        await pilot.pause()
        assert isinstance(app.screen, WorkingScreen)
        assert app.screen.typed == SHIFT | {"spacing_wanted": "38 kg"}
        await pilot.press("down")
        await put(pilot, "38 in")
        assert isinstance(on_top(app), AnswerScreen)


async def test_arrows_do_not_mix_inputs_up(on_folder: OnFolder) -> None:
    """Text typed and arrows pressed at once leave each text with its own input."""
    app = on_folder()
    async with app.run_test() as pilot:
        await pilot.press("x")
        await put(pilot, "perch-shift")
        await pilot.press(*"1012", "down", *"965", "up", "end", *".5")
        await pilot.pause()
        assert isinstance(app.screen, WorkingScreen)
        assert app.screen.typed == {"spacing_now": "1012.5", "spacing_wanted": "965"}


@pytest.mark.parametrize("typed", ["2", "in", "inner edges"])
async def test_choices_by_number_or_first_letters(typed: str, on_folder: OnFolder) -> None:
    """A choice is typed as its number, its first letters or in full; what it then wants is asked next."""
    app = on_folder()
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x")
        await put(pilot, "bolt-circle", "4", "58.71", typed)
        screen = app.screen
        assert isinstance(screen, WorkingScreen)
        assert screen.typed["measured"] == "inner edges"
        assert screen.key == "hole"
        await put(pilot, "12", "")
        assert isinstance(on_top(app), AnswerScreen)
        inputs = {"holes": "4", "spacing": "58.71", "measured": "inner edges", "hole": "12"}
        assert " ".join(answer("bolt-circle", inputs).as_text().split()) in words(app)


async def into_reading(app: JobApp, pilot: Pilot[int]) -> None:
    """From the step's shift to its reading, which has a number: the second of both results, not yet recorded."""
    assert isinstance(app.screen, StepScreen)
    await pilot.press("down")
    assert app.screen.item is not None
    assert app.screen.item.name == "moved"
    await pilot.press("x", "enter")
    await pilot.pause()
    await pilot.press("enter")
    await pilot.pause()
    await pilot.press("p")
    await pilot.pause()
    assert "Which result goes into “New edge from the old one, inboard”?" in words(app)
    await pilot.press("down", "enter")
    await pilot.pause()


async def test_result_into_the_reading_with_its_note(on_job: OnJobs) -> None:
    """A result waits in the field of the chosen reading, in its unit; Enter records it with its note, one entry."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        before = len(again(app).job.view.entries)
        await into_reading(app, pilot)
        assert isinstance(app.screen, StepScreen)
        assert app.screen.query_one(Input).value == "23.4 mm"
        assert "NOT YET RECORDED" in seen(app)
        assert "A note goes with it, in the same entry" in seen(app)
        assert len(again(app).job.view.entries) == before
        await pilot.press("enter", "enter")
        await pilot.pause()
        entries = again(app).job.view.entries
        assert len(entries) == before + 1
        reading, note = entries[-1].did
        assert isinstance(reading, ReadingAct)
        assert (reading.reading, reading.value, reading.typed) == ("moved", 23.4, "23.4 mm")
        assert note == NoteAct(
            "Reckoner: perch-shift with spacing now 1012 mm, spacing wanted 965.2 mm: left inboard 23.4 mm, "
            "right inboard 23.4 mm. Source: plane geometry, arithmetic only: no publication gives such figures."
        )
        assert entries[-1].step == "mark.right"


async def test_one_undo_takes_both_back(on_job: OnJobs) -> None:
    """u undoes reading and note together, as they were recorded together."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        await into_reading(app, pilot)
        await pilot.press("enter", "enter", "u")
        await pilot.pause()
        job = again(app).job
        assert float(job.now.reading_value("mark.right", "moved") or 0) == 22.8
        assert not [done for done in job.view.in_step("mark.right")
                    if isinstance(done.act, NoteAct) and "Reckoner" in done.act.note]  # fmt: skip


async def test_escape_in_the_field_records_neither(on_job: OnJobs) -> None:
    """Escape drops the number and its note."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        before = len(again(app).job.view.entries)
        await into_reading(app, pilot)
        await pilot.press("escape")
        assert "Cancelled: what was asked or typed there isn't recorded." in seen(app)
        assert len(again(app).job.view.entries) == before
        await type_in(pilot, "23.1")
        await pilot.press("enter")
        assert [type(act) for act in again(app).job.view.entries[-1].did] == [ReadingAct]


async def test_name_is_asked_and_number_and_note_are_kept(make: Callable[[str], JobFile]) -> None:
    """Without a name Enter asks for it first, and then records both."""
    file = make("half-done")
    app = JobApp(file.path.parent, None, file)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        await into_reading(app, pilot)
        await pilot.press("enter")
        assert "Who is there?" in seen(app)
        await put(pilot, "Ada Prosser")
        await pilot.press("enter")
        last = again(app).job.view.entries[-1]
        assert (last.by, [type(act) for act in last.did]) == ("Ada Prosser", [ReadingAct, NoteAct])


async def test_only_results_of_the_same_kind(on_job: OnJobs) -> None:
    """A length doesn't go into a ratio, and inches go into a reading in millimetres as millimetres."""
    app = on_job("surveyed")
    async with app.run_test(size=(120, 40)) as pilot:
        await at_step(app, pilot, "donor-axle")
        await pilot.press("x")
        await put(pilot, "perch-shift", *SHIFT.values(), "")
        await pilot.press("p")
        await pilot.pause()
        assert "is a plain number; no result here can be given so: t makes a note of it." in words(app)
        await pilot.press("escape", "escape")
        await pilot.pause()
        await put(pilot, "axle-ratio-from-turns", "3.9", "1", "both wheels", "")
        await pilot.press("p")
        await pilot.pause()
        assert app.screen.query_one(Input).value == "3.9"


async def test_into_a_note_of_the_step(on_job: OnJobs) -> None:
    """t records inputs as typed, results and source as a note on the step at hand, once."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x")
        await put(pilot, "u-bolt-blank", "60", "150", "14", "round", "")
        assert isinstance(app.screen, AnswerScreen)
        await pilot.press("t")
        assert "Recorded 09:41:" in seen(app)
        await pilot.press("t")
        assert "stands in a note already" in seen(app)
        notes = [entry for entry in again(app).job.view.entries if "u-bolt-blank" in str(entry.did)]
        assert [entry.step for entry in notes] == ["mark.right"]
        note = notes[0].did[0]
        assert isinstance(note, NoteAct)
        assert note.note.startswith(
            "Reckoner: u-bolt-blank with inside width 60, leg 150, rod 14, bend round: blank"
        )
        assert note.note.endswith(f"Source: {catalogue.find('u-bolt-blank').source}.")


async def test_from_the_outline_only_a_note(on_job: OnJobs) -> None:
    """From the outline the note goes to the step behind it, and no reading is offered."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("o", "x", "enter")
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "put into the reading" not in seen(app)
        await pilot.press("t", "b")
        await pilot.pause()
        assert isinstance(app.screen, OutlineScreen)
        assert again(app).job.view.entries[-1].step == "mark.right"


async def test_conditions_stay_on_top(on_job: OnJobs) -> None:
    """What somebody else records as open meanwhile stands on top of the reckoner too; the typed text stays."""
    app = on_job("surveyed")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x", *"tor")
        assert app.file is not None
        other = JobFile(app.file.path)
        draft = Draft(other.job, "Mara Quill", app.session.now(), "donor-axle")
        conditions.opens(draft, "jack under the left rail sinks")
        other.append(draft.done(), draft.by, draft.at, id=draft.id, step="donor-axle")
        await pilot.pause(1.6)
        assert "jack under the left rail sinks" in seen(app)
        assert app.screen.query_one(Input).value == "tor"


async def test_a_row_of_figures_lands_as_it_is_read(on_folder: OnFolder) -> None:
    """Figures typed one after the other, an Enter behind each, go into the inputs in their order, optional ones too."""
    app = on_folder()
    async with app.run_test() as pilot:
        await pilot.press("x")
        await put(pilot, "second-pattern")
        for figure in ("4", "100", "12", "4", "90", "11"):
            await put(pilot, figure)
        await pilot.pause()
        assert isinstance(app.screen, WorkingScreen)
        assert {key: text for key, text in app.screen.typed.items() if text} == {
            "first_holes": "4", "first_circle": "100", "first_hole": "12",
            "second_holes": "4", "second_circle": "90", "second_hole": "11",
        }  # fmt: skip


async def test_what_stands_in_a_box_is_replaced_by_typing(on_folder: OnFolder) -> None:
    """The first key in an input that is filled already replaces what stands there."""
    app = on_folder()
    async with app.run_test() as pilot:
        await pilot.press("x")
        await put(pilot, "perch-shift")
        await pilot.press(*"1012", "down", "up", *"38")
        await pilot.pause()
        assert isinstance(app.screen, WorkingScreen)
        assert app.screen.typed["spacing_now"] == "38"


async def test_a_list_is_shown_as_it_was_read(on_folder: OnFolder) -> None:
    """While a list is typed, and beside the answer, its items stand one by one with their number."""
    app = on_folder()
    async with app.run_test() as pilot:
        await pilot.press("x")
        await put(pilot, "team-lift")
        app.screen.query_one(Input).value = "20.5 kg; 44 lb"
        await pilot.pause()
        assert "= 20.5 kg, 19.9581 kg (2 items)" in words(app)
        await put(pilot, "20.5 kg; 44 lb")
        assert "With each 20.5 kg, 19.9581 kg (2 items):" in words(app)
        assert "each, as read: 20.5 kg, 19.9581 kg (2 items)." in words(app)


async def test_a_reckoned_number_is_not_called_measured(on_job: OnJobs) -> None:
    """A result put into a reading says that it was reckoned, in the record and in the table."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("down", "x", "enter", "enter")
        await pilot.pause()
        await pilot.press("p", "enter")
        await pilot.pause()
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert app.file is not None
        acts = JobFile(app.file.path).job.view.entries[-1].did
        assert [one.with_ for one in acts if isinstance(one, ReadingAct)] == ["reckoner"]
        assert "(reckoned, not measured)" in words(app)


async def test_a_full_disk_keeps_the_answer(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """A note that didn't reach the disk is said so, kept, and recorded by itself; a second key makes no second note."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("x", "enter")
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        with monkeypatch.context() as full:
            full.setattr("jobtrack.store.file.disk.append", _full_disk)
            await pilot.press("t")
            assert "NOT YET RECORDED: No space left on device" in words(app)
        await pilot.press("t")
        assert "This answer stands in a note already; Escape changes what goes in." in seen(app)
        assert app.file is not None
        await pilot.press("b")
        await pilot.pause(1.3)
        assert "Recorded now what had waited: 1 entry." in seen(app)
        [act] = JobFile(app.file.path).job.view.entries[-1].did
        assert isinstance(act, NoteAct)


def _full_disk(path: Path, data: bytes, known: disk.Known) -> None:
    raise OSError(28, "No space left on device")


PICTURES: dict[str, tuple[str, ...]] = {
    "list": ("x",),
    "inputs-and-a-refusal": ("x", *"bolt-c", "enter", "4", "enter", *"58 kg", "enter"),
    "answer": ("x", *"tighten", "enter", *"M10", "enter", *"8.8", "enter", "enter"),
}


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["small", "large"])
@pytest.mark.parametrize("name", PICTURES)
def test_pictures(name: str, size: tuple[int, int], on_job: OnJobs, snap_compare: Compare) -> None:
    """The reckoner's three pages look as they did when they were looked at."""

    async def before(pilot: Pilot[Any]) -> None:
        await pilot.pause()
        for key in PICTURES[name]:
            await pilot.press(key if len(key) > 1 or key.isalnum() else _named(key))
        await pilot.pause()

    assert snap_compare(on_job("half-done"), run_before=before, terminal_size=size)


def _named(key: str) -> str:
    return {"-": "minus", " ": "space", ".": "full_stop"}[key]
