"""Beginning a job: a title and Enter; what isn't known yet is asked where it is needed, or typed on its own page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.begin import BeginScreen
from jobtrack.app.screens.job.known import KnownScreen
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.job.state.job import Job
from jobtrack.pages.job.known import asked_in, known_items, known_words
from jobtrack.pages.wording import FIRST_WORD
from jobtrack.store.file import beginning
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, create
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import fill, on_top, seen

OnFolder = Callable[[], JobApp]
BEGUN = "Recorded 09:41: “Hay trailer” is begun by Hob Tansley."


def words(pilot: Pilot[int]) -> str:
    """What is to be seen, its rows joined."""
    return " ".join(seen(pilot.app).split())


def field(pilot: Pilot[int]) -> str:
    """What stands in the field."""
    return pilot.app.screen.query_one(Input).value


def the_job(folder: Path) -> Job:
    """The one job of the folder."""
    [path] = folder.glob("*.job.toml")
    return JobFile(path).job


async def at_title(pilot: Pilot[int]) -> None:
    """To the page on which a job of the only template is begun."""
    await pilot.press("enter")
    await pilot.pause()
    assert isinstance(pilot.app.screen, BeginScreen)


async def test_title_and_enter_begin_a_job(folder: Path, on_folder: OnFolder) -> None:
    """A title, Enter: the step that is next stands there, the defaults are written, the rest isn't known."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await fill(pilot, "Hay trailer")
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
        assert BEGUN in words(pilot)
    job = the_job(folder)
    assert job.about.title == "Hay trailer"
    [first] = job.view.entries
    assert first.by == "Hob Tansley"
    assert job.places.given("donor.axle-is").value == "under the donor"
    assert job.places.given("nose-down").value == 1
    assert not job.places.given("clear-wanted").acts
    assert [one.id for one in job.open_conditions] == ["ask-first"]


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_first_word_and_hazards_stand_there_whole(on_folder: OnFolder, size: tuple[int, int]) -> None:
    """What the program is and isn't and the hazards of the job are in sight, unscrolled, at both questions."""
    async with on_folder().run_test(size=size) as pilot:
        await at_title(pilot)
        for pressed in ("left", "tab"):
            await pilot.press(pressed)
            assert FIRST_WORD in words(pilot)
            assert "falls and crushes. How to avoid it: stands under the frame" in words(pilot)
            assert pilot.app.screen.query_one("Page").max_scroll_y == 0


async def test_name_is_asked_where_nobody_is_known(folder: Path) -> None:
    """Without a name the same page asks for it; both are refused empty, in one line that says what to do."""
    async with JobApp(folder).run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await fill(pilot, "   ")
        assert "Type a title, then Enter" in words(pilot)
        await fill(pilot, "Hay trailer")
        assert "Who begins it?" in words(pilot)
        await fill(pilot, " ")
        assert "Type your name, then Enter" in words(pilot)
        assert not list(folder.iterdir())
        await fill(pilot, "Mara  Quill")
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
    assert the_job(folder).view.entries[0].by == "Mara Quill"


async def test_tab_asks_for_another_name(folder: Path, on_folder: OnFolder) -> None:
    """Tab on a typed title keeps it and asks who begins it; it never says that something must be typed first."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await pilot.press(*"Hay", "tab")
        assert "Type this first" not in words(pilot)
        assert "Who begins it?" in words(pilot)
        assert field(pilot) == "Hob Tansley"
        await fill(pilot, "Mara Quill")
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
    assert the_job(folder).about.title == "Hay"
    assert the_job(folder).view.entries[0].by == "Mara Quill"


async def test_tab_before_a_title_comes_back_to_it(folder: Path, on_folder: OnFolder) -> None:
    """A name typed first leads back to the title; only then is the job begun."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await pilot.press("tab")
        await fill(pilot, "Mara Quill")
        assert "What is this job called?" in words(pilot)
        assert "Begun by: Mara Quill" in words(pilot)
        assert not list(folder.iterdir())
        await fill(pilot, "Hay trailer")
    assert the_job(folder).view.entries[0].by == "Mara Quill"


async def test_escape_keeps_what_was_typed(folder: Path, on_folder: OnFolder) -> None:
    """From the name back to the title, from the title to the jobs and back: what was typed stands there again."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await pilot.press(*"Hay", "tab", "escape")
        assert field(pilot) == "Hay"
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)
        assert not list(folder.iterdir())
        await at_title(pilot)
        assert field(pilot) == "Hay"


async def test_enter_twice_begins_one_job(folder: Path, on_folder: OnFolder) -> None:
    """Both keys of a double Enter, with nothing painted between them, begin one job and record nothing else."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        pilot.app.screen.query_one(Input).value = "Hay trailer"
        screen = pilot.app.screen
        assert isinstance(screen, BeginScreen)
        screen.entry.submit()
        screen.entry.submit()
        await pilot.press("enter", "enter")
        await pilot.pause()
    assert len(the_job(folder).view.entries) == 1


