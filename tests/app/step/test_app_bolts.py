"""Bolts and weld runs at the keyboard: one key a click, what is typed of them, and what wrong keys do."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.doing import TorqueAct, WeldAct
from jobtrack.job.acts.said import MarkAct
from jobtrack.job.doing.tightening import tightening
from jobtrack.job.state.job import FINISHED
from jobtrack.pages.far.large import SMALL, in_rows
from jobtrack.store.file.writer import JobFile, create
from tests.app.process.test_app_slow_disk import Share, share
from tests.job.doing.rig import UBOLTS, WELD, template
from tests.support.invented_jobs import seen, type_in

__all__ = ["share"]

OnRig = Callable[[], JobApp]
CROSSWISE = ["1", "3", "2", "4"]
TAKEN_FOR_ONE = 0.5


@pytest.fixture
def on_rig(folder: Path) -> OnRig:
    """The app in a job with bolts and welds, nothing recorded yet."""
    folder.mkdir(exist_ok=True)
    path = folder / "rig.job.toml"
    create(path, "rig", "Rig", template())
    return lambda: JobApp(folder, "Hob Tansley", JobFile(path))


def acts(app: JobApp) -> list[TorqueAct | WeldAct]:
    """The bolts and runs of the file, read anew."""
    assert app.file is not None
    entries = JobFile(app.file.path).job.view.counting_entries()
    return [act for entry in entries for act in entry.did if isinstance(act, TorqueAct | WeldAct)]


def clicks(app: JobApp) -> list[tuple[str | None, str, float | None]]:
    """Bolt, stage and torque of each click."""
    return [(act.member, act.stage, act.value) for act in acts(app) if isinstance(act, TorqueAct)]


def words(app: JobApp) -> str:
    """What stands on the screen, in one line."""
    return " ".join(seen(app).split())


async def at(pilot: Pilot[int], app: JobApp, step: str) -> StepScreen:
    """At a step of the job."""
    await pilot.pause()
    assert isinstance(app.screen, StepScreen)
    app.screen.go(step)
    await pilot.pause()
    return app.screen


async def at_bolts(pilot: Pilot[int], app: JobApp) -> StepScreen:
    """At the U-bolts, their figure typed."""
    screen = await at(pilot, app, UBOLTS)
    await type_in(pilot, "110")
    assert screen.item is not None
    assert screen.item.kind == "torque"
    return screen


async def test_four_u_bolts_in_three_stages_are_twelve_clicks(on_rig: OnRig) -> None:
    """Twelve keys, one a click, none to scroll or to go on; each is asked for and said back."""
    app, keys = on_rig(), 0
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await at_bolts(pilot, app)
        assert "B O L T 1 O F 4 , S T A G E 1 O F 3 33 N·m = 24 lbf ft" in words(app)
        while screen.at.following is not None and keys < 20:
            await pilot.press("y" if keys % 2 else "*")
            keys += 1
            await pilot.pause()
            if keys == 4:
                assert "Stage 1 of 3 is recorded of all 4 bolts; the next is stage 2" in words(app)
        assert keys == 12
        assert "The last stage is recorded of all 4 bolts." in words(app)
        await pilot.press("enter")
        assert screen.item is None
    torque = {"1": 33, "2": 66, "3": 110}
    assert clicks(app) == [(bolt, stage, torque[stage]) for stage in "123" for bolt in CROSSWISE]


async def press_at(pilot: Pilot[int], app: JobApp, key: str, when: float) -> None:
    """A key with the time at which it was pressed."""
    event = events.Key(key, key)
    event.set_sender(app)
    event.time = when
    driver = app._driver
    assert driver is not None
    driver.send_message(event)
    await pilot.pause()


@pytest.mark.parametrize(
    ("gaps", "counted"), [([0.1], 1), ([0.49], 1), ([0.51], 2), ([0.4, 0.4, 0.4], 1), ([0.6, 0.1, 0.6], 3)]
)
async def test_a_double_tap_is_one_bolt(
    gaps: list[float], counted: int, on_rig: OnRig, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A press within half a second of the last is the same one; so is a key that is held."""
    monkeypatch.setattr("jobtrack.app.parts.step.turning.SAME_PRESS", TAKEN_FOR_ONE)
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await at_bolts(pilot, app)
        when = screen.pressed + 60
        for gap in [0.0, *gaps]:
            when += gap
            await press_at(pilot, app, "y", when)
    assert len(clicks(app)) == counted


async def test_a_value_typed_and_a_likely_slip(on_rig: OnRig) -> None:
    """24 where 33 N·m is asked was likely meant in lbf ft, and is asked before it is recorded."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        await type_in(pilot, "24")
        assert "Was 24 lbf ft" in words(app)
        assert clicks(app) == []
        await pilot.press("y")
        await type_in(pilot, "34")
    typed = [(act.typed, act.member) for act in acts(app) if isinstance(act, TorqueAct)]
    assert typed == [("24 lbf ft", "1"), ("34", "3")]


async def test_words_name_another_bolt_or_stage(on_rig: OnRig) -> None:
    """Snug all, one out of turn, and the walk goes on where it was."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        for text in ("all snug", "2", "4 final 111"):
            await pilot.press("w")
            await type_in(pilot, text)
        await pilot.press("y")
        assert "B O L T 3 O F 4 , S T A G E 1 O F 3" in words(app)
    assert clicks(app) == [(None, "snug", None), ("2", "1", 33), ("4", "final", 111), ("1", "1", 33)]


