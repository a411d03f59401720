"""Power cuts, simulated: kill -9 proves nothing about durability, since the page cache survives the process.

The system calls of real appends are written down; then the power is cut behind any of them, and what is found
is what was synced, and of the rest any mix of 512-byte sectors.
"""

from __future__ import annotations

import errno
import os
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded, create
from jobtrack.store.text.blocks import scan
from tests.support.builders import WORK, new_file, note, record
from tests.support.power_cuts import Disk, Moment
from tests.support.watched_calls import WatchedOs

CUTS = 1500
"""Cuts of a run in CI; the whole run makes 20,000."""


def a_day_of_work(folder: Path, watched: Disk, patch: pytest.MonkeyPatch) -> Path:
    """Appends, a torn end, a sync that fails and what waited taken up; each acknowledged entry is said to the disk."""
    file = new_file(folder)
    watching = watched.watching()
    patch.setattr(disk, "os", watching)
    number = 0
    for length in (5, 700, 40, 1500, 5, 5):
        number = _acknowledged(file, number, length, watched)
    with file.path.open("ab") as end:
        end.write(b'\n[[entry]]\nid = "broken')
    number = _acknowledged(file, number, 30, watched)
    _refused(file, number, watching)
    number = _acknowledged(file, number + 1, 900, watched)
    for length in (5, 2500, 5):
        number = _acknowledged(file, number, length, watched)
    return file.path


def _acknowledged(file: JobFile, number: int, length: int, watched: Disk) -> int:
    done = record(file, None, note("x" * length), number=number)
    for entry in (*done.taken_up, done.entry):
        watched.acknowledge(entry.id)
    return number + 1


def _refused(file: JobFile, number: int, watching: WatchedOs) -> None:
    """The first sync fails; the entry waits in the rescue file."""
    syncs: list[str] = []

    def before(name: str, count: int) -> None:
        if name == "fsync":
            syncs.append(name)
            if len(syncs) == 1:
                raise OSError(errno.EIO, os.strerror(errno.EIO))

    watching.before = before
    with pytest.raises(NotRecorded, match="kept in"):
        record(file, None, note("waits"), number=number)
    watching.before = lambda name, count: None


def cuts(moments: list[Moment], path: Path, times: int) -> Iterator[tuple[Moment, bytes, Random]]:
    """The job file as it is found after each of so many cuts, at moments spread over all of them."""
    random = Random(20311)
    for number in range(times):
        moment = moments[number * len(moments) // times]
        found = moment.cut(random)
        yield moment, found.get(str(path), b""), random


def lost(moment: Moment, data: bytes) -> set[str]:
    """What had been acknowledged and isn't in the file."""
    return set(moment.said) - {entry.id for entry in scan(data).entries}


def outcome(path: Path, times: int, watched: Disk) -> Counter[str]:
    """How many cuts there were, how many lost something acknowledged, how many left anything broken off."""
    whole = {block.hash: block.data for block in scan(path.read_bytes()).blocks}
    met: Counter[str] = Counter()
    for moment, data, _ in cuts(watched.moments, path, times):
        met["cuts"] += 1
        met["lost something"] += bool(lost(moment, data))
        met["broken off"] += any(block.kind != "sound" for block in scan(data).blocks)
        for block in scan(data).blocks:
            # Whole or not at all: nothing counts that isn't the block of a call, to the byte.
            met["not as written"] += block.kind == "sound" and whole.get(block.hash, block.data) != block.data
    return met


def watched_day(folder: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Path, Disk]:
    watched = Disk()
    with monkeypatch.context() as patch:
        path = a_day_of_work(folder, watched, patch)
    return path, watched


@pytest.mark.parametrize("times", [CUTS, pytest.param(20_000, marks=pytest.mark.whole)])
def test_nothing_acknowledged_is_lost(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, times: int) -> None:
    """Wherever the power is cut, every acknowledged entry is in the file, whole; and some cuts break a write off."""
    path, watched = watched_day(tmp_path, monkeypatch)
    met = outcome(path, times, watched)
    print(f"\n{dict(met)}; {len(watched.moments)} moments, {len(watched.said)} entries acknowledged")
    assert len(watched.said) == len(scan(path.read_bytes()).entries) == 12
    assert (met["lost something"], met["not as written"]) == (0, 0)
    assert met["broken off"] >= times // 20


def test_without_syncs_much_is_lost(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the sync taken out, the same cuts lose acknowledged entries: else they would test nothing."""
    monkeypatch.setattr(disk, "sync", lambda handle: None)
    watched = Disk()
    with monkeypatch.context() as patch:
        file = new_file(tmp_path)
        patch.setattr(disk, "os", watched.watching())
        for number in range(12):
            _acknowledged(file, number, 40 * number, watched)
    met = outcome(file.path, CUTS, watched)
    print(f"\nwithout syncs: {dict(met)}")
    assert met["lost something"] >= CUTS // 2


def test_after_a_cut_the_work_goes_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After any cut the file opens and takes the next entry, and everything acknowledged is still there."""
    path, watched = watched_day(tmp_path, monkeypatch)
    for number, (moment, data, _) in enumerate(cuts(watched.moments, path, 60)):
        again = tmp_path / str(number) / path.name
        again.parent.mkdir()
        again.write_bytes(data)
        record(JobFile(again), None, note("after the cut"), number=900)
        assert lost(moment, again.read_bytes()) == set()
        assert "after the cut" in again.read_text(encoding="utf-8", errors="replace")


def test_what_waits_survives_a_cut(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was said to be kept in the rescue file is in it, or in the job file, after any cut."""
    file = new_file(tmp_path)
    record(file, *WORK[0], number=0)
    watched = Disk()
    watching = watched.watching()
    with monkeypatch.context() as patch:
        patch.setattr(disk, "os", watching)
        _refused(file, 1, watching)
        [waits] = file.waiting
        watched.acknowledge(waits.id)
        _acknowledged(file, 2, 40, watched)
    random = Random(7)
    met = 0
    for moment in watched.moments:
        for _ in range(20):
            found = moment.cut(random)
            ids = {entry.id for data in found.values() for entry in scan(b"\n[header]\n" + data).entries}
            assert set(moment.said) <= ids
            met += bool(moment.said)
    assert met >= 100


def test_a_job_is_begun_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After a cut while a job is begun, the job file is there with all of it, or isn't there."""
    from tests.support.builders import template

    path = tmp_path / "bay.job.toml"
    watched = Disk()
    with monkeypatch.context() as patch:
        patch.setattr(disk, "os", watched.watching())
        create(path, "job-1", "Bay horse-box", template())
        watched.acknowledge("begun")
    whole = path.read_bytes()
    random = Random(3)
    met: Counter[str] = Counter()
    for moment in watched.moments:
        for _ in range(25):
            found = moment.cut(random).get(str(path))
            met["there" if found else "not there"] += 1
            assert found in (None, whole)
            assert found == whole or not moment.said
    assert min(met.values()) >= 20
    with pytest.raises(JobFileError, match="is there already"):
        create(path, "job-1", "Bay horse-box", template())
