"""What the disk doesn't take is kept, and recorded by itself when it does; and each thing only once."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import filelock
import pytest

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.store.copies.intact import intact
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.machine import rescue
from tests.support.builders import RECIPIENT, WORK, entry_id, file_with, minutes, note, read, record
from tests.support.watched_calls import WatchedOs

WORK_NOTE = Entry(entry_id(70), 1, minutes(9), "Wim", (NoteAct("seen"),), (), "")


def no_room(folder: Path) -> WatchedOs:
    """The disk below a folder is full; elsewhere there is room."""
    inside: set[int] = set()
    watched = WatchedOs()

    def after(name: str, arguments: tuple[object, ...], result: object) -> None:
        if name == "open" and isinstance(result, int):
            under = str(arguments[0]).startswith(str(folder))
            (inside.add if under else inside.discard)(result)

    def write(handle: int, data: bytes) -> int:
        if handle in inside:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return os.write(handle, data)

    watched.after = after
    watched.__dict__["write"] = write
    return watched


@contextmanager
def system(calls: WatchedOs) -> Iterator[None]:
    """The system answers so for a while."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(disk, "os", calls)
        yield


def refused(file: JobFile, number: int, step: str | None = None, text: str = "waits") -> str:
    """A call that the full disk doesn't take; what is said."""
    do = note(text) if step is None else read("spacing", text)
    with system(no_room(file.path.parent)), pytest.raises(NotRecorded) as said:
        record(file, step, do, number=number)
    return str(said.value)


def ids(path: Path) -> list[str]:
    return [entry.id for entry in JobFile(path).job.view.entries]


def test_what_waits_is_taken_up_by_the_next_start(tmp_path: Path) -> None:
    """Two calls on a full disk are said and kept; the next program records them before its own, each once."""
    path = file_with(tmp_path, WORK).path
    said = refused(JobFile(path), 10)
    refused(JobFile(path), 11)
    kept = rescue.files(path, JobFile(path).header.hash)
    assert len(kept) == 1
    assert "NOT YET RECORDED: No space left on device" in said
    assert str(kept[0]) in said
    record(JobFile(path), None, note(), number=12)
    assert ids(path)[len(WORK) :] == [entry_id(10), entry_id(11), entry_id(12)]
    assert intact(path) == []
    assert rescue.files(path, JobFile(path).header.hash) == []
    assert JobFile(path).take_up() == ()


def test_what_waits_keeps_when_it_was_done(tmp_path: Path) -> None:
    """An entry taken up has its id, its time, its person and its acts; only where it stands is new."""
    file = file_with(tmp_path, WORK)
    refused(file, 10)
    [waits] = file.waiting
    record(JobFile(file.path), None, note("meanwhile"), number=11)
    there = next(one for one in JobFile(file.path).job.view.entries if one.id == waits.id)
    assert (there.id, there.at, there.by, there.did) == (waits.id, waits.at, waits.by, waits.did)


def test_a_second_reading_replaces_the_first_that_waits(tmp_path: Path) -> None:
    """Measured twice while nothing could be recorded: the second replaces the first, and nobody disagrees."""
    file = file_with(tmp_path, WORK[:1])
    refused(file, 10, RECIPIENT, "965")
    draft = Draft(file.meant, "Wim", minutes(11), RECIPIENT, id=entry_id(11))
    values.reading(draft, "spacing", ["966"])
    with system(no_room(tmp_path)), pytest.raises(NotRecorded):
        file.append(draft.done(), draft.by, draft.at, id=draft.id, step=RECIPIENT)
    assert file.job.places.reading(RECIPIENT, "spacing").acts == ()
    file.take_up()
    stands = file.job.places.reading(RECIPIENT, "spacing")
    assert (stands.agreed, stands.value) == (True, 966)


def test_what_cannot_be_kept_either_is_said_and_held(tmp_path: Path, own_state: Path) -> None:
    """Where the rescue file can't be written either, the line says to write it down, and the program tries again."""
    file = file_with(tmp_path, WORK)
    with system(no_room(Path(tmp_path.root))), pytest.raises(NotRecorded, match="write it down"):
        record(file, None, note(), number=10)
    assert [one.id for one in file.waiting] == [entry_id(10)]
    assert [one.id for one in file.take_up()] == [entry_id(10)]
    assert ids(file.path)[-1] == entry_id(10)


def test_the_reserve_makes_room_on_a_full_disk(tmp_path: Path, own_state: Path) -> None:
    """Where the one disk of the laptop is full, the room set aside is given up for what couldn't be recorded."""
    file = file_with(tmp_path, WORK)
    reserve = own_state / "jobtrack" / "rescue" / rescue.RESERVE
    assert reserve.stat().st_size == rescue.RESERVE_BYTES
    full = no_room(Path(tmp_path.root))
    refuse = full.__dict__["write"]
    full.__dict__["write"] = lambda handle, data: (refuse if reserve.exists() else os.write)(handle, data)
    with system(full), pytest.raises(NotRecorded, match="kept in"):
        record(file, None, note(), number=10)
    assert not reserve.exists()


