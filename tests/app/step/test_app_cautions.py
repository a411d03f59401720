"""Hazard messages and open conditions on the screens: in sight, whole, none of them cut."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from rich.cells import cell_len

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.values import TickAct
from jobtrack.job.compose import conditions, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.pages.job.conditions import MOST, top_lines
from jobtrack.pages.job.last_line import last_line
from jobtrack.pages.step.hazards import SHOW_ALL, hazard_lines, pinned_lines, short_lines
from jobtrack.pages.step.items import left_lines
from jobtrack.pages.typeset import Line
from jobtrack.sheets.words.hazards import WORST, hazard_sentences
from jobtrack.sheets.words.sentences import worst_first
from jobtrack.store.file.writer import JobFile
from jobtrack.template.model import Hazard
from tests.support.invented_jobs import seen, type_in

Make = Callable[[str], JobFile]
OnJobs = Callable[[str], JobApp]

HAZARDS = (
    Hazard("CAUTION", "Brake fluid", "burns eyes and skin, strips paint", "glasses, gloves, rinse with water"),
    Hazard("DANGER", "Shaft off: gear and transmission brake hold nothing", "vehicle rolls and crushes",
           "chocks front and back of both front wheels before the first bolt"),
    Hazard("WARNING", "Brake dust", "old linings may hold asbestos: kills slowly", "wet it, never blow, bag the cloth"),
)  # fmt: skip


def words(lines: list[Line]) -> str:
    """The rows as one text, every space one space."""
    return " ".join(" ".join(line.plain for line in lines).split())


def turn_to(app: JobApp, step: str) -> None:
    assert isinstance(app.screen, StepScreen)
    app.screen.go(step)


def put(file: JobFile, step: str | None, *acts: Act | str) -> None:
    """An entry with these acts; a text is opened as a condition in somebody's own words."""
    last = list(file.job.view.entries)[-1]
    draft = Draft(file.job, "Hob Tansley", last.at, step)
    for act in acts:
        conditions.opens(draft, act) if isinstance(act, str) else draft.add(act)
    file.append(draft.done(), draft.by, draft.at, id=draft.id, step=step)


# The hazard messages


@pytest.mark.parametrize("width", [30, 48, 78, 118])
def test_how_to_avoid_it_is_never_cut(width: int) -> None:
    """Short or whole, each message says how to avoid its hazard, in rows that fit, the signal word on the first."""
    for lines in (hazard_lines(HAZARDS, width), short_lines(HAZARDS, width)):
        assert all(cell_len(line.plain) <= width for line in lines)
        text = words(lines)
        for one in HAZARDS:
            assert one.avoid[1:] in text
            first = next(line.plain for line in lines if one.signal in line.plain)
            assert first.startswith(f" {one.signal} ")
            assert first.split(None, 1)[1].startswith(one.hazard[:5])
        assert [word for word in text.split() if word in WORST] == ["DANGER", "WARNING", "CAUTION"]


def test_short_message_takes_one_row_or_two_at_eighty_columns() -> None:
    """A message that fits takes one row, a longer one two; what the hazard does is left to the whole one."""
    short = [line.plain for line in short_lines(HAZARDS, 78)]
    assert len(short) == 4
    assert short[2].split(None, 1) == ["WARNING", "Brake dust. Wet it, never blow, bag the cloth."]
    assert "kills slowly" not in " ".join(short)


@pytest.mark.parametrize(("most", "whole"), [(10, 3), (4, 3), (3, 1), (1, 1)])
def test_what_does_not_fit_is_named_with_the_key_that_shows_it(most: int, whole: int) -> None:
    """The worst message is whole in any case; the others go by signal word and hazard, and say how many they are."""
    text = words(pinned_lines(HAZARDS, 78, most))
    avoided = [one for one in HAZARDS if one.avoid[1:] in text]
    assert len(avoided) == whole
    assert "Shaft off" in avoided[0].hazard or whole == 3
    assert all(one.hazard in text and one.signal in text for one in HAZARDS)
    assert (f"and {3 - whole} more, {SHOW_ALL} shows how to avoid it:" in text) == (whole < 3)


