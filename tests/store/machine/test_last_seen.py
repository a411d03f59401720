"""What this machine remembers of a job's loose ends: a file alone can't know that its very tail is missing."""

from __future__ import annotations

import json
import multiprocessing
import os
import shutil
from pathlib import Path
from typing import Any

import pytest

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.store.copies.intact import gone, taken_apart
from jobtrack.store.copies.merge import merge_files
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile, create
from jobtrack.store.machine import last_seen
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.writing import write_entry
from tests.support.builders import WORK, entry_id, file_with, minutes, note, record, template


def memory(state: Path) -> Path:
    """The file in which the one job of a test is remembered."""
    [found] = (state / "jobtrack" / "seen").glob("*.json")
    return found


def remembered(state: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(memory(state).read_bytes())
    return found


def gone_ids(path: Path) -> list[str]:
    return [one.id for one in JobFile(path).gone]


def put_back(folder: Path) -> tuple[Path, bytes, bytes]:
    """A file of which two entries were seen before an older copy was put back; the older and the newer bytes."""
    file = file_with(folder, WORK)
    older = file.path.read_bytes()
    record(file, None, note("one more"))
    record(file, None, note("and another"))
    newer = file.path.read_bytes()
    file.path.write_bytes(older)
    return file.path, older, newer


def test_what_was_recorded_here_is_remembered(tmp_path: Path, own_state: Path) -> None:
    """The last entry, when, by whom and in which file; nothing is gone."""
    file = file_with(tmp_path, WORK)
    last = file.job.view.entries[-1]
    assert file.gone == ()
    assert remembered(own_state) == [
        {"hash": last.hash, "id": last.id, "at": last.at.isoformat(), "by": "Wim", "file": str(file.path)}
    ]


def test_an_older_copy_put_back_is_noticed(tmp_path: Path) -> None:
    """The loose end that was seen last is gone, for whoever opens the file and for who has it open."""
    path, older, newer = put_back(tmp_path)
    [end] = JobFile(path).gone
    assert end.hash == scan(newer).entries[-1].hash
    assert [one.what for one in gone(taken_apart(path), path)] == ["missing"]
    path.write_bytes(newer)
    file = JobFile(path)
    path.write_bytes(older)
    assert file.refresh()
    assert file.gone == (end,)


def test_it_stays_gone_while_work_goes_on(tmp_path: Path) -> None:
    """What is recorded behind an older copy doesn't make up for what is gone."""
    path, _, newer = put_back(tmp_path)
    record(JobFile(path), None, note("went on"), number=40)
    assert gone_ids(path) == [scan(newer).entries[-1].id]


def test_the_newer_copy_brings_it_back(tmp_path: Path) -> None:
    """Joined with the newer copy nothing is gone, and nothing is remembered but the ends that are there."""
    path, _, newer = put_back(tmp_path)
    record(JobFile(path), None, note("went on"), number=40)
    kept = tmp_path / "newer.job.toml"
    kept.write_bytes(newer)
    path.write_bytes(merge_files([path, kept]).data)
    assert gone_ids(path) == []
    assert gone(taken_apart(path), path) == []


def test_two_copies_on_one_machine(tmp_path: Path) -> None:
    """Each lacks what was recorded in the other, and each says so, however often they are opened."""
    one = file_with(tmp_path, WORK)
    two = JobFile(Path(shutil.copy(one.path, tmp_path / "two.job.toml")))
    first = record(one, None, note("in one"), number=40).entry
    second = record(two, None, note("in two"), number=41).entry
    for _ in range(3):
        assert gone_ids(one.path) == [second.id]
        assert gone_ids(two.path) == [first.id]
    [end] = JobFile(two.path).gone
    assert end.file == str(one.path)


def test_an_id_that_came_again_under_another_hash_is_there(tmp_path: Path, own_state: Path) -> None:
    """Taken up behind other entries, an entry keeps its id and gets another hash: it isn't gone."""
    file = file_with(tmp_path, WORK)
    older = file.path.read_bytes()
    lost = record(file, None, note("waited"), number=40).entry
    file.path.write_bytes(older)
    file = JobFile(file.path)
    assert [one.id for one in file.gone] == [lost.id]
    record(file, None, note("before it"), number=41)
    again = file.append(lost.did, lost.by, lost.at, id=lost.id).entry
    assert again.hash != lost.hash
    assert file.gone == ()
    assert gone_ids(file.path) == []
    assert [one["hash"] for one in remembered(own_state)] == [again.hash]


def test_a_damaged_end_is_there_though_it_cannot_be_read(tmp_path: Path) -> None:
    """An altered last entry is damage of its own name, and not gone; it is once its block is."""
    file = file_with(tmp_path, WORK)
    record(file, None, note("the last"), number=40)
    whole = file.path.read_bytes()
    file.path.write_bytes(whole.replace(b"the last", b"the lost"))
    assert gone_ids(file.path) == []
    assert gone(taken_apart(file.path), file.path) == []
    file.path.write_bytes(whole[: whole.rindex(b"\n[[entry]]")])
    assert gone_ids(file.path) == [entry_id(40)]


def test_a_torn_end_is_gone(tmp_path: Path) -> None:
    """A whole entry that was seen, and of which only a part is left, is gone."""
    file = file_with(tmp_path, WORK)
    file.path.write_bytes(file.path.read_bytes()[:-20])
    assert gone_ids(file.path) == [entry_id(len(WORK) - 1)]


def test_another_job_is_another_matter(tmp_path: Path) -> None:
    """Jobs are told apart by their headers: nothing of one is missed in another."""
    put_back(tmp_path)
    other = create(tmp_path / "other.job.toml", "job-2", "Red horse-box", template())
    assert other.gone == ()
    record(other, None, note("the first"))
    assert gone_ids(other.path) == []
    assert gone(taken_apart(other.path), other.path) == []


def test_examining_remembers_nothing(tmp_path: Path, own_state: Path) -> None:
    """To look whether a copy is intact leaves this machine's memory as it was."""
    path, _, _ = put_back(tmp_path)
    before = memory(own_state).read_bytes()
    gone(taken_apart(path), path)
    assert memory(own_state).read_bytes() == before


# What is remembered is a help, not a record


AWKWARD = [
    b"", b"\x00\xff", b"[", b"5", b"null", b'"text"', b"[5]", b"[[]]", b'["text"]', b"[{}]", b"[null]",
    b'[{"hash": 5, "id": null, "at": "never", "by": [], "file": {}}]', b"[" * 100_000, b'{"hash": "x"}',
    b'[{"hash": "x", "id": "y", "at": "2031-04-01T08:00:00", "by": "Wim", "file": "no offset"}]',
    b'[{"hash": "x", "id": "y", "at": "2031-04-01", "by": "Wim", "file": "a day"}]',
]  # fmt: skip


@pytest.mark.parametrize("content", AWKWARD, ids=lambda content: repr(content[:30]))
def test_a_corrupt_memory_breaks_nothing(tmp_path: Path, own_state: Path, content: bytes) -> None:
    """The job opens, nothing is said to be gone, and from the next entry on it is remembered anew."""
    file = file_with(tmp_path, WORK)
    memory(own_state).write_bytes(content)
    assert gone_ids(file.path) == []
    added = record(file, None, note("on"), number=40).entry
    assert [one["hash"] for one in remembered(own_state)] == [added.hash]


def test_a_memory_that_cannot_be_read_breaks_nothing(tmp_path: Path, own_state: Path) -> None:
    """A folder in the place of the file: the job opens and takes entries."""
    file = file_with(tmp_path, WORK)
    place = memory(own_state)
    place.unlink()
    place.mkdir()
    assert gone_ids(file.path) == []
    record(file, None, note("on"), number=40)
    assert len(JobFile(file.path).job.view.entries) == len(WORK) + 1
    assert [one.name for one in place.parent.iterdir() if one.name.startswith(".")] == []


def test_no_place_to_remember_breaks_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file where the folder should be: the job opens and takes entries."""
    nowhere = tmp_path / "nowhere"
    nowhere.write_bytes(b"")
    monkeypatch.setenv("XDG_STATE_HOME", str(nowhere))
    path, _, _ = put_back(tmp_path)
    assert gone_ids(path) == []
    assert gone(taken_apart(path), path) == []
    assert nowhere.read_bytes() == b""


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="nothing is read-only to this user")
def test_a_read_only_folder_breaks_nothing(tmp_path: Path, own_state: Path) -> None:
    """What was remembered is still said; what comes is left out."""
    path, _, newer = put_back(tmp_path)
    folder = memory(own_state).parent
    before = memory(own_state).read_bytes()
    folder.chmod(0o500)
    try:
        record(JobFile(path), None, note("on"), number=40)
        assert gone_ids(path) == [scan(newer).entries[-1].id]
        assert memory(own_state).read_bytes() == before
    finally:
        folder.chmod(0o700)


def test_a_disk_that_takes_nothing_leaves_the_memory_as_it_was(
    tmp_path: Path, own_state: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The entry is in the job file; of a memory that can't be written nothing is left lying about."""
    path, _, newer = put_back(tmp_path)
    before = memory(own_state).read_bytes()

    def full(*_: object, **__: object) -> int:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_text", full)
        record(JobFile(path), None, note("on"), number=40)
    assert memory(own_state).read_bytes() == before
    assert gone_ids(path) == [scan(newer).entries[-1].id]


def test_what_is_remembered_is_bounded(tmp_path: Path, own_state: Path) -> None:
    """However often an older copy is put back and worked on, the newest hundred ends are remembered."""
    file = file_with(tmp_path, WORK)
    older, header = file.path.read_bytes(), file.header.hash
    parent = file.job.view.entries[-1]
    for number in range(last_seen.MOST + 20):
        entry = Entry(
            entry_id(number, "lost"), parent.n + 1, minutes(number), "Wim", (NoteAct("x"),), (parent.hash,)
        )
        file.path.write_bytes(older + write_entry(entry)[0])
        file = JobFile(file.path)
    assert file.header.hash == header
    kept = [one["id"] for one in remembered(own_state)]
    assert kept == [entry_id(number, "lost") for number in range(20, last_seen.MOST + 20)]
    assert memory(own_state).stat().st_size < 100 * 1024


def test_a_memory_that_is_held_is_left_to_the_next_look(
    tmp_path: Path, own_state: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Recording doesn't wait for long, and the next look remembers."""
    monkeypatch.setattr(last_seen, "WAIT", 0.01)
    file = file_with(tmp_path, WORK)
    before = memory(own_state).read_bytes()
    with disk.locked(memory(own_state)):
        added = record(file, None, note("on"), number=40).entry
    assert memory(own_state).read_bytes() == before
    JobFile(file.path)
    assert [one["hash"] for one in remembered(own_state)] == [added.hash]


def record_many(path: Path, who: str, times: int) -> None:
    file = JobFile(path)
    for number in range(times):
        file.append((NoteAct(f"{who} {number}"),), who, minutes(number), id=entry_id(number, who))


def test_writers_in_two_copies_at_once_are_both_remembered(tmp_path: Path, own_state: Path) -> None:
    """Processes that record in copies of a job at the same time: the end of each is remembered, whole."""
    one = file_with(tmp_path, WORK)
    paths = [one.path, *(Path(shutil.copy(one.path, tmp_path / f"{who}.job.toml")) for who in "ab")]
    spawn = multiprocessing.get_context("spawn")
    writers = [spawn.Process(target=record_many, args=(path, path.stem, 30)) for path in paths]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join(60)
        assert writer.exitcode == 0
    assert {one["id"] for one in remembered(own_state)} == {entry_id(29, path.stem) for path in paths}
    for path in paths:
        assert set(gone_ids(path)) == {entry_id(29, other.stem) for other in paths if other != path}


def test_what_another_program_records_meanwhile_is_not_gone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Recorded and remembered after the file was read and before the memory is: no false alarm."""
    file = file_with(tmp_path, WORK)
    reader = JobFile(file.path)
    honest = last_seen.look
    others: list[str] = []

    def look(*arguments: Any) -> tuple[last_seen.SeenEntry, ...]:
        if not others:
            others.append("recorded")
            record(file, None, note("meanwhile"), number=41)
        return honest(*arguments)

    record(file, None, note("news"), number=40)
    monkeypatch.setattr(last_seen, "look", look)
    assert reader.refresh()
    assert reader.gone == ()
    assert reader.refresh()
    assert reader.gone == ()
    assert len(reader.job.view.entries) == len(WORK) + 2
