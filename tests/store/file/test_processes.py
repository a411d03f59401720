"""Several processes on one job file: nothing acknowledged is lost or doubled, whoever is killed and when.

Small here; behind the marker `whole` as many as a long night brings (`pytest -m whole -s`).
"""

from __future__ import annotations

import multiprocessing
import os
import random
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.connection import Connection
from pathlib import Path

import pytest

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose.draft import new_id
from jobtrack.store.copies.intact import intact
from jobtrack.store.copies.merge import merge_files
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.writing import write_entry
from tests.support.builders import entry_id, minutes, new_file, note, record

pytestmark = pytest.mark.skipif(
    "fork" not in multiprocessing.get_all_start_methods(), reason="kills at random moments want quick starts"
)
WITHIN = 2.0
"""Seconds after which each must see what another has added, and after which a dead process's lock is free."""


def append_many(path: Path, out: Connection, who: str, times: int) -> None:
    """Append, and say so of each entry only once `append` has returned."""
    file = JobFile(path)
    for number in range(times):
        done = file.append((NoteAct(f"{who} {number}"),), who, minutes(number), id=new_id())
        os.write(out.fileno(), f"{done.entry.id}\n".encode())


class Worker:
    """A process that appends, and what it has acknowledged."""

    def __init__(self, path: Path, who: str, times: int) -> None:
        fork = multiprocessing.get_context("fork")
        self.reader, writer = fork.Pipe(duplex=False)
        self.process = fork.Process(target=append_many, args=(path, writer, who, times))
        self.process.start()
        writer.close()
        self.said = b""

    def wait_for_one(self) -> None:
        self.said += os.read(self.reader.fileno(), 4096)

    def kill(self) -> None:
        """As `kill -9`: no clean end, no chance to tidy."""
        self.process.kill()

    def acknowledged(self) -> list[str]:
        """Everything that it said until its end."""
        while more := os.read(self.reader.fileno(), 65536):
            self.said += more
        self.process.join(60)
        whole = self.said[: self.said.rfind(b"\n") + 1]
        return whole.decode().split()


def ids_in(path: Path) -> list[str]:
    return [block.entry.id for block in JobFile(path).blocks if block.entry is not None]


def put_merged_in_place(path: Path, other: Path) -> None:
    """What a person does after a merge: the merged file goes where the job file was."""
    with disk.locked(path):
        merged = path.with_name("merged")
        merged.write_bytes(merge_files([path, other]).data)
        merged.replace(path)


def four_at_once(folder: Path, times: int) -> str:
    """Four processes append; meanwhile the file is replaced by a merged one, and one of them is killed."""
    file = new_file(folder)
    other = folder / "other.job.toml"
    other.write_bytes(file.path.read_bytes())
    brought = [
        record(JobFile(other), None, note("on the road"), by="Jo", number=9000 + one) for one in range(3)
    ]
    killed_before = 20 * times  # on a slow machine too it is still at work when it is killed
    began = time.monotonic()
    workers = [Worker(file.path, who, times) for who in ("Wim", "Ada", "Jo")]
    workers.append(Worker(file.path, "Ivo", killed_before))
    for one in workers:
        one.wait_for_one()
    put_merged_in_place(file.path, other)
    workers[-1].wait_for_one()
    workers[-1].kill()
    acknowledged = [one.acknowledged() for one in workers]
    took = time.monotonic() - began
    there = ids_in(file.path)
    assert [len(one) for one in acknowledged[:-1]] == [times] * 3
    assert 0 < len(acknowledged[-1]) < killed_before
    assert {one for some in acknowledged for one in some} <= set(there)
    assert {done.entry.id for done in brought} <= set(there)
    assert len(there) == len(set(there)) <= sum(map(len, acknowledged)) + len(brought) + 1
    assert [one for one in intact(file.path) if one.what != "torn"] == []
    return f"{sum(map(len, acknowledged))} acknowledged, {len(there)} in the file, {took:.0f} s"


def test_four_at_once(tmp_path: Path) -> None:
    """With a merge and a kill in the middle, four processes lose or double no acknowledged entry."""
    print(f"\n4 x 40: {four_at_once(tmp_path, 40)}")


@pytest.mark.whole
def test_four_at_once_at_length(tmp_path: Path) -> None:
    """The same with many more entries; how many is set by the environment, 2,500 each if it isn't."""
    times = int(os.environ.get("JOBTRACK_TEST_TIMES", "2500"))
    print(f"\n4 x {times}: {four_at_once(tmp_path, times)}")


def hold_lock(path: Path, out: Connection) -> None:
    with disk.locked(path):
        out.send("held")
        time.sleep(60)


def test_a_lock_dies_with_its_process(tmp_path: Path) -> None:
    """A process killed while it holds the lock stops nobody: the next append goes on at once."""
    file = new_file(tmp_path)
    fork = multiprocessing.get_context("fork")
    reader, writer = fork.Pipe(duplex=False)
    holder = fork.Process(target=hold_lock, args=(file.path, writer))
    holder.start()
    assert reader.recv() == "held"
    holder.kill()
    began = time.monotonic()
    record(file, None, note())
    took = time.monotonic() - began
    holder.join(10)
    print(f"\nbehind a dead process's lock: {took:.3f} s")
    assert took < WITHIN