async def test_messages_stay_in_sight_after_something_is_recorded(on_job: OnJobs) -> None:
    """At 80x24 how to avoid what is dangerous stands on the step once readings come in, wherever the page stands."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        turn_to(app, "cut.right")
        await pilot.pause()
        assert "bursts or jams and cuts deep" in seen(app)
        await type_in(pilot, "0.2")
        for pressed in ("down", "end", "home"):
            await pilot.press(pressed)
            await pilot.pause()
            text = " ".join(seen(app).split())
            assert "Guard on, both hands, face shield, never above its speed." in text
        assert "bursts or jams" not in seen(app)


@pytest.mark.parametrize("pressed", ["down", "pagedown", "end"])
async def test_messages_stay_in_sight_before_anything_is_recorded(pressed: str, on_job: OnJobs) -> None:
    """Whoever moves on from the top of a step keeps how to avoid its hazards in sight."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        turn_to(app, "cut.right")
        await pilot.press(pressed)
        await pilot.pause()
        assert "Guard on, both hands, face shield, never above its speed." in " ".join(seen(app).split())


async def test_a_step_turned_to_after_an_entry_stands_from_its_top(on_job: OnJobs) -> None:
    """The page is drawn anew as rows or the minute change: the hazards of the step turned to stay in sight."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        turn_to(app, "cut.right")
        await type_in(pilot, "0.2")
        turn_to(app, "weld.right")
        await pilot.pause()
        assert isinstance(app.screen, StepScreen)
        app.screen.draw()
        await pilot.pause()
        assert app.screen.page.scroll_offset.y == 0


async def test_one_key_shows_every_message_whole(on_job: OnJobs) -> None:
    """The key shows what each hazard does and how to avoid it, those of the whole job with them."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 60)) as pilot:
        turn_to(app, "cut.right")
        await type_in(pilot, "0.2")
        assert "bursts or jams and cuts deep" not in seen(app)
        await pilot.press(SHOW_ALL)
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert app.file is not None
        planned = app.file.job.steps["cut.right"]
        for one in (*planned.step.hazard, *app.file.job.plan.template.hazard):
            assert f"{one.hazard}. What it does: {one.does}. How to avoid it: {one.avoid}." in text


async def test_the_jobs_own_hazards_stand_on_every_step(on_job: OnJobs) -> None:
    """The template's own messages stand on the page of a step after something was recorded in it too."""
    app = on_job("half-done")
    async with app.run_test(size=(100, 70)) as pilot:
        await type_in(pilot, "22.9")
        text = " ".join(seen(app).split())
        assert app.file is not None
        assert "In every step of this job:" in text
        for one in app.file.job.plan.template.hazard:
            assert f"{one.signal} {one.hazard}. {one.avoid[0].upper()}{one.avoid[1:]}." in text


async def test_the_jobs_own_hazards_stand_where_a_job_is_begun(on_folder: Callable[[], JobApp]) -> None:
    """Before the first question the template's own messages stand whole."""
    app = on_folder()
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert "DANGER Vehicle off its wheels. What it does: falls and crushes. How to avoid it:" in text
        assert "WARNING Working alone." in text


def test_a_hazard_in_one_sentence() -> None:
    """For a sheet a message is one sentence, its signal word in front, the worst first."""
    assert hazard_sentences(HAZARDS)[1] == (
        "WARNING: Brake dust. What it does: old linings may hold asbestos: kills slowly. "
        "How to avoid it: wet it, never blow, bag the cloth."
    )


# The open conditions


def test_danger_stands_above_what_is_to_be_asked(make: Make) -> None:
    """What somebody saw unsafe comes before the tags, the question to others last, with a tag of its own."""
    file = make("half-done")
    put(file, None, "Trestle foot is cracked")
    acts = [act for entry in file.job.view.entries for act in entry.did]
    opened = next(act for act in acts if getattr(act, "opens", "") == ASK_FIRST)
    put(file, None, opened)
    order = worst_first(file.job)
    assert order[0].text == "Trestle foot is cracked"
    assert (order[-1].id, order[-1].tag) == (ASK_FIRST, "ASK FIRST")
    lines = [line.plain for line in top_lines(file.job, 78)]
    assert lines[0] == "Open: Trestle foot is cracked"
    assert "ASK FIRST" in " ".join(lines)


