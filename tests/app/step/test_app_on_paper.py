"""What was written on paper, typed in afterwards with the time when it was done, in the name of whoever did it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

import pytest

from jobtrack.app.main import JobApp
from jobtrack.job.acts.entry import Entry
from jobtrack.pages.asking.on_paper import done_at
from jobtrack.store.file.writer import JobFile
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import NOW, fill, seen

OnJobs = Callable[[str], JobApp]
AT = datetime(2031, 5, 13, 16, 20).astimezone()
"""When it was done: the evening before."""


def last(app: JobApp) -> Entry:
    """The last entry in the file."""
    assert app.file is not None
    return JobFile(app.file.path).job.view.entries[-1]


def words(app: JobApp) -> str:
    return " ".join(seen(app).split())


async def test_what_is_typed_in_has_the_time_when_it_was_done(on_job: OnJobs) -> None:
    """Set once, it holds for entry after entry, in another name too; Escape ends it, and then it is now again."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        before = last(app)
        await choose_row(pilot, "seldom('paper')")
        await fill(pilot, "1")
        await fill(pilot, "16:20")
        assert last(app) == before
        said = "Typed in from paper: what you record counts as done on Tuesday 13 May 2031, 16:20. Escape ends it."
        assert said in words(app)
        await pilot.press("t")
        await fill(pilot, "thin by the weld")
        assert (last(app).at, last(app).typed_at, last(app).by) == (AT, NOW, "Hob Tansley")
        await pilot.press("b")
        await fill(pilot, "Ada Prosser")
        assert said in words(app)
        await pilot.press("t")
        await fill(pilot, "ground back")
        assert (last(app).at, last(app).typed_at, last(app).by) == (AT, NOW, "Ada Prosser")
        await pilot.press("escape")
        assert "counts as done on" not in words(app)
        assert "ended. What you record from here on counts as done now." in words(app)
        await pilot.press("t")
        await fill(pilot, "seen today")
        assert (last(app).at, last(app).typed_at) == (NOW, None)


async def test_escape_out_of_a_field_leaves_it_on(on_job: OnJobs) -> None:
    """It cancels the field alone; the row stays."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "seldom('paper')")
        await fill(pilot, "1")
        await fill(pilot, "16:20")
        await pilot.press("t", "x", "escape")
        assert "counts as done on Tuesday 13 May 2031, 16:20. Escape ends it." in words(app)


async def test_a_time_that_is_none_or_to_come_stays_in_its_field(on_job: OnJobs) -> None:
    """Nothing is set by it, and it says what to type."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await choose_row(pilot, "seldom('paper')")
        await pilot.press("enter")
        await fill(pilot, "25:10")
        assert "Type the time of day as 16:20" in words(app)
        await fill(pilot, "23:59")
        assert "is still to come" in words(app)
        assert app.session.on_paper is None


@pytest.mark.parametrize(("day", "clock", "at"), [
    ("", "8.05", datetime(2031, 5, 14, 8, 5)), ("yesterday", "16:20", datetime(2031, 5, 13, 16, 20)),
    ("2031-05-02", "07:00", datetime(2031, 5, 2, 7, 0)),
])  # fmt: skip
def test_a_day_and_a_time_are_read_as_local(day: str, clock: str, at: datetime) -> None:
    """Today where no day is typed."""
    assert done_at(day, clock, NOW) == at.astimezone()


@pytest.mark.parametrize(
    ("day", "clock"), [("", ""), ("", "16"), ("", "24:00"), ("Friday", "16:20"), ("", "9:42")]
)
def test_what_is_no_time_or_still_to_come_is_refused(day: str, clock: str) -> None:
    with pytest.raises(ValueError, match=r"[Tt]ype"):
        done_at(day, clock, NOW)
