"""The far view: the same step, the same keys, the same acts; drawn to be read from two metres."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.widgets import key_row
from jobtrack.pages.far.large import SMALL, in_rows, large
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import seen

OnJobs = Callable[[str], JobApp]
Compare = Callable[..., bool]
WALK = (
    "0",
    "full_stop",
    "4",
    "enter",
    "w",
    *"seized",
    "enter",
    "down",
    "1",
    "comma",
    "5",
    "enter",
    "u",
    "f",
    "enter",
)
"""A reading, words, a reading with a comma, one taken back, and the step finished with what is left."""


def step_of(app: Any) -> StepScreen:
    assert isinstance(app.screen, StepScreen)
    return app.screen


def again(app: JobApp) -> JobFile:
    assert app.file is not None
    return JobFile(app.file.path)


async def walked(pilot: Pilot[int], app: JobApp, *first: str) -> list[tuple[object, ...]]:
    """What the walk adds to the file: who, in which step, which acts."""
    before = len(again(app).job.view.entries)
    step_of(app).go("tack.right")
    await pilot.pause()
    for key in (*first, *WALK):
        await pilot.press(key)
    entries = again(app).job.view.entries[before:]
    return [(one.by, one.step, [_of(act.as_dict()) for act in one.did]) for one in entries]


def _of(plain: dict[str, object]) -> dict[str, object]:
    """An act without the names of other entries, which are random."""
    return {
        key: value for key, value in plain.items() if key not in ("replaces", "undoes", "closes", "on", "of")
    }


async def test_the_same_keys_record_the_same_acts(on_job: OnJobs, folder: Any) -> None:
    """A walk through a step adds the same to the file in the far view as on the page."""
    found = []
    for first in ((), ("v",)):
        app = on_job("half-done")
        async with app.run_test() as pilot:
            found.append(await walked(pilot, app, *first))
            assert step_of(app).at.far == bool(first)
    assert found[0] == found[1]
    assert len(found[0]) >= 5


async def test_what_is_typed_is_large_and_not_yet_recorded(on_job: OnJobs) -> None:
    """Digit by digit on the page; the field's line below says how it is read."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("tack.right")
        await pilot.press("v", *"0.4")
        await pilot.pause()
        rows = seen(app).split("\n")
        for row in large("0.4", 1):
            assert any(row.strip() in one for one in rows)
        assert "millimetres" in seen(app)
        assert "NOT YET RECORDED" in seen(app)
        await pilot.press("escape")
        assert "Cancelled: what was asked or typed there isn't recorded." in seen(app)
        assert not again(app).job.places.reading("tack.right", "gap").acts


async def test_one_key_goes_there_and_back(on_job: OnJobs) -> None:
    """The page comes back as it was, with the line that was chosen."""
    app = on_job("half-done")
    async with app.run_test() as pilot:
        step_of(app).choose(0)
        await pilot.pause()
        before = seen(app)
        await pilot.press("v")
        assert seen(app) != before
        await pilot.press("v")
        assert seen(app) == before


async def test_a_hazard_row_stays_in_sight(on_job: OnJobs) -> None:
    """Whole until somebody turns to a line; then the worst with how to avoid it, on the far view as on the page."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        step_of(app).go("cut.right")
        await pilot.press("v")
        assert "In every step of this job:" in seen(app)
        whole = {
            row.split()[0] for row in seen(app).split("\n") if row.strip().startswith(("DANGER", "WARNING"))
        }
        assert whole == {"DANGER", "WARNING"}
        await pilot.press("0")
        assert "WARNING" in seen(app)
        assert "In every step of this job:" not in seen(app)
        await pilot.press("escape", "z")
        assert not step_of(app).at.far
        assert "In every step of this job:" in seen(app)


async def test_open_conditions_by_tag_with_how_many_more(on_job: OnJobs) -> None:
    """One row, however many rows there are."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("v")
        first = seen(app).split("\n")[0]
        assert first.strip().startswith("9 open: KEEP THE MARKS (right), AXLE DRY, WHEELS NOT HELD")
        assert "more" in first


async def test_what_was_recorded_says_where_it_lies(on_job: OnJobs) -> None:
    """A reading outside is said in large letters; taken back, it isn't said any more."""
    app = on_job("half-done")
    async with app.run_test(size=(120, 40)) as pilot:
        step_of(app).go("cut.right")
        await pilot.press("v", *"9", "enter")
        await pilot.pause()
        rows = seen(app).split("\n")
        word = next(
            row
            for row in range(len(rows))
            if rows[row].rstrip().endswith(large("outside", SMALL)[0].rstrip())
        )
        assert rows[word + 2].split()[-1] != rows[word + 2].strip()  # the value stands beside it
        above, across = " ".join(rows[:word]), [row for row in rows[word:] if set(row.strip()) == {"─"}]
        assert "Recorded last: " in above
        assert across
        await pilot.press("u")
        assert "Recorded last: " not in seen(app)


async def test_a_number_that_belongs_nowhere_is_asked_about_under_the_name_of_the_step(
    on_job: OnJobs,
) -> None:
    """What was recorded before it is out of sight: it would be read as the answer to the number."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        await pilot.press("v", *"2.0", "enter")
        await pilot.pause()
        assert "Recorded last: " in seen(app)
        screen.choose(next(number for number, one in enumerate(screen.at.items) if one.yes_or_no))
        await pilot.press("9")
        await pilot.pause()
        assert "A number can't be recorded here." in seen(app)
        assert "Recorded last: " not in seen(app)
        title = "Set it level with the other and tack it (right): in hand"
        assert title in seen(app) or (in_rows(title, SMALL, 76) or ["?"])[0].strip() in seen(app)


async def test_blocks_are_the_keys(on_job: OnJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each of the three rows of a block presses its key; while something is asked the blocks are its keys."""
    monkeypatch.setattr(key_row, "DOUBLE_TAP", 0.0)
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        screen = step_of(app)
        screen.go("tack.right")
        screen.choose(next(number for number, one in enumerate(screen.at.items) if one.yes_or_no))
        await pilot.press("v")
        item = screen.item
        assert item is not None
        for beside in (-1, 0, 1):
            await press(pilot, "yes", beside)
            assert again(app).job.places.tick("tack.right", item.name).value is True
            await press(pilot, "undo", beside)
            assert again(app).job.places.tick("tack.right", item.name).value is not True
        await press(pilot, "unsafe now", 1)
        assert screen.entry.asking is not None
        await press(pilot, "Escape cancels", -1)
        assert screen.entry.asking is None


async def press(pilot: Pilot[int], words: str, below: int) -> None:
    """Press a block by its word, or above or below it."""
    rows = seen(pilot.app).split("\n")
    row = next(number for number, one in enumerate(rows) if "│" in one and words in one)
    await pilot.click(offset=(rows[row].index(words) + 1, row + below))
    await pilot.pause()


PICTURES = {
    "small-typing": ((80, 24), ["v", *"37 15/16 in"]),
    "large-typing": ((120, 40), ["v", *"0.4"]),
    "largest-outside": ((200, 60), ["v", *"2.0", "enter"]),
}


@pytest.mark.parametrize("name", PICTURES)
def test_pictures(name: str, on_job: OnJobs, snap_compare: Compare) -> None:
    """The far view looks as it did when it was looked at."""
    size, pressed = PICTURES[name]

    async def before(pilot: Pilot[Any]) -> None:
        await pilot.pause()
        step_of(pilot.app).go("tack.right")
        await pilot.press(*pressed)
        await pilot.pause()

    assert snap_compare(on_job("half-done"), run_before=before, terminal_size=size)
