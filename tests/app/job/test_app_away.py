"""Coming back to a running clock: one question about the silence, and none while somebody works."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import people
from jobtrack.job.compose.draft import Draft
from jobtrack.job.time import absence
from jobtrack.sheets.as_json.job import job_json
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now
from tests.support.invented_jobs import NOW, seen

QUESTION = "Were you working on this?"
WHO = "Hob Tansley"


class Clock:
    """The time of day, moved by hand."""

    def __init__(self) -> None:
        self.time = NOW

    def __call__(self) -> datetime:
        return self.time

    def after(self, minutes: int) -> None:
        self.time += timedelta(minutes=minutes)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    found = Clock()
    monkeypatch.setattr(now, "local_now", found)
    monkeypatch.setattr(absence, "QUIET", timedelta(minutes=45))
    return found


@pytest.fixture
def working(make: Callable[[str], JobFile], folder: object, clock: Clock) -> JobApp:
    """The app in a job in which somebody's clock went on ten minutes ago."""
    file = make("half-done")
    for what, back in (("off", 11), ("on", 10)):
        draft = Draft(file.job, WHO, NOW - timedelta(minutes=back))
        people.clock(draft, what)
        file.append(draft.done(), draft.by, draft.at, id=draft.id)
    return JobApp(file.path.parent, WHO, file)


async def later(pilot: Pilot[int], clock: Clock, minutes: int) -> None:
    """The machine sleeps for so long, and the app looks around."""
    clock.after(minutes)
    await pilot.pause(1.3)


def counted(app: JobApp) -> float:
    assert app.file is not None
    return float(job_json(JobFile(app.file.path).job)["hours"]["by_person"].get(WHO, 0))


async def test_after_a_long_silence_it_asks_once(working: JobApp, clock: Clock) -> None:
    """The question names from when to when; answered or dropped, it isn't asked again for the same silence."""
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert QUESTION not in seen(working)
        await later(pilot, clock, 208)
        assert "Nothing was entered from 09:31 to 13:09. Were you working on this?" in " ".join(
            seen(working).split()
        )
        await pilot.press("escape")
        assert QUESTION not in seen(working)
        await later(pilot, clock, 60)
        assert QUESTION not in seen(working)


async def test_no_takes_the_silence_out_of_the_hours(working: JobApp, clock: Clock) -> None:
    """A break stands from the last entry on, the clock goes on at the return, and the silence isn't counted."""
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        before = counted(working)
        await later(pilot, clock, 208)
        await pilot.press("n")
        await pilot.pause()
        assert counted(working) == pytest.approx(before, abs=1e-9)
        assert working.file is not None
        broke, went_on = JobFile(working.file.path).job.view.entries[-2:]
        assert (broke.at, broke.typed_at) == (NOW - timedelta(minutes=10), clock.time)
        assert [type(one.did[0]) for one in (broke, went_on)] == [ClockAct, ClockAct]
        await pilot.press("t")
        clock.after(30)
        await pilot.press(*"back", "enter")
        assert counted(working) == pytest.approx(before + 0.5, abs=1e-9)


async def test_yes_lets_it_count(working: JobApp, clock: Clock) -> None:
    """Somebody who worked without an entry says so, and the time is theirs."""
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        before = counted(working)
        await later(pilot, clock, 60)
        await pilot.press("y")
        await pilot.pause()
        assert working.file is not None
        [act] = JobFile(working.file.path).job.view.entries[-1].did
        assert act == NoteAct("Worked on this from 09:31 to 10:41, without an entry.")
        assert counted(working) == pytest.approx(before + 70 / 60, abs=0.01)


async def test_never_while_a_field_is_open(working: JobApp, clock: Clock) -> None:
    """What is being typed is finished first; then the question comes, about the silence before it."""
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.press("t")
        await pilot.press(*"half a")
        await later(pilot, clock, 90)
        assert QUESTION not in seen(working)
        await pilot.press(*" note", "enter")
        await pilot.pause(1.3)
        assert QUESTION not in seen(working)
        await later(pilot, clock, 1)
        assert "from 09:31 to 11:11. Were you" in " ".join(seen(working).split())
        before = counted(working)
        await pilot.press("n")
        await pilot.pause()
        assert counted(working) == pytest.approx(before - 100 / 60, abs=0.01)


@pytest.mark.parametrize("minutes", [5, 30])
async def test_a_short_silence_is_nobodys_business(working: JobApp, clock: Clock, minutes: int) -> None:
    """Less than three quarters of an hour asks nothing."""
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await later(pilot, clock, minutes)
        assert QUESTION not in seen(working)


async def test_nobody_is_asked_without_a_clock(working: JobApp, clock: Clock) -> None:
    """With the clock off, a silence is not a question."""
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.press("k")
        await later(pilot, clock, 300)
        assert QUESTION not in seen(working)


async def test_a_clock_left_running_is_asked_about_on_opening(working: JobApp, clock: Clock) -> None:
    """Opened the next morning with the clock still on, it asks."""
    clock.after(14 * 60)
    async with working.run_test(size=(80, 24)) as pilot:
        await pilot.pause(1.3)
        assert "from 09:31 to 23:41" in " ".join(seen(working).split())


def test_the_question_looks_right(working: JobApp, clock: Clock, snap_compare: Callable[..., bool]) -> None:
    """The question stands where one types, with what each key does."""

    async def away(pilot: Pilot[int]) -> None:
        await pilot.pause()
        await later(pilot, clock, 208)

    assert snap_compare(working, run_before=away, terminal_size=(80, 24))