def test_a_job_that_was_moved_finds_what_waits(tmp_path: Path) -> None:
    """What waits for a file that isn't where it was goes to the same job where it is now."""
    file = file_with(tmp_path, WORK)
    refused(file, 10)
    moved = tmp_path / "elsewhere" / "bay.job.toml"
    moved.parent.mkdir()
    file.path.rename(moved)
    assert [one.id for one in JobFile(moved).take_up()] == [entry_id(10)]


def test_a_folder_that_is_gone_isnt_made_anew(tmp_path: Path) -> None:
    """A stick pulled out: what is typed waits, nothing is made in its place, and it is recorded when it is back."""
    stick = tmp_path / "stick"
    stick.mkdir()
    file = file_with(stick, WORK)
    stick.rename(tmp_path / "pulled out")
    with pytest.raises(NotRecorded, match=r"NOT YET RECORDED: No such file or directory; kept in"):
        record(file, None, note(), number=10)
    file.locks_work()
    assert not stick.exists()
    (tmp_path / "pulled out").rename(stick)
    assert [one.id for one in file.take_up()] == [entry_id(10)]


def test_another_copy_on_the_machine_gets_nothing(tmp_path: Path) -> None:
    """While the file for which it was meant is there, no other copy of the job takes it."""
    file = file_with(tmp_path, WORK)
    refused(file, 10)
    copy = tmp_path / "copy.job.toml"
    copy.write_bytes(file.path.read_bytes())
    assert JobFile(copy).take_up() == ()
    assert [one.id for one in file.waiting] == [entry_id(10)]


def test_a_broken_rescue_file_loses_nothing_else(tmp_path: Path, own_state: Path) -> None:
    """A rescue file whose end was broken off, or that is nonsense, still gives its whole entries."""
    file = file_with(tmp_path, WORK)
    refused(file, 10)
    [kept] = rescue.files(file.path, file.header.hash)
    kept.write_bytes(kept.read_bytes() + b'\n[[entry]]\nid = "half')
    (kept.parent / f"{file.header.hash[:16]}-0.rescue.toml").write_bytes(b"\xff\x00 nonsense")
    refused(file, 11)
    assert [one.id for one in file.take_up()] == [entry_id(10), entry_id(11)]


def test_read_only_files_keep_what_is_typed(tmp_path: Path) -> None:
    """What is typed for a file with a changed header waits, and is recorded when the header is put back."""
    file = file_with(tmp_path, WORK)
    honest = file.path.read_bytes()
    file.path.write_bytes(honest.replace(b"Bay horse-box", b"Bay horse-fox"))
    with pytest.raises(NotRecorded, match=r"its header was changed.*kept in"):
        record(JobFile(file.path), None, note(), number=10)
    file.path.write_bytes(honest)
    assert [one.id for one in JobFile(file.path).take_up()] == [entry_id(10)]


def test_a_lock_held_by_another_keeps_the_entry(tmp_path: Path) -> None:
    """While another program holds the lock, what is typed waits; it is recorded when the lock is free."""
    file = file_with(tmp_path, WORK)
    with disk.locked(file.path), pytest.raises(NotRecorded, match=r"another program holds the file's lock"):
        file.append(WORK_NOTE.did, "Wim", WORK_NOTE.at, id=WORK_NOTE.id, wait=0.05)
    assert [one.id for one in file.take_up()] == [WORK_NOTE.id]


def test_locks_that_keep_nobody_out_are_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The lock is tried with two descriptors; where both get it, that is known, and recording goes on."""
    file = file_with(tmp_path, WORK)
    assert file.locks_work()

    class NoLock:
        def __init__(self, path: str, timeout: float, mode: int = 0) -> None:
            """A lock of a share that says yes to everybody."""

        def acquire(self) -> None:
            """Always got."""

        def release(self) -> None:
            """Nothing to give back."""

        def __enter__(self) -> None:
            """Always got."""

        def __exit__(self, *_: object) -> None:
            """Nothing to give back."""

    monkeypatch.setattr(filelock, "FileLock", NoLock)
    again = JobFile(file.path)
    assert not again.locks_work()
    record(again, None, note(), number=10)
    assert ids(file.path)[-1] == entry_id(10)


def test_a_file_system_without_locks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system knows no locks at all, recording goes on without one, and that is known."""

    def unknown(self: object, *_: object, **__: object) -> None:
        raise NotImplementedError

    monkeypatch.setattr(filelock.FileLock, "acquire", unknown)
    file = file_with(tmp_path, WORK)
    assert not file.locks_work()
    assert len(ids(file.path)) == len(WORK)
