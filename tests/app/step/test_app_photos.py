"""Photos: by a key, by themselves as they arrive in a real folder, in pieces too, and looked at."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from threading import Event

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.parts.photos import arriving
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.doing import BuyingAct, PhotoAct
from jobtrack.job.compose import ending
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import NEXT
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now, photos, viewer
from jobtrack.store.machine.photos import LARGEST, folder_of
from jobtrack.store.machine.settings import Settings
from jobtrack.store.text.blocks import digest
from tests.support.else_rows import found
from tests.support.handed import handed
from tests.support.invented_jobs import HELD, NOW, fill, on_top, seen
from tests.support.pictures import HEAD, jpeg, put
from tests.support.spring import NAUGHTY, spring

HOB = "Hob Tansley"
AT = NOW.timestamp()
OpenApp = Callable[..., JobApp]


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    """Where the phone puts its pictures."""
    folder = tmp_path / "phone"
    folder.mkdir()
    return folder


@pytest.fixture
def open_app(folder: Path, phone: Path, monkeypatch: pytest.MonkeyPatch) -> OpenApp:
    """The app at the spring on the left, the phone's folder watched, looked at often."""
    monkeypatch.setattr(arriving, "EVERY", 0.05)

    def opened(by: str | None = HOB, watched: bool = True) -> JobApp:
        settings = Settings(photos=str(phone) if watched else None)
        return JobApp(folder, by, spring(folder / "spring.job.toml"), settings)

    return opened


def recorded(app: JobApp) -> list[tuple[str | None, str | None, str]]:
    """Of each photo in the file: its step, its hash, when it was taken."""
    assert app.file is not None
    return [
        (done.entry.step, done.act.hash, f"{done.entry.at:%H:%M}")
        for done in JobFile(app.file.path).job.view.of_kind(PhotoAct)
        if isinstance(done.act, PhotoAct)
    ]


def words(app: JobApp) -> str:
    """What is on the screen, without rules and breaks."""
    return " ".join(seen(app).replace("─", " ").split())


async def until(pilot: Pilot[int], holds: Callable[[], bool]) -> None:
    """Wait until something holds, looked at anew after each pause."""
    for _ in range(100):
        if holds():
            return
        await pilot.pause(0.05)
    pytest.fail(f"it never came to it:\n{seen(pilot.app)}")


# By its key


async def test_the_newest_is_said_and_recorded_at_enter(open_app: OpenApp, phone: Path) -> None:
    """Which file, its time and size, before Enter; copied beside the job, and on every sheet."""
    put(phone / "old.jpg", jpeg("old"), AT - 600)
    put(phone / "weld.jpg", jpeg("weld", 200_000), AT - 60)
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i")
        await until(pilot, lambda: "weld.jpg" in seen(app))
        assert (
            "Photo: weld.jpg, 14 May 2031, 09:40, 0.2 MiB. That is before this job began: recorded as of now."
            in words(app)
        )
        assert recorded(app) == []
        await pilot.press("enter")
        await until(
            pilot, lambda: "Recorded 09:41: photo weld.jpg in “Hang the spring (left)”." in words(app)
        )
        assert app.file is not None
        assert app.file.job.state("spring.left") == NEXT, "a photo begins no step"
    assert recorded(app) == [("spring.left", digest(jpeg("weld", 200_000)), "09:41")]
    (kept,) = folder_of(app.file.path).iterdir()
    assert kept.read_bytes() == jpeg("weld", 200_000)
    job = JobFile(app.file.path).job
    assert kept.name in job_text(job)
    assert kept.name in handed(job, HOB, "Ada").replace("\\", "")
    step = next(one for one in job_json(job)["steps"] if one["id"] == "spring.left")
    assert [one["photo"] for one in step["photos"]] == [kept.name]


