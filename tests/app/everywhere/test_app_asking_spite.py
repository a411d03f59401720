"""Whatever is typed into the fields of a surprise and of the rows stands in the file as typed, and shown literally."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.acts import LONGEST_TEXT
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import fill, seen
from tests.support.spiteful import RAW
from tests.support.spring import NAUGHTY

OnJobs = Callable[[str], JobApp]


def too_long(text: str) -> bool:
    """Whether a text is longer than what a reader of files takes in whole; in the file it is whole, but for a note."""
    return len(text.encode()) > LONGEST_TEXT


def last(app: JobApp) -> list[dict[str, Any]]:
    """The acts of the last entry in the file."""
    assert app.file is not None
    return [act.as_dict() for act in JobFile(app.file.path).job.view.entries[-1].did]


@pytest.mark.parametrize("text", NAUGHTY, ids=range(len(NAUGHTY)))
async def test_it_is_stored_as_typed_and_shown_literally(text: str, on_job: OnJobs) -> None:
    """The words of a surprise, what is unsafe, who agreed, a private note and a step's title."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:

        def looks_whole() -> None:
            assert not RAW.search(seen(app).replace("\n", " "))

        await pilot.press("s", "c")
        await fill(pilot, text)
        looks_whole()
        await pilot.press("y")
        await fill(pilot, text)
        looks_whole()
        words, acts = " ".join(text.split()), last(app)
        assert too_long(text) or {"met": "cracked", "part": words} in acts
        assert too_long(text) or text.strip() in [act.get("opens") for act in acts]
        await pilot.press("f")
        await fill(pilot, text)
        looks_whole()
        assert too_long(text) or last(app)[0]["title"] == text.strip()
        assert app.file is not None
        assert not too_long(text) or app.file.path.read_bytes().count(text.encode()) == 3
        await pilot.press("escape")
        assert isinstance(app.screen, StepScreen)
        await choose_row(pilot, "private_note")
        await fill(pilot, text)
        looks_whole()
        assert {"note": text.strip(), "private": True} in last(app) or too_long(text)
