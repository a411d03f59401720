"""A small job of one step, from what must be asked first to what is due after it was closed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from jobtrack.app.main import JobApp
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct
from jobtrack.job.acts.people import AgreedAct
from jobtrack.store.file.beginning import first_acts
from jobtrack.store.file.writer import JobFile, create
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import NOW, fill, seen

TOW_HOOK: dict[str, Any] = {
    "format": 1, "id": "hook", "title": "Tow hook", "ask_first": "Not yet asked: does this need an inspection?",
    "stage": {"fit": {"title": "Fit it"}},
    "step": {"bolt": {"stage": "fit", "title": "Bolt it on", "tick": {"marked": {"ask": "Paint mark on each nut?"}}}},
    "due_afterwards": {"again": {"after": "50 km", "step": "bolt", "say": "Nuts again"}},
}  # fmt: skip


@pytest.fixture
def hook(folder: Path) -> JobFile:
    """The job begun, its one question not asked yet."""
    file = create(folder / "hook.job.toml", "hook", "Hook for the hay trailer", TOW_HOOK)
    draft = first_acts(file.job, [], "Hob Tansley", NOW)
    file.append(draft.done(), draft.by, draft.at, id=draft.id)
    return file


async def test_small_job_to_its_end(hook: JobFile) -> None:
    """Asked, done, closed with an answer, and its due line recorded: all by keys, and all in the file."""
    app = JobApp(hook.path.parent, "Hob Tansley", hook)
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("y", "f")
        await pilot.press("o", "e", "c")
        assert "Not closed: 1 left, listed above. Escape goes back to that; s stops the job." in " ".join(
            seen(app).split()
        )
        await pilot.press("escape", "escape", "c", "enter")
        await pilot.pause()
        await fill(pilot, "Ruth Dole, inspector")
        await fill(pilot, "14 May: none needed for a hook on its own holes")
        await fill(pilot, "Mara Quill")
        assert hook.job.open_conditions
        await pilot.press("c")
        assert not hook.job.open_conditions
        await pilot.press("o", "e", "c")
        await fill(pilot, "drill from inside")
        await fill(pilot, "")
        await fill(pilot, "one drill")
        await fill(pilot, "")
        assert hook.job.ended is None
        await pilot.press("c")
        assert "This job is closed." in seen(app)
        assert "It doesn't mean that the vehicle may be driven, loaded or sold." in " ".join(
            seen(app).split()
        )
        await pilot.press("escape", "escape")
        await pilot.pause()
        await choose_row(pilot, "seldom('due')")
        await pilot.press("enter")
        await pilot.pause()
    job = JobFile(hook.path).job
    assert job.ended == "closed"
    (closed,) = [done.act for done in job.view.of_kind(JobClosedAct)]
    assert isinstance(closed, JobClosedAct)
    assert (closed.differently, closed.tool_lacked, closed.broke) == ("drill from inside", None, "one drill")
    (agreed,) = job.view.of_kind(AgreedAct)
    assert agreed.act == AgreedAct("Ruth Dole, inspector", "14 May: none needed for a hook on its own holes")
    assert agreed.entry.by == "Mara Quill"
    assert [done.act for done in job.view.of_kind(DueDoneAct)] == [DueDoneAct("again")]


async def test_closed_job_still_takes_a_reading(hook: JobFile) -> None:
    """Recording is never blocked: after a stop a check is taken, and what was out of order stands in words."""
    app = JobApp(hook.path.parent, "Hob Tansley", hook)
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o", "e", "s")
        await fill(pilot, "wrong hook")
        await fill(pilot, "")
        await pilot.press("s", "escape", "escape", "y")
        await pilot.pause()
        assert "done after the job was stopped" in seen(app)
    assert JobFile(hook.path).job.places.tick("bolt", "marked").value is True