async def test_again_takes_the_one_before_it(open_app: OpenApp, phone: Path) -> None:
    """What is recorded isn't offered again; when there is none left, a name is asked for."""
    for number in (1, 2):
        put(phone / f"{number}.jpg", jpeg(str(number)), AT - 10 + number)
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        for name in ("2.jpg", "1.jpg"):
            await pilot.press("i")
            await until(pilot, lambda name=name: f"Photo: {name}" in seen(app))  # type: ignore[misc]
            await pilot.press("y")
            await until(pilot, lambda name=name: f"photo {name} in" in words(app))  # type: ignore[misc]
        await pilot.press("i")
        await until(pilot, lambda: "No photo that isn't recorded yet" in seen(app))
        assert "Which photo?" in seen(app)
        await pilot.press("escape")
    assert [hash for _, hash, _ in recorded(app)] == [digest(jpeg("2")), digest(jpeg("1"))]


async def test_escape_or_another_key_records_nothing(open_app: OpenApp, phone: Path) -> None:
    put(phone / "a.jpg", jpeg("a"), AT - 600)
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        for key in ("escape", "down"):
            await pilot.press("i")
            await until(pilot, lambda: "Photo: a.jpg" in seen(app))
            await pilot.press(key)
            dropped = "Cancelled: what was asked or typed there isn't recorded." in seen(app)
            assert dropped or "Photo: a.jpg" not in seen(app)
    assert recorded(app) == []