@pytest.mark.parametrize("width", [40, 78, 118])
@pytest.mark.parametrize("most", [2, MOST])
def test_nothing_that_is_open_is_cut(width: int, most: int, make: Make) -> None:
    """No condition on top ends in an ellipsis: it stands whole or goes by its tag, and how many more is said."""
    job = make("half-done").job
    for step in (None, *job.steps.values()):
        lines = top_lines(job, width, most, step)
        text = words(lines)
        assert len(lines) <= most
        assert "…" not in text or (width, most) == (40, 2)
        assert "more open" in text or "9 open: " in text


def test_far_too_long_a_condition_names_the_key_that_shows_it(make: Make) -> None:
    """A text that fills the screen by itself is begun, and says where it stands whole and how many more there are."""
    file = make("half-done")
    put(file, None, "the frame " * 200)
    lines = [line.plain for line in top_lines(file.job, 78)]
    assert len(lines) == MOST
    assert lines[-1] == "… j shows it whole; 9 more open"


async def test_one_key_shows_all_that_is_open_whole(on_job: OnJobs) -> None:
    """The page of the job has every condition in its own words, and the job's hazards."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 60)) as pilot:
        await pilot.press("j")
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert app.file is not None
        assert all(one.words in text for one in app.file.job.open_conditions)
        assert "DANGER Vehicle off its wheels. What it does: falls and crushes." in text
        await pilot.press("escape")
        assert isinstance(app.screen, StepScreen)


# What is next


def test_the_foot_names_the_step_that_nothing_stops(make: Make) -> None:
    """The sentence can't be read as speaking of the step in hand: it names the one that it means."""
    file = make("surveyed")
    here = file.job.steps["donor-axle"]
    stops = (
        "Nothing in the order of steps or in what is recorded as open stops “{}”. "
        "Look at the vehicle before you begin."
    )
    assert last_line(file.job, here).endswith(f"This step is next. {stops.format(here.step.title)}")
    put(file, "mark.left", TickAct("own-marks", True))
    said = last_line(file.job, file.job.steps["mark.left"])
    assert said.endswith(f"This step is in hand. Another is next. {stops.format(here.step.title)}")


def test_a_hold_on_this_page_is_named_where_it_alone_stops_the_next_step(make: Make) -> None:
    """With the marking finished and only its hold unreleased, the foot names the hold and what it stops."""
    file = make("half-done")
    draft = Draft(file.job, "Hob Tansley", list(file.job.view.entries)[-1].at, "mark.right")
    steps.finished(draft)
    file.append(draft.done(), draft.by, draft.at, id=draft.id, step="mark.right")
    job = file.job
    said = last_line(job, job.steps["mark.right"])
    assert job.next_steps == []
    assert (
        "The hold point of this step isn't released: Cut release: side, direction and figure read back aloud?"
        in said
    )
    assert said.endswith("It alone stops “Cut the old perch off, grind flush (right)”.")


# What finishing leaves


def test_what_finishing_leaves_open_is_listed(make: Make) -> None:
    """Readings without a value, checks without an answer and a hold that isn't released, each by its name."""
    job = make("half-done").job
    planned = job.steps["cut.right"]
    left = left_lines(job, planned)
    assert left[0] == "Finishing it now leaves this open:"
    for reading in planned.step.reading.values():
        assert f"- {reading.say}: no reading" in left
    for tick in planned.step.tick.values():
        assert f"- {tick.ask} not answered" in left
    hold = job.hold("mark.right")
    assert hold is not None
    assert f"- hold not released: {hold.ask}" in left_lines(job, job.steps["mark.right"])


def test_nothing_is_listed_where_nothing_is_left(make: Make) -> None:
    """A step with all its answers within their limits and its hold released leaves nothing."""
    job = make("half-done").job
    assert left_lines(job, job.steps["mark.left"]) == []
