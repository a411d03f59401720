"""The job file on the disk: appending, following, torn ends, failed writes, two programs at once."""

from __future__ import annotations

import errno
import multiprocessing
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft, new_id
from jobtrack.job.compose.refusal import Refused
from jobtrack.store.copies.intact import intact
from jobtrack.store.file import disk
from jobtrack.store.file.beginning import begin
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    WORK,
    clock,
    entry_id,
    file_with,
    finish,
    minutes,
    new_file,
    note,
    read,
    record,
    tick,
)  # fmt: skip
from tests.support.exchange import EXCHANGE


def test_what_is_appended_is_found_when_the_file_is_read_again(tmp_path: Path) -> None:
    """Every entry, its acts and the state that follows are the same after opening the file anew."""
    file = file_with(tmp_path, WORK)
    again = JobFile(file.path)
    assert again.job.view.entries == file.job.view.entries
    assert again.job.about.title == "Bay horse-box"
    assert again.job.places.reading(RECIPIENT, "spacing").written == 965.2
    assert intact(file.path) == []


def test_text_is_stored_exactly(tmp_path: Path) -> None:
    """Brackets, quotes, an ESC sequence and an emoji come back as they were typed."""
    texts = ['[3/4] [/x] "q" \\ \x1b[31m 🔧', "line\nline\ttab\r\x00\x7f\x9b", "' ''' \"\"\" # [[entry]]"]
    file = new_file(tmp_path)
    for text in texts:
        record(file, None, note(text))
    acts = [act for entry in JobFile(file.path).job.view.entries for act in entry.did]
    assert [act.note for act in acts if isinstance(act, NoteAct)] == texts


def test_the_longest_name_comes_back_whole(tmp_path: Path) -> None:
    """Two hundred signs of several bytes each: what is long is counted as where it is typed."""
    file = new_file(tmp_path)
    record(file, None, note("seen"), by="長" * 200)
    assert JobFile(file.path).job.view.entries[-1].by == "長" * 200


def test_a_title_that_could_not_be_read_again_begins_no_job(tmp_path: Path) -> None:
    """It is refused before anything is written."""
    out = tmp_path / "new.job.toml"
    with pytest.raises(Refused, match="a title is at most 200 characters"):
        begin(EXCHANGE, out, "Wim", "長" * 201, ())
    assert not out.exists()
    assert begin(EXCHANGE, out, "Wim", "長" * 200, ()).job.about.title == "長" * 200


def test_an_append_changes_nothing_before_it(tmp_path: Path) -> None:
    """An append only adds bytes behind the end."""
    file = file_with(tmp_path, WORK)
    before = file.path.read_bytes()
    record(file, None, note())
    assert file.path.read_bytes().startswith(before)


def test_follows_what_others_append(tmp_path: Path) -> None:
    """An open file takes in what another has added, and says whether anything came."""
    file = new_file(tmp_path)
    other = JobFile(file.path)
    assert other.refresh() is False
    record(file, DONOR, read("spacing", "1012"))
    assert other.refresh() is True
    assert other.job.places.reading(DONOR, "spacing").value == 1012
    assert [block.line for block in other.blocks] == [block.line for block in JobFile(file.path).blocks]


def test_an_append_follows_what_came_meanwhile(tmp_path: Path) -> None:
    """Recorded from a state that is behind, an entry still follows all that the file holds by then."""
    file = new_file(tmp_path)
    other = JobFile(file.path)
    record(file, DONOR, read("spacing", "1012"))
    record(other, DONOR, read("spacing", "1013"), by="Ada", number=1)
    assert intact(file.path) == []
    standing = other.job.places.reading(DONOR, "spacing")
    assert (standing.agreed, len(standing.acts)) == (False, 2)


@pytest.mark.parametrize("change", [lambda data: data[:-40], lambda data: data.replace(b"1012", b"1013")])
def test_a_file_that_was_replaced_is_read_anew(tmp_path: Path, change: Callable[[bytes], bytes]) -> None:
    """A shortened or replaced file is read from its beginning."""
    file = file_with(tmp_path, WORK)
    replaced = tmp_path / "new"
    replaced.write_bytes(change(file.path.read_bytes()))
    replaced.replace(file.path)
    assert file.refresh() is True
    assert [block.kind for block in file.blocks] == [block.kind for block in JobFile(file.path).blocks]