async def test_a_name_typed(
    open_app: OpenApp, phone: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A whole name, one under ~, one in the watched folder; w asks for it instead of the newest."""
    monkeypatch.setenv("HOME", str(tmp_path))
    put(phone / "a.jpg", jpeg("a"), AT - 600)
    put(phone / "b.jpg", jpeg("b"), AT - 300)
    put(tmp_path / "c.jpg", jpeg("c"), AT - 60)
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        for text in ("a.jpg", "~/c.jpg", str(phone / "b.jpg")):
            await pilot.press("i")
            await until(pilot, lambda: "w type another" in seen(app) or "Which photo?" in seen(app))
            if "Which photo?" not in seen(app):
                await pilot.press("w")
            await fill(pilot, text)
            await until(pilot, lambda: "Enter records it" in seen(app))
            await pilot.press("enter")
            await until(pilot, lambda name=Path(text).name: f"photo {name} in" in words(app))  # type: ignore[misc]
    assert [hash for _, hash, _ in recorded(app)] == [digest(jpeg(one)) for one in "acb"]


async def test_without_a_watched_folder_a_name_is_asked_for(open_app: OpenApp, phone: Path) -> None:
    """And said how a folder is named; a picture that the job has is recorded once."""
    put(phone / "a.jpg", jpeg("a"), AT - 600)
    app = open_app(watched=False)
    async with app.run_test(size=(80, 24)) as pilot:
        for said in ("Recorded", "That picture is recorded in “Hang the spring (left)” already"):
            await pilot.press("i")
            assert "No folder is watched" in seen(app)
            await fill(pilot, str(phone / "a.jpg"))
            await until(pilot, lambda: "Photo: a.jpg" in seen(app))
            await pilot.press("enter")
            await until(pilot, lambda said=said: said in words(app))  # type: ignore[misc]
    assert len(recorded(app)) == 1


async def test_a_file_of_another_time_is_recorded_as_of_now(open_app: OpenApp, phone: Path) -> None:
    """A camera whose clock stands on its first day, or in years to come."""
    put(phone / "a.jpg", jpeg("a"), 86_400)
    put(phone / "b.jpg", jpeg("b"), AT + 86_400)
    app = open_app(watched=False)
    async with app.run_test(size=(80, 24)) as pilot:
        for name, why in (("b", "ahead of the clock here"), ("a", "before this job began")):
            await pilot.press("i")
            await fill(pilot, str(phone / f"{name}.jpg"))
            await until(pilot, lambda why=why: f"That is {why}: recorded as of now." in words(app))  # type: ignore[misc]
            await pilot.press("enter")
            await until(pilot, lambda name=name: f"Recorded 09:41: photo {name}.jpg" in words(app))  # type: ignore[misc]
    assert {at for _, _, at in recorded(app)} == {"09:41"}


@pytest.mark.skipif(os.name != "posix", reason="a pipe as POSIX has it")
async def test_what_is_no_photo_is_refused_in_one_line(open_app: OpenApp, phone: Path) -> None:
    """A pipe, a folder, a text, nothing, a film's length, a name that can't be: said, and asked again."""
    os.mkfifo(phone / "pipe.jpg")
    (phone / "text.jpg").write_text("Ilse, Friday")
    (phone / "empty.jpg").touch()
    os.truncate(put(phone / "film.jpg", HEAD, AT - 600), LARGEST + 1)
    refused = {
        "pipe.jpg": "isn't a file of its own, but a device, pipe or the like", "text.jpg": "begins like no picture",
        "empty.jpg": "is empty", "film.jpg": "larger than 64 MiB", "none.jpg": "No such file or directory",
        str(phone): "a directory", "~nobody-of-that-name/x.jpg": "no file can be called that",
        "x" * 5000: "File name too long", "a\0b": "no file can be called that",
    }  # fmt: skip
    app = open_app(watched=False)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("i")
        for name, why in refused.items():
            await fill(pilot, name if "/" in name or len(name) > 100 or "\0" in name else str(phone / name))
            await until(pilot, lambda why=why: why.replace(" ", "") in words(app).replace(" ", ""))  # type: ignore[misc]
            assert "Which photo?" in seen(app), name
    assert recorded(app) == []
    assert not folder_of(app.file.path).exists() if app.file else True


@pytest.mark.parametrize("text", NAUGHTY, ids=range(len(NAUGHTY)))
async def test_odd_names_are_shown_literally(open_app: OpenApp, phone: Path, text: str) -> None:
    """As a file of that name, or as one that isn't there."""
    name = text[:40].replace("/", "|")
    put(phone / name, jpeg("odd"), AT - 600)
    app = open_app()
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("i")
        await until(pilot, lambda: "Photo: " in seen(app))
        assert not {sign for sign in seen(app) if sign in "\x1b\x07\t\u202e\u2066\u200b\u2028\x9b"}
        await pilot.press("w")
        await fill(pilot, text)
        await pilot.press("escape")
        await pilot.press("i")
        await until(pilot, lambda: "Photo: " in seen(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Recorded" in seen(app))
    assert len(recorded(app)) == 1


# As they arrive


async def test_each_goes_to_the_step_that_was_in_sight_when_it_was_taken(
    open_app: OpenApp, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However late it arrives; said in one line; what was there before stays where it is."""
    put(phone / "before.jpg", jpeg("before"), AT - 5)
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        monkeypatch.setattr(now, "local_now", lambda: NOW.replace(minute=50))
        await pilot.press("right")
        put(phone / "late.jpg", jpeg("late"), AT + 120)
        put(phone / "now.jpg", jpeg("now"), NOW.replace(minute=50).timestamp())
        await until(pilot, lambda: len(recorded(app)) == 2)
        await until(pilot, lambda: "Photo now.jpg: recorded in “Hang the spring (right)”." in words(app))
    assert recorded(app) == [
        ("spring.left", digest(jpeg("late")), "09:43"), ("spring.right", digest(jpeg("now")), "09:50"),
    ]  # fmt: skip


async def test_one_that_arrives_in_pieces_is_recorded_once_and_whole(open_app: OpenApp, phone: Path) -> None:
    """Half written it isn't taken; renamed afterwards, or copied, it isn't taken again."""
    whole = jpeg("gasket", 5000)
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        for length in range(500, len(whole), 1000):
            put(phone / "a.jpg", whole[:length], AT)
            await pilot.pause(0.12)
        assert recorded(app) == []
        put(phone / "a.jpg", whole, AT)
        await until(pilot, lambda: len(recorded(app)) == 1)
        (phone / "a.jpg").rename(phone / "b.jpg")
        put(phone / "copy.jpg", whole, AT + 1)
        await pilot.pause(0.5)
    assert recorded(app) == [("spring.left", digest(whole), "09:41")]


async def test_what_is_typed_meanwhile_stays(open_app: OpenApp, phone: Path) -> None:
    """And what somebody has taken back doesn't come again."""
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("t")
        app.screen.query_one(Input).value = "half a note"
        put(phone / "a.jpg", jpeg("a"), AT)
        await until(pilot, lambda: len(recorded(app)) == 1)
        assert app.screen.query_one(Input).value == "half a note"
        await pilot.press("escape", "u")
        await pilot.pause(0.4)
        assert "Undone: " in seen(app)
    assert recorded(app) == []


async def test_said_on_whatever_page_is_in_sight(open_app: OpenApp, phone: Path) -> None:
    app = open_app()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("o")
        assert isinstance(on_top(app), OutlineScreen)
        put(phone / "a.jpg", jpeg("a"), AT)
        await until(pilot, lambda: "Photo a.jpg: recorded in “Hang the spring (left)”." in words(app))
        await pilot.press("escape")
        assert isinstance(on_top(app), StepScreen)
        assert "Photo a.jpg" in seen(app)


async def test_many_at_once_are_one_line(
    open_app: OpenApp, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    app = open_app()
    monkeypatch.setattr(arriving, "EVERY", 0.5)
    async with app.run_test(size=(80, 24)) as pilot:
        for number in range(6):
            put(phone / f"{number}.jpg", jpeg(str(number)), AT)
        await until(pilot, lambda: len(recorded(app)) == 6)
        await until(pilot, lambda: "3 more: recorded in" in words(app))
    assert len({hash for _, hash, _ in recorded(app)}) == 6


async def test_with_nobody_there_they_wait(open_app: OpenApp, phone: Path) -> None:
    """Said how it goes on; then they are recorded in that name."""
    app = open_app(by=None)
    async with app.run_test(size=(80, 24)) as pilot:
        put(phone / "a.jpg", jpeg("a"), AT)
        await until(pilot, lambda: "1 photo not recorded: nobody is here yet; b says who is." in words(app))
        assert not folder_of(app.session.folder / "spring.job.toml").exists()
        await pilot.press("b")
        await fill(pilot, "Ada")
        await until(pilot, lambda: len(recorded(app)) == 1)
    assert app.file is not None
    assert [entry.by for entry in JobFile(app.file.path).job.view.entries][-1] == "Ada"


async def test_an_ended_job_takes_none_by_itself(open_app: OpenApp, phone: Path) -> None:
    """Said; by its key it takes one, as it takes anything."""
    app = open_app()
    assert app.file is not None
    draft = Draft(app.file.job, HOB, NOW, None)
    ending.stop_job(draft, "sold as it is")
    app.file.append(draft.done(), draft.by, draft.at, id=draft.id)
    async with app.run_test(size=(80, 24)) as pilot:
        put(phone / "a.jpg", jpeg("a"), AT)
        await until(pilot, lambda: "1 photo not recorded: this job has ended; i records" in words(app))
        await pilot.press("i")
        await until(pilot, lambda: "Photo: a.jpg" in seen(app))
        await pilot.press("enter")
        await until(pilot, lambda: len(recorded(app)) == 1)


async def test_a_folder_of_photos_that_can_not_be_made_is_said(open_app: OpenApp, phone: Path) -> None:
    """A file lies in its place: said once, nothing recorded; when it is away, the picture is taken."""
    app = open_app()
    assert app.file is not None
    in_the_way = folder_of(app.file.path)
    in_the_way.write_text("no folder")
    async with app.run_test(size=(120, 40)) as pilot:
        put(phone / "a.jpg", jpeg("a"), AT)
        await until(pilot, lambda: "Not taken: " in seen(app))
        assert "is no folder; the photos of the job go there, so move it away" in words(app)
        await pilot.press("i")
        await until(pilot, lambda: "Photo: a.jpg" in seen(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Not recorded: " in seen(app))
        assert recorded(app) == []
        in_the_way.unlink()
        await until(pilot, lambda: len(recorded(app)) == 1)


async def test_a_full_disk_keeps_the_entry(
    open_app: OpenApp, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The copy is made, the job file takes nothing: not yet recorded, then recorded once."""

    def full(path: Path, data: bytes, known: disk.Known) -> None:
        raise OSError(28, "No space left on device")

    app = open_app()
    async with app.run_test(size=(120, 40)) as pilot:
        with monkeypatch.context() as broken:
            broken.setattr(disk, "append", full)
            put(phone / "a.jpg", jpeg("a"), AT)
            await until(pilot, lambda: "NOT YET RECORDED" in seen(app))
            assert recorded(app) == []
        await until(pilot, lambda: len(recorded(app)) == 1)
        await pilot.pause(0.3)
    assert len(recorded(app)) == 1


async def test_what_opens_for_reading_only_takes_none_and_says_so(open_app: OpenApp, phone: Path) -> None:
    """A newer program has written in the job: the photo lies beside it, its entry and a part's are kept, not lost."""
    app = open_app()
    assert app.file is not None
    app.file.append((UnknownAct({"weather": "rain"}),), HOB, NOW, id="a" * 16)
    newer = JobFile(app.file.path)
    app = JobApp(newer.path.parent, HOB, newer, Settings(photos=str(phone)))
    before = newer.path.read_bytes()
    async with app.run_test(size=(120, 40)) as pilot:
        put(phone / "a.jpg", jpeg("a"), AT)
        await until(pilot, lambda: "NOT YET RECORDED" in seen(app))
        await pilot.press("p", "h")
        await pilot.pause()
        assert "NOT YET RECORDED" in seen(app)
    assert newer.path.read_bytes() == before
    waiting = [act for entry in JobFile(newer.path).waiting for act in entry.did]
    assert [type(act) for act in waiting] == [PhotoAct, BuyingAct]
    assert len(list(folder_of(newer.path).iterdir())) == 1


async def test_one_that_was_looked_at_while_the_job_was_left_comes_again(
    open_app: OpenApp, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Copied already, but no page of the job is there to record it: the next job that is opened gets it."""
    held, going = Event(), Event()
    honest = photos.take

    def slow(photo: Path, job: Path) -> PhotoAct:
        going.set()
        assert held.wait(10)
        return honest(photo, job)

    monkeypatch.setattr(photos, "take", slow)
    app = open_app()
    assert app.file is not None
    HELD.set()
    try:
        async with app.run_test(size=(120, 40)) as pilot:
            put(phone / "a.jpg", jpeg("a"), AT)
            while not going.is_set():
                await pilot.pause(0.05)
            await found(pilot, "Jobs of the folder")
            assert isinstance(on_top(app), JobsScreen)
            held.set()
            await pilot.pause(0.3)
            assert recorded(app) == []
            HELD.clear()
            await pilot.press("enter")
            await until(pilot, lambda: len(recorded(app)) == 1)
    finally:
        held.set()
        HELD.clear()


async def test_a_folder_that_is_gone_is_said_once(open_app: OpenApp, phone: Path) -> None:
    phone.rmdir()
    app = open_app()
    async with app.run_test(size=(120, 40)) as pilot:
        await until(pilot, lambda: "no photos arrive: No such file or directory" in words(app))
        await pilot.press("i")
        await until(pilot, lambda: "can't be read: No such file or directory" in words(app))


# Looked at


async def test_a_photo_of_the_step_is_shown(
    open_app: OpenApp, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """From the rows without a key: chosen from those of the step, and what came of it is said."""
    shown: list[tuple[Path, str]] = []

    def show(job: Path, photo: str) -> str:
        shown.append((job, photo))
        return "Opened by the system's viewer: x.jpg"

    monkeypatch.setattr(viewer, "show_photo", show)
    app = open_app()
    async with app.run_test(size=(100, 40)) as pilot:
        await found(pilot, "Photos of this step")
        assert "No photo is recorded in this step; i records one." in seen(app)
        for number in (1, 2):
            put(phone / f"{number}.jpg", jpeg(str(number)), AT + number)
        await until(pilot, lambda: len(recorded(app)) == 2)
        await found(pilot, "Photos of this step")
        await pilot.press("down", "enter")
        await until(pilot, lambda: "Opened by the system's viewer: x.jpg" in words(app))
    assert app.file is not None
    assert shown == [(app.file.real, f"{digest(jpeg('2'))}.jpg")]
