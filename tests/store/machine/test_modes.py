"""Who may read what this machine keeps: its state is its owner's alone; a job file is as the umask says."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from jobtrack.job.acts.said import NoteAct
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile, NotRecorded
from tests.support.builders import entry_id, minutes, new_file, note, record

pytestmark = pytest.mark.skipif(os.name != "posix", reason="modes as Unix has them")


@pytest.fixture(params=[0o022, 0o077, 0o000])
def umask(request: pytest.FixtureRequest) -> Iterator[int]:
    mask: int = request.param
    before = os.umask(mask)
    yield mask
    os.umask(before)


def waits(file: JobFile, number: int) -> None:
    """Something private that the file doesn't take, since another holds the lock."""
    with disk.locked(file.path), pytest.raises(NotRecorded):
        file.append((NoteAct("x", private=True),), "Wim", minutes(1), id=entry_id(number), wait=0)


def modes(state: Path) -> dict[str, str]:
    """What is below the state folder, each with its permissions."""
    return {
        str(one.relative_to(state)): f"{one.stat().st_mode & 0o777:o}"
        for one in state.rglob("*")
        if one != state
    }


def used(folder: Path) -> JobFile:
    """A job that was begun, recorded in, and for which two things waited and one was let go."""
    file = new_file(folder)
    record(file, None, note())
    waits(file, 70)
    waits(file, 71)
    file.take_up()
    waits(file, 72)
    return file


def check(state: Path) -> None:
    found = modes(state)
    assert {"jobtrack", "jobtrack/rescue", "jobtrack/rescue/reserve", "jobtrack/seen"} <= set(found)
    assert any(name.endswith(".rescue.toml") for name in found)
    assert any(name.endswith(".json") for name in found)
    for name, mode in found.items():
        assert mode == ("700" if (state / name).is_dir() else "600"), name


def test_state_is_its_owners_alone(tmp_path: Path, own_state: Path, umask: int) -> None:
    """Rescue, memory, reserve and their locks can be read by nobody else; the job file has what the umask leaves."""
    file = used(tmp_path)
    check(own_state)
    assert file.path.stat().st_mode & 0o777 == 0o666 & ~umask


def test_what_was_open_before_is_tightened(tmp_path: Path, own_state: Path) -> None:
    """Folders and files that an older program left open to others are closed when they are next used."""
    file = used(tmp_path)
    for one in own_state.rglob("*"):
        one.chmod(0o755 if one.is_dir() else 0o644)
    assert [entry.id for entry in JobFile(file.path).waiting] == [entry_id(72)]
    check(own_state)


def test_the_folder_of_the_jobs_stays_as_it_is(
    tmp_path: Path, own_state: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a system keeps state and data in one folder, the jobs in it stay open to whom they were."""
    monkeypatch.setenv("XDG_DATA_HOME", str(own_state))
    shared = own_state / "jobtrack"
    shared.mkdir()
    shared.chmod(0o755)
    used(tmp_path)
    assert shared.stat().st_mode & 0o777 == 0o755
    assert (shared / "rescue").stat().st_mode & 0o777 == 0o700