async def test_two_jobs_of_one_title_are_two_files(folder: Path, on_folder: OnFolder) -> None:
    """A second job of the same title never touches the first."""
    for _ in range(2):
        async with on_folder().run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            await pilot.press("end")
            await at_title(pilot)
            await fill(pilot, "Hay trailer")
            await pilot.pause()
    assert sorted(path.name for path in folder.glob("*.job.toml")) == [
        "hay-trailer-2.job.toml",
        "hay-trailer.job.toml",
    ]


async def test_a_disk_that_takes_nothing_asks_again(
    folder: Path, on_folder: OnFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What can't be written is said with what to do, the title stands in the field, and Enter tries again."""

    def full(*_: object) -> None:
        raise JobFileError(
            "hay-trailer.job.toml: can't be written: No space left on device; choose another place"
        )

    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        with monkeypatch.context() as broken:
            broken.setattr(beginning, "create", full)
            await fill(pilot, "Hay trailer")
            await pilot.pause()
        assert "Not begun: hay-trailer.job.toml: can't be written" in words(pilot)
        assert "Mend that, then Enter" in words(pilot)
        assert field(pilot) == "Hay trailer"
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
    assert the_job(folder).about.title == "Hay trailer"


async def test_a_step_asks_for_what_it_needs(folder: Path, on_folder: OnFolder) -> None:
    """Things known that the step stands on are its lines, and the line asked says which of how many."""
    async with on_folder().run_test(size=(100, 40)) as pilot:
        await at_title(pilot)
        await fill(pilot, "Hay trailer")
        await pilot.pause()
        screen = pilot.app.screen
        assert isinstance(screen, StepScreen)
        first = next(number for number, one in enumerate(screen.at.items) if one.kind == "given")
        screen.choose(first)
        await pilot.pause()
        assert "Known, or not yet, 1 of 3: Rear axle load on its plate (recipient)" in words(pilot)
        await pilot.press(*"1350", "enter")
        assert "Known, or not yet, 2 of 3: Rear axle load on its plate (donor)" in words(pilot)
    assert the_job(folder).places.given("recipient.rear-plate").value == 1350


# What is known, on a page of its own


async def at_known(pilot: Pilot[int]) -> KnownScreen:
    """From the step by the page of the job to the page of what is known."""
    await pilot.press("j", "k")
    await pilot.pause()
    assert isinstance(pilot.app.screen, KnownScreen)
    return pilot.app.screen


async def test_page_of_what_is_known_has_them_all(on_job: Callable[[str], JobApp]) -> None:
    """Each given of the template stands there, answered or not; the marked one with the step that asks for it."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 60)) as pilot:
        screen = await at_known(pilot)
        job, text = screen.desk.job, words(pilot)
        assert len(screen.items) == len(job.plan.givens) == 19
        for one in known_items(job):
            assert known_words(job, one) in text
        assert "Name of the recipient: Tarn horse-box" in text
        known = sum(job.places.given(one.name).value is not None for one in screen.items)
        assert f"What is known: {known} of 19 things." in text
        assert 0 < known < 19
        await pilot.press("home")
        assert "no step asks for it; it stands on the sheets" in words(pilot)
        await pilot.press("down", "down")
        assert f"asked in the step “{asked_in(job)['recipient.rear-plate']}”" in words(pilot)


async def test_known_is_chosen_with_arrows_and_typed(on_job: Callable[[str], JobApp]) -> None:
    """A number begins at once, words after Enter, a choice by its number; each is said back and goes to the file."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 60)) as pilot:
        screen = await at_known(pilot)

        async def to(name: str) -> None:
            await pilot.press("home", *["down"] * [one.name for one in screen.items].index(name))

        await to("drum-discard")
        await pilot.press(*"10 in")
        assert "NOT YET RECORDED" in words(pilot)
        await pilot.press("enter")
        assert "Recorded 09:41: Discard mark on the brake drums: 10 in." in words(pilot)
        await to("donor.name")
        await pilot.press("enter", *"Bexley", "enter")
        await to("donor.axle-is")
        await pilot.press("1", "enter")
        await to("end-play-most")
        await pilot.press("enter", "question_mark", "enter")
        assert app.file is not None
        places = JobFile(app.file.path).job.places
    assert places.given("drum-discard").value == 254
    assert places.given("donor.name").value == "Bexley"
    assert places.given("donor.axle-is").value == "under the donor"
    assert places.given("end-play-most").value is None
    assert len(places.given("end-play-most").acts) == 1


async def test_known_refused_keeps_its_text(on_job: Callable[[str], JobApp]) -> None:
    """A wrong unit is said in one line and stays in the field; nothing typed records nothing; Escape leaves it."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 60)) as pilot:
        screen = await at_known(pilot)
        before = len(screen.desk.job.view.entries)
        await pilot.press("home", *["down"] * 3, *"900 mm", "enter")
        assert field(pilot) == "900 mm"
        assert "mm is a length" in words(pilot)
        await pilot.press("escape")
        await pilot.press("enter", "enter")
        assert "Nothing is typed: ? is don't know yet; Escape leaves it as it is." in words(pilot)
        await pilot.press("escape", "y")
        assert "This line takes no yes or no: Enter begins to type what is known." in words(pilot)
        assert len(screen.desk.job.view.entries) == before
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert isinstance(on_top(app), StepScreen)


async def test_what_is_typed_ahead_answers_no_line_unread(on_job: Callable[[str], JobApp]) -> None:
    """An Enter that was pressed before the line stood on the screen records nothing, and says so."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 60)) as pilot:
        screen = await at_known(pilot)
        screen.pressed = 0.0
        before = len(screen.desk.job.view.entries)
        await pilot.press(*"12")
        screen.pressed = 0.0
        screen.entry.submit()
        await pilot.pause()
        assert "Enter came before this line stood on the screen" in words(pilot)
        assert len(screen.desk.job.view.entries) == before


async def test_known_asks_who_is_there_and_goes_on(folder: Path, make: Callable[[str], JobFile]) -> None:
    """Where nobody is known yet the name is asked, and what was typed is recorded with it."""
    app = JobApp(folder, None, make("half-done"))
    async with app.run_test(size=(100, 60)) as pilot:
        await at_known(pilot)
        await pilot.press("home", *["down"] * 3, *"900", "enter")
        assert "Who is there?" in words(pilot)
        await fill(pilot, "Mara Quill")
        await pilot.pause()
        assert app.screen.query_one(EntryLine).asking is None
        assert app.file is not None
        job = JobFile(app.file.path).job
    assert job.places.given("recipient.tyre-load").value == 900
    assert job.view.entries[-1].by == "Mara Quill"


@pytest.mark.parametrize("template", ["yes-or-no", "none"])
async def test_yes_or_no_and_nothing_to_know(template: str, folder: Path) -> None:
    """y answers a line that asks yes or no; a job whose template asks nothing says so and takes no number."""
    given = {"given": {"towed": {"ask": "Is it towed?", "kind": "yes/no"}}} if template == "yes-or-no" else {}
    plain = {"format": 1, "id": "seat", "title": "Seat", "stage": {"only": {"title": "Only"}},
             "step": {"sweep": {"stage": "only", "title": "Sweep the floor"}}, **given}  # fmt: skip
    file = create(folder / "seat.job.toml", "seat", "A seat", plain)
    async with JobApp(folder, "Hob Tansley", file).run_test(size=(100, 40)) as pilot:
        await at_known(pilot)
        await pilot.press("1", "enter", "escape", "y")
        await pilot.pause()
        said = words(pilot)
    known = JobFile(file.path).job.places.given("towed")
    assert known.value is (True if template == "yes-or-no" else None)
    assert ("Recorded 09:41: Is it towed: yes." in said) == (template == "yes-or-no")


# Help


@pytest.mark.parametrize(
    ("pressed", "said"),
    [
        (["question_mark"], "The jobs of this folder, the half-finished first"),
        (["enter", "question_mark"], "Type what the job is called and press Enter: that begins it"),
        (["x", "question_mark"], "The calculator at the bench; nothing is recorded here by itself."),
        (["x", "enter", "question_mark"], "What goes into one working-out."),
    ],
)
async def test_each_page_says_first_what_it_is_for(
    pressed: list[str], said: str, on_folder: OnFolder
) -> None:
    """? shows it above the keys, also where a field is always open, as long as nothing is typed; Escape goes back."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await pilot.press(*pressed)
        await pilot.pause()
        assert "What this page is for, and what the keys do" in words(pilot)
        assert said in words(pilot)
        await pilot.press("escape")
        await pilot.pause()
        assert said not in words(pilot)


async def test_a_question_mark_in_a_title_is_text(on_folder: OnFolder) -> None:
    """Behind other letters it is text as any other."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await pilot.press(*"Hay", "question_mark")
        assert field(pilot) == "Hay?"


async def test_everything_else_leads_to_what_is_known(on_job: Callable[[str], JobApp]) -> None:
    """The page has a row among what has no key of its own in the step."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 40)) as pilot:
        await choose_row(pilot, "known")
        assert isinstance(app.screen, KnownScreen)


SPITE = "bolt [b]x[/b] [/] \u202eabc\u200d e\u0301 \U0001f527 " + "y" * 60
"""Markup, a text that runs the other way, joiners, marks, a picture, and more than a row."""


async def test_spiteful_title_and_name_stand_as_typed(folder: Path, on_folder: OnFolder) -> None:
    """A title of anything is stored as typed but for its spaces, and shown literally; so is what is known."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await at_title(pilot)
        await fill(pilot, SPITE)
        await pilot.pause()
        assert isinstance(pilot.app.screen, StepScreen)
        await at_known(pilot)
        await pilot.press("enter")
        await fill(pilot, SPITE)
        await pilot.pause()
        assert "[b]x[/b] [/]" in seen(pilot.app)
        assert "\u202e" not in seen(pilot.app)
    job = the_job(folder)
    assert job.about.title == " ".join(SPITE.split())
    assert job.places.given("recipient.name").value == SPITE.strip()
