"""The sheets of a job from the app: each a file beside the job, opened or said where, and nothing else changed."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.parts import taking_keys
from jobtrack.app.screens.job.handover import HandoverScreen
from jobtrack.app.screens.job.job_page import JobPage
from jobtrack.app.screens.job.vehicle_record import VehicleRecordScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.compose import said
from jobtrack.sheets.tag.sheet import NO_TAG
from jobtrack.store.file import disk
from jobtrack.store.file.sheet_files import KeptSheet, folder_of
from jobtrack.store.machine import viewer
from tests.app.job.test_app_every_act import Row, nearly_done, press, record
from tests.support.invented_jobs import fill, seen

OnJobs = Callable[[str], JobApp]
PRIVATE, OPEN_NOTE = "he owes me for the last one", "wire wheel on the shelf"


@pytest.fixture(autouse=True)
def shown(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """What the system's viewer was given; none is ever begun."""
    given: list[Path] = []

    def show(sheet: KeptSheet) -> str:
        given.append(sheet.path)
        return f"Opened by the system's viewer: {sheet.path}"

    monkeypatch.setattr(viewer, "show_sheet", show)
    return given


def sheets(app: JobApp) -> list[Path]:
    """The sheets that lie beside the job."""
    assert app.file is not None
    folder = folder_of(app.file.path)
    return sorted(folder.iterdir()) if folder.exists() else []


def told(app: JobApp) -> str:
    """What was done last, whole."""
    screen = app.screen
    assert isinstance(screen, HandoverScreen | JobPage | StepScreen | VehicleRecordScreen)
    return screen.entry.last


ON_THE_PAGE = (
    ("c", "job-card-2031", "blue tin"), ("f", "job-card-empty-", "Mark the new place"), ("w", "tag-", "MARKS"),
)  # fmt: skip
"""By key: how its file's name begins, and what stands in it. What somebody noted stands on the filled-in card alone."""


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_one_key_each_on_the_job_s_page(
    on_job: OnJobs, shown: list[Path], size: tuple[int, int]
) -> None:
    """The card, the card with empty frames, the paper for the wheel: a file each, opened, and no entry."""
    app = on_job("half-done")
    assert app.file is not None
    before = app.file.path.read_bytes()
    async with app.run_test(size=size) as pilot:
        await pilot.press("j")
        for key, kind, _ in ON_THE_PAGE:
            await pilot.press(key)
            await pilot.pause()
            assert shown[-1].name.startswith(kind)
            assert told(app) == f"Sheet written. Opened by the system's viewer: {shown[-1]}"
    assert sheets(app) == sorted(shown)
    for path, (_, _, holds) in zip(shown, ON_THE_PAGE, strict=True):
        text = path.read_text(encoding="utf-8")
        assert text.startswith("<!")
        assert "Bread van: loose axle from the yard" in text
        assert holds in text
        assert ("blue tin" in text) is (holds == "blue tin")
    assert app.file.path.read_bytes() == before


@pytest.mark.parametrize(
    ("action", "kind"), [("card", "job-card-2031"), ("empty-card", "job-card-empty"), ("wheel", "tag-")]
)
async def test_from_the_index_too(on_job: OnJobs, shown: list[Path], action: str, kind: str) -> None:
    """Behind e on the step, by their names."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, (Row(f"paper('{action}')"),), Path())
        await pilot.pause()
        assert [path.name.startswith(kind) for path in shown] == [True]
        assert "Sheet written." in told(app)


@pytest.fixture
def with_notes(on_job: OnJobs) -> JobApp:
    """A job with a note for everybody and a private one."""
    app = on_job("half-done")
    assert app.file is not None
    record(app.file, "mark.right", "Hob Tansley", lambda made: said.note(made, OPEN_NOTE))
    record(app.file, "mark.right", "Hob Tansley", lambda made: said.private_note(made, PRIVATE))
    return app


async def to_the_record(pilot: Pilot[int]) -> VehicleRecordScreen:
    """From the step to the list of what will stand on the recipient's record."""
    await pilot.press("j", "v")
    assert "Whose record is written?" in seen(pilot.app)
    assert "Bexley flat-bed" in seen(pilot.app)
    await pilot.press("down" if "▸ Bexley" in seen(pilot.app) else "enter")
    await pilot.pause()
    screen = pilot.app.screen
    assert isinstance(screen, VehicleRecordScreen)
    return screen


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_a_record_is_written_once_its_list_was_seen(
    with_notes: JobApp, shown: list[Path], size: tuple[int, int]
) -> None:
    """Private notes stay off until they are marked; marked and unmarked again they are off."""
    app = with_notes
    async with app.run_test(size=size) as pilot:
        screen = await to_the_record(pilot)
        assert "What will stand on the record of" in " ".join(seen(app).split())
        assert shown == []
        await pilot.press("w")
        await pilot.pause()
        await pilot.press("n", "w")
        await pilot.pause()
        assert screen.including == {"private-notes"}
        await pilot.press("n", "w")
        await pilot.pause()
        assert "Sheet written." in told(app)
    texts = [path.read_text(encoding="utf-8") for path in shown]
    assert [OPEN_NOTE in text for text in texts] == [True] * 3
    assert [PRIVATE in text for text in texts] == [False, True, False]


async def test_a_key_held_writes_one(
    on_job: OnJobs, shown: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Tapped twice, it is one paper."""
    app = on_job("half-done")
    monkeypatch.setattr(taking_keys, "SAME_PRESS", 30.0)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("j", "w", "w", "w")
        await pilot.pause()
    assert len(shown) == len(sheets(app)) == 1


@pytest.fixture
def full(monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that takes no sheet, and whatever else the test makes on it."""
    really = disk.write_new

    def write_new(path: Path, data: bytes, private: bool = False) -> None:
        if path.parent.name.endswith(".sheets"):
            raise OSError(errno.ENOSPC, "No space left on device")
        really(path, data, private)

    monkeypatch.setattr(disk, "write_new", write_new)


async def test_a_full_disk_is_said_and_breaks_nothing(on_job: OnJobs, full: None, shown: list[Path]) -> None:
    """In one line; what is recorded next is recorded."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("j", "w")
        await pilot.pause()
        assert told(app).startswith("Sheet not written: ")
        assert told(app).endswith("No space left on device; make room for it there")
        await pilot.press("escape", "t")
        await fill(pilot, OPEN_NOTE)
        assert "Recorded" in told(app)
    assert shown == sheets(app) == []


async def test_no_tag_due_makes_no_paper(folder: Path, shown: list[Path]) -> None:
    """An empty paper could be taken for an all-clear: it is said instead."""
    app = JobApp(folder, "Hob Tansley", nearly_done(folder))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("j", "w")
        await pilot.pause()
        assert " ".join(NO_TAG.split()) in " ".join(seen(app).split())
    assert shown == []


async def test_what_is_handed_over_is_on_paper_then(on_job: OnJobs, shown: list[Path]) -> None:
    """Recorded first, then written with what the giver said, and opened; both are said."""
    app = on_job("half-done")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("h", "h")
        for text in ("Ada Prosser", "two stands, shaken 16:20", "", "", "", ""):
            await fill(pilot, text)
        assert shown == []
        await pilot.press("h")
        await pilot.pause()
        assert "handed over to Ada Prosser" in told(app)
        assert f"Sheet written. Opened by the system's viewer: {shown[0]}" in told(app)
    [path] = sheets(app)
    assert path.name.startswith("handover-2031")
    assert "two stands, shaken 16:20" in path.read_text(encoding="utf-8")