def test_an_altered_file_is_noticed_by_the_next_append(tmp_path: Path) -> None:
    """Bytes changed in place at the end, the length kept, are seen before anything is added."""
    file = file_with(tmp_path, WORK[:2])
    data = file.path.read_bytes()
    with file.path.open("r+b") as raw:
        raw.seek(len(data) - 10)
        raw.write(b"0" if data[-10:-9] != b"0" else b"1")
    record(file, None, note())
    assert [block.kind for block in file.blocks] == ["sound", "altered", "sound"]
    assert [one.what for one in intact(file.path)] == ["altered"]


def test_a_file_that_is_gone(tmp_path: Path) -> None:
    """A file that was taken away is said on one line; nothing is recorded."""
    file = new_file(tmp_path)
    file.path.unlink()
    with pytest.raises(JobFileError, match=r"can't be read any more"):
        file.refresh()
    with pytest.raises(NotRecorded, match=r"NOT YET RECORDED"):
        record(file, None, note())
    assert not file.path.exists()


@pytest.mark.parametrize("text", ["", "nothing\n", "format = 1\n", "[[entry]]\n", "\x00" * 50])
def test_what_is_no_job_file(tmp_path: Path, text: str) -> None:
    """A file that is none of ours is refused on one line that names it."""
    path = tmp_path / "x.job.toml"
    path.write_text(text)
    with pytest.raises(JobFileError) as caught:
        JobFile(path)
    assert str(caught.value).startswith(f"{path}")
    assert "\n" not in str(caught.value)


def test_never_overwrites(tmp_path: Path) -> None:
    """A new job isn't written over a file that is there."""
    new_file(tmp_path)
    with pytest.raises(JobFileError, match=r"is there already"):
        new_file(tmp_path)


def test_a_cut_anywhere_in_the_last_three_entries(tmp_path: Path) -> None:
    """Cut at every byte, the file opens with all whole entries and says what it found."""
    file = file_with(tmp_path, WORK)
    data = file.path.read_bytes()
    ends = [data.index(block.data) + len(block.data) for block in file.blocks]
    cut = tmp_path / "cut.job.toml"
    for at in range(ends[-4], len(data) + 1):
        cut.write_bytes(data[:at])
        opened = JobFile(cut)
        whole = sum(end <= at for end in ends)
        assert [entry.hash for entry in opened.job.view.entries] == [
            block.hash for block in file.blocks[:whole]
        ]
        assert [one.what for one in intact(cut)] == ([] if at in ends else ["torn"])
        assert (opened.torn is None) == (at in ends)
        assert opened.read_only is None


def test_a_cut_anywhere_sets_the_torn_end_aside(tmp_path: Path) -> None:
    """The next append moves a torn end into a file of its own, says which, and the job file is intact."""
    file = file_with(tmp_path, WORK[:2])
    data = file.path.read_bytes()
    end = len(data) - len(file.blocks[-1].data)
    for at in range(end + 1, len(data), 5):
        cut = tmp_path / f"cut-{at}.job.toml"
        cut.write_bytes(data[:at])
        opened = JobFile(cut)
        assert cut.read_bytes() == data[:at]
        aside = record(opened, None, note(), number=9).set_aside
        assert aside is not None
        assert aside.name.startswith(f"cut-{at}.set-aside-")
        assert aside.read_bytes() == data[end:at]
        assert intact(cut) == []
        assert cut.read_bytes().startswith(data[:end])


def test_a_torn_end_with_changed_line_endings(tmp_path: Path) -> None:
    """A torn end of a file whose lines were changed to CRLF is cut off where it begins."""
    file = file_with(tmp_path, WORK[:2])
    data = file.path.read_bytes().replace(b"\n", b"\r\n")
    file.path.write_bytes(data[:-30])
    opened = JobFile(file.path)
    record(opened, None, note(), number=9)
    assert [one.what for one in intact(file.path)] == ["line endings"]
    assert len(opened.job.view.entries) == 2


def test_crlf_is_forgiven(tmp_path: Path) -> None:
    """Line endings changed to CRLF cost no entry, and the file takes the next."""
    file = file_with(tmp_path, WORK)
    file.path.write_bytes(file.path.read_bytes().replace(b"\n", b"\r\n"))
    opened = JobFile(file.path)
    assert opened.job.view.entries == file.job.view.entries
    record(opened, None, note(), number=9)
    assert len(JobFile(file.path).job.view.entries) == len(WORK) + 1
    assert [(one.what, one.remark) for one in intact(file.path)] == [("line endings", True)]


