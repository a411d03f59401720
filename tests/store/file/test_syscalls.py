"""An error at each system call of an append, a take-up and a create: the promises hold at each."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from jobtrack.store.copies.intact import intact
from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded, create
from tests.support.builders import WORK, entry_id, file_with, new_file, note, record, template
from tests.support.watched_calls import WatchedOs, failing_at

ERRORS = (errno.ENOSPC, errno.EIO)
NEW = entry_id(90)


def calls_of(do: Callable[[], object], monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The system calls that something makes when nothing fails."""
    watched = WatchedOs()
    with monkeypatch.context() as patch:
        patch.setattr(disk, "os", watched)
        do()
    assert "fsync" in watched.made
    return watched.made


def ids(path: Path) -> list[str]:
    return [entry.id for entry in JobFile(path).job.view.entries]


def refusal(do: Callable[[], object]) -> str | None:
    """The one line with which something ended; None where it was done."""
    try:
        do()
    except (NotRecorded, JobFileError) as said:
        return str(said)
    return None


@pytest.mark.parametrize("lasting", [False, True], ids=["once", "from then on"])
@pytest.mark.parametrize("error", ERRORS, ids=errno.errorcode.__getitem__)
def test_an_append_that_fails_at_any_call(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: int, lasting: bool
) -> None:
    """Acknowledged is in the file; not recorded is kept, said, and in the file once when the disk takes it again."""
    count = len(
        calls_of(lambda: record(file_with(tmp_path, WORK, "dry"), None, note(), number=90), monkeypatch)
    )
    refused = 0
    path = tmp_path / "bay.job.toml"
    whole = file_with(tmp_path, WORK).path.read_bytes()
    for number in range(1, count + 1):
        path.write_bytes(whole)
        file = JobFile(path)
        before = ids(file.path)
        with monkeypatch.context() as patch:
            patch.setattr(disk, "os", WatchedOs(failing_at(number, error, lasting)))
            said = refusal(partial(record, file, None, note(), number=90))
        if said is not None:
            refused += 1
            assert "NOT YET RECORDED" in said
            assert os.strerror(error) in said
            assert [entry.id for entry in file.waiting] in ([NEW], [])
        assert before == ids(file.path)[: len(before)]
        file.take_up()
        assert ids(file.path) == [*before, NEW]
        assert [one.what for one in intact(file.path)] == []
        assert file.waiting == []
    assert refused >= 3


@pytest.mark.parametrize("error", ERRORS, ids=errno.errorcode.__getitem__)
def test_a_create_that_fails_at_any_call(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: int) -> None:
    """The job file is there whole, or not at all, and the same name can be tried again."""

    def make(path: Path) -> JobFile:
        return create(path, "job-1", "Bay horse-box", template())

    made = calls_of(lambda: make(tmp_path / "dry.job.toml"), monkeypatch)
    whole = (tmp_path / "dry.job.toml").read_bytes()
    refused = 0
    for number in range(1, len(made) + 1):
        path = tmp_path / str(number) / "bay.job.toml"
        path.parent.mkdir()
        with monkeypatch.context() as patch:
            patch.setattr(disk, "os", WatchedOs(failing_at(number, error)))
            said = refusal(partial(make, path))
        refused += said is not None
        assert said is None or os.strerror(error) in said
        left = [one.name for one in path.parent.iterdir()]
        assert left in ([], ["bay.job.toml"]) or made[number - 1] == "unlink"
        if not path.exists():
            make(path)
        assert path.read_bytes() == whole
    assert refused >= 3


def test_a_torn_end_whose_setting_aside_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever fails while a torn end is put out of the way: its bytes are in one of both places, and nothing whole
    is lost."""
    torn = b'\n[[entry]]\nid = "half'

    whole = file_with(tmp_path, WORK).path.read_bytes()

    def prepared(name: str) -> JobFile:
        path = tmp_path / f"{name}.job.toml"
        path.write_bytes(whole + torn)
        return JobFile(path)

    dry = prepared("dry")
    count = len(calls_of(lambda: record(dry, None, note(), number=90), monkeypatch))
    for number in range(1, count + 1):
        file = prepared(f"torn-{number}")
        with monkeypatch.context() as patch:
            patch.setattr(disk, "os", WatchedOs(failing_at(number, errno.EIO)))
            refusal(partial(record, file, None, note(), number=90))
        aside = b"".join(one.read_bytes() for one in tmp_path.glob(f"torn-{number}.set-aside-*"))
        assert file.path.read_bytes().endswith(torn) or aside == torn
        JobFile(file.path).take_up()
        record(JobFile(file.path), None, note(), number=91)
        assert ids(file.path)[len(WORK) :] == [NEW, entry_id(91)]
        assert intact(file.path) == []


def test_a_failed_close_keeps_what_was_synced(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error at the close, when the entry is on the disk already, doubles nothing."""
    file = new_file(tmp_path)
    made: list[str] = []

    def before(name: str, number: int) -> None:
        made.append(name)
        if name == "close" and "fsync" in made:
            made.clear()
            raise OSError(errno.EIO, "Input/output error")

    with monkeypatch.context() as patch:
        patch.setattr(disk, "os", WatchedOs(before))
        with pytest.raises(NotRecorded):
            record(file, None, note(), number=90)
    record(JobFile(file.path), None, note(), number=91)
    assert ids(file.path) == [NEW, entry_id(91)]
    assert intact(file.path) == []