def write_in_two(path: Path, data: bytes, talk: Connection) -> None:
    """A writer that is interrupted in the middle of a block, holding the lock."""
    with disk.locked(path), path.open("ab", buffering=0) as file:
        file.write(data[: len(data) // 2])
        talk.send("half")
        talk.recv()
        file.write(data[len(data) // 2 :])


def a_block(file: JobFile, number: int) -> bytes:
    """An entry behind what the file holds, as bytes."""
    n = 1 + max((entry.n for entry in file.job.view.entries), default=0)
    ends = file.job.view.loose_ends
    return write_entry(Entry(entry_id(number), n, minutes(n), "Ada", (NoteAct("half"),), ends))[0]


def test_a_torn_end_that_is_still_being_written(tmp_path: Path) -> None:
    """Whoever reads a half-written entry leaves it alone, whoever appends waits, and both entries are there."""
    file = new_file(tmp_path)
    record(file, None, note())
    fork = multiprocessing.get_context("fork")
    here, there = fork.Pipe()
    writer = fork.Process(target=write_in_two, args=(file.path, a_block(file, 77), there))
    writer.start()
    assert here.recv() == "half"
    half = file.path.read_bytes()
    assert JobFile(file.path).torn is not None
    assert (file.refresh(), file.torn is not None) == (True, True)
    appender = Worker(file.path, "Wim", 1)
    appender.process.join(0.4)
    assert appender.process.is_alive()
    assert file.path.read_bytes() == half
    here.send("go on")
    writer.join(10)
    [appended] = appender.acknowledged()
    assert ids_in(file.path)[-2:] == [entry_id(77), appended]
    assert (file.refresh(), file.torn) == (True, None)
    assert intact(file.path) == []
    assert not list(tmp_path.glob("*set-aside*"))


def kill_at_random(folder: Path, kills: int) -> str:
    """Kill a process that appends, again and again; each time what it acknowledged is there, once."""
    chance = random.Random(kills)
    said = unsaid = torn = 0
    for number in range(kills):
        if number % 25 == 0:
            path = new_file(folder, f"bay-{number}").path
            known: set[str] = set()
        worker = Worker(path, "Wim", 10_000)
        if chance.random() < 0.7:
            worker.wait_for_one()
        time.sleep(chance.uniform(0, 0.02))
        worker.kill()
        acknowledged = worker.acknowledged()
        there = ids_in(path)
        assert known | set(acknowledged) <= set(there), number
        assert len(there) == len(set(there))
        assert len(set(there) - known - set(acknowledged)) <= 1, "only the last may be there and not yet said"
        found = [one.what for one in intact(path)]
        assert found in ([], ["torn"])
        said, torn = said + len(acknowledged), torn + len(found)
        unsaid += len(set(there) - known - set(acknowledged))
        known = set(there)
    return f"{kills} kills: {said} acknowledged, 0 lost, {unsaid} there and not yet said, {torn} torn ends"


def test_killed_at_random_moments(tmp_path: Path) -> None:
    """Whenever a process is killed, what it has acknowledged is there, and of the rest at most one, whole or torn."""
    print(f"\n{kill_at_random(tmp_path, 25)}")


@pytest.mark.whole
def test_killed_a_thousand_times(tmp_path: Path) -> None:
    """The same, a thousand times."""
    print(f"\n{kill_at_random(tmp_path, 1000)}")


# What following costs


def long_file(folder: Path, entries: int) -> JobFile:
    file = new_file(folder, f"long-{entries}")
    parent, parts = file.header.hash, []
    for number in range(entries):
        entry = Entry(entry_id(number), 1 + number, minutes(number), "Wim", (NoteAct("x"),), (parent,))
        data, parent = write_entry(entry)
        parts.append(data)
    with file.path.open("ab") as raw:
        raw.write(b"".join(parts))
    file.refresh()
    return file


def bytes_read() -> int:
    """What this process has read so far, by the system's own count."""
    return int(Path("/proc/self/io").read_text().split()[1])


@contextmanager
def counted(counts: list[int]) -> Iterator[None]:
    idle = -bytes_read() + bytes_read()
    before = bytes_read()
    yield
    counts.append(bytes_read() - before - idle)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="counted by /proc")
def test_following_costs_what_was_added(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Taking in one entry of another's reads as many bytes from 3,000 entries as from 100; nothing new, fewer still."""
    counts: list[int] = []
    for entries in (100, 3000):
        monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / str(entries)))
        file = long_file(tmp_path, entries)
        with file.path.open("ab") as raw:
            raw.write(a_block(file, 9999))
        with counted(counts):
            assert file.refresh() is True
        with counted(counts):
            assert file.refresh() is False
        assert len(file.job.view.entries) == entries + 1
    few, few_idle, many, many_idle = counts
    print(
        f"\nread to follow: {few} bytes at 100 entries, {many} at 3000; nothing new: {few_idle}, {many_idle}"
    )
    assert abs(many - few) <= 16
    assert many_idle <= few_idle + 16 < 256


def see(path: Path, talk: Connection) -> None:
    """Look again every tenth of a second until somebody's entry is there; say when it was seen."""
    file = JobFile(path)
    talk.send(0.0)
    while not file.job.view.entries:
        time.sleep(0.1)
        file.refresh()
    talk.send(time.monotonic())


def test_each_sees_the_others_entry(tmp_path: Path) -> None:
    """What one process has recorded another has seen within two seconds."""
    file = new_file(tmp_path)
    fork = multiprocessing.get_context("fork")
    here, there = fork.Pipe()
    looking = fork.Process(target=see, args=(file.path, there))
    looking.start()
    here.recv()
    record(file, None, note())
    written = time.monotonic()
    seen = here.recv()
    looking.join(10)
    assert seen - written < WITHIN