WRONG = [
    (("n",), "it clicked"),
    (("/",), "it clicked"),
    (("3", "m", "m", "enter"), "mm is a length"),
    (("3", "backspace", "enter"), "Nothing is typed"),
    (("w", "enter"), "Nothing is typed"),
    (("w", "t", "i", "g", "h", "t", "enter"), "torque"),
    (("3", "escape"), "Cancelled: what was asked or typed there isn't recorded."),
    (("enter",), "B O L T 1"),
    (("=",), "no value for this line"),
]


@pytest.mark.parametrize(("keys", "said"), WRONG, ids=["".join(keys) for keys, _ in WRONG])
async def test_wrong_keys_record_nothing(keys: tuple[str, ...], said: str, on_rig: OnRig) -> None:
    """Each says what is wanted; the bolt that was asked is asked still."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        await pilot.press(*keys)
        await pilot.pause()
        assert said in words(app)
        await pilot.press("escape")
        assert clicks(app) == []
        assert "B O L T 1 O F 4" in words(app) or "outline" in words(app).lower()


async def test_an_undo_asks_for_the_bolt_again(on_rig: OnRig) -> None:
    """And the next click is that bolt's."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        await pilot.press("y", "y", "u")
        assert "B O L T 3 O F 4 , S T A G E 1" in words(app)
        await pilot.press("y")
    assert [bolt for bolt, _, _ in clicks(app)] == ["1", "3"]


async def test_a_mark_begins_with_the_last_bolt(on_rig: OnRig) -> None:
    """Who is called away types nothing but Enter."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        await pilot.press("y", "y", "m", "enter")
        assert app.file is not None
        [mark] = app.file.job.view.of_kind(MarkAct)
    assert mark.act == MarkAct("bolt 3, stage 1")


async def test_finishing_says_which_bolts_are_left(on_rig: OnRig) -> None:
    """It isn't stopped, and isn't silent."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        await pilot.press("y", "y", "f")
        await pilot.pause()
        assert (
            "ubolts: last stage not recorded, bolts 1 and 3 at stage 1; bolts 2 and 4 without an entry"
            in words(app)
        )
        await pilot.press("enter")
        assert app.file is not None
        assert app.file.job.state(UBOLTS) == FINISHED


async def test_a_weld_asks_the_current_and_the_rod_once(on_rig: OnRig) -> None:
    """Three runs: the rod is offered, taken with Enter, and goes with the others by itself."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at(pilot, app, WELD)
        assert "R U N 1 O F 3, amps? (A)" in words(app)
        await type_in(pilot, "95")
        assert "Which rod or wire?" in words(app)
        assert acts(app) == []
        await pilot.press("enter")
        assert "Before the next run the template asks: hand-warm. Run 1 recorded just now." in words(app)
        await type_in(pilot, "100 A")
        await pilot.press("y")
        assert "Every run is recorded." in words(app)
    assert [(act.run, act.amps, act.rod) for act in acts(app) if isinstance(act, WeldAct)] == [
        ("1", 95, "2.5 mm"), ("2", 100, "2.5 mm"), ("3", None, "2.5 mm"),
    ]  # fmt: skip


async def test_keys_typed_ahead_answer_no_question_unseen(on_rig: OnRig) -> None:
    """A second Enter in one go doesn't take a rod that nobody has read; a second y in one go no other bolt."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at(pilot, app, WELD)
        driver = app._driver
        assert driver is not None
        for key, typed in (("9", "9"), ("5", "5"), ("enter", "\r"), ("enter", "\r")):
            event = events.Key(key, typed)
            event.set_sender(app)
            driver.send_message(event)
        await pilot.pause(0.05)
        assert acts(app) == []
        assert "Which rod or wire?" in words(app)
        await pilot.press("enter")
    assert acts(app) == [WeldAct("pad", "1", 95, rod="2.5 mm")]


async def test_a_click_on_its_way_is_reckoned_with(on_rig: OnRig, share: Share) -> None:
    """While the disk hangs the next bolt is asked, and the second click is that one's."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        share.hold("append")
        await pilot.press("y")
        await pilot.pause()
        assert "NOT YET RECORDED" in words(app)
        assert "B O L T 3 O F 4" in words(app)
        await pilot.press("y")
        await pilot.pause()
        assert "B O L T 2 O F 4" in words(app)
        share.let_go()
        await pilot.pause()
    assert [bolt for bolt, _, _ in clicks(app)] == ["1", "3"]


async def test_the_far_view_names_the_bolt(on_rig: OnRig) -> None:
    """And takes its click."""
    app = on_rig()
    async with app.run_test(size=(80, 24)) as pilot:
        await at_bolts(pilot, app)
        await pilot.press("y", "v")
        await pilot.pause()
        drawn = in_rows("bolt 3 of 4, stage 1 of 3", SMALL, 76)
        assert drawn is not None
        assert all(row.strip() in seen(app) for row in drawn)
        await pilot.press("y")
        assert app.file is not None
        found = tightening(app.file.job, app.file.job.steps[UBOLTS], "ubolts")
    assert found.next is not None
    assert found.next.name == "2"