def full(*_: object) -> int:
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_failed_sync_leaves_the_file_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the disk doesn't take the entry, the file has its old bytes, and the same call can be tried again."""
    file = file_with(tmp_path, WORK)
    before, state = file.path.read_bytes(), file.job.view.entries
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", full)
        with pytest.raises(NotRecorded, match=r"NOT YET RECORDED: No space left on device"):
            record(file, None, note(), number=9)
    assert (file.path.read_bytes(), file.job.view.entries) == (before, state)
    record(file, None, note(), number=9)
    assert intact(file.path) == []


def test_a_short_write_is_gone_on_with(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system takes a part of the block at a time, the rest follows, and the entry is whole."""
    file = file_with(tmp_path, WORK)
    honest = os.write
    monkeypatch.setattr(os, "write", lambda handle, data: honest(handle, data[:7]))
    record(file, None, note(), number=9)
    monkeypatch.undo()
    assert len(JobFile(file.path).job.view.entries) == len(WORK) + 1
    assert intact(file.path) == []


def test_a_lock_that_is_held(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While another program holds the lock for longer than we wait, nothing is recorded, and that is said."""
    file = new_file(tmp_path)
    other = JobFile(file.path)
    monkeypatch.setattr(disk, "LOCK_WAIT", 0.05)
    with disk.locked(file.path), pytest.raises(NotRecorded, match=r"lock"):
        record(other, None, note())
    assert other.blocks == []


def test_a_call_too_long_for_one_line_is_refused(tmp_path: Path) -> None:
    """What would be too long to be read again isn't written, and the file stays one that can be recorded in."""
    file = new_file(tmp_path)
    with pytest.raises(Refused, match=r"too long"):
        record(file, None, *(note("\x1b" * 10240) for _ in range(2)))
    record(file, None, note("\x1b" * 10240))
    assert JobFile(file.path).read_only is None


def test_the_names_of_entries() -> None:
    """An id is 16 characters of a to z and 2 to 7, and no two are the same."""
    ids = {new_id() for _ in range(1000)}
    assert len(ids) == 1000
    assert all(len(one) == 16 and set(one) <= set("abcdefghijklmnopqrstuvwxyz234567") for one in ids)


def test_entered_later_than_done(tmp_path: Path) -> None:
    """`typed_at` is kept beside `at`."""
    file = new_file(tmp_path)
    draft = Draft(file.job, "Wim", minutes(0), DONOR, id=entry_id(1))
    values.reading(draft, "spacing", ["1012"])
    file.append(draft.done(), draft.by, draft.at, id=draft.id, step=DONOR, typed_at=minutes(90))
    [entry] = JobFile(file.path).job.view.entries
    assert (entry.at, entry.typed_at) == (minutes(0), minutes(90))


def append_many(path: str, who: str, times: int) -> None:
    """What each of two processes does."""
    file = JobFile(Path(path))
    for number in range(times):
        file.append((NoteAct(f"{who} {number}"),), who, minutes(number), id=new_id())


def test_two_processes_lose_nothing(tmp_path: Path) -> None:
    """Two programs that append a hundred entries each at the same time lose none, and leave the file intact."""
    file = new_file(tmp_path)
    spawn = multiprocessing.get_context("spawn")
    both = [spawn.Process(target=append_many, args=(str(file.path), who, 100)) for who in ("Wim", "Ada")]
    for one in both:
        one.start()
    for one in both:
        one.join(120)
    assert [one.exitcode for one in both] == [0, 0]
    notes = [
        act.note
        for entry in JobFile(file.path).job.view.entries
        for act in entry.did
        if isinstance(act, NoteAct)
    ]
    assert sorted(notes) == sorted(f"{who} {number}" for who in ("Wim", "Ada") for number in range(100))
    assert intact(file.path) == []


def test_a_day_of_work_in_the_file(tmp_path: Path) -> None:
    """A day with clock, readings and finishes reads back to the state in which it was written."""
    file = file_with(tmp_path, [(None, clock("on")), *WORK, (DONOR, finish), ("mark.left", tick("scribed"))])
    again = JobFile(file.path)
    assert [again.job.state(step) for step in again.job.steps] == [
        file.job.state(step) for step in file.job.steps
    ]
