"""One job file under several names: by whichever it is reached, nothing acknowledged is lost.

Small here; behind the marker `whole` a thousand entries (`pytest -m whole -s`).
"""

from __future__ import annotations

import multiprocessing
import os
from multiprocessing.connection import Connection
from pathlib import Path

import pytest
from filelock import Timeout

from jobtrack.cli.main import main
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose.draft import new_id
from jobtrack.store.copies.intact import intact
from jobtrack.store.file import disk
from jobtrack.store.file import reader as readfile
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.machine import rescue
from tests.support.builders import entry_id, file_with, minutes, new_file, note, record

needs_fork = pytest.mark.skipif(
    "fork" not in multiprocessing.get_all_start_methods(),
    reason="what is taken out here is so in the children",
)
LONG = 600
"""Seconds that an append waits for the lock here, where seven processes want it all the time."""
RUNS = 10
"""So often a run is made until it shows something, two merges or a loss: on a busy machine one is a matter of luck."""
OPENED_ANEW = 5
"""After so many entries a process opens the job again, as the next call of the command line does."""


def names_of(path: Path) -> list[str]:
    """A job file's name, a link to it, a way through another folder, a way through a linked one, a link to a link."""
    bench, shelf = path.parent / "bench", path.parent / "shelf"
    bench.mkdir()
    shelf.symlink_to(path.parent, target_is_directory=True)
    link = bench / "today.job.toml"
    link.symlink_to(path)
    again = bench / "again"
    again.symlink_to("today.job.toml")
    way = os.path.relpath(path, Path.cwd())
    return [str(path), str(link), f"{bench}/../{path.name}", way, str(shelf / path.name), str(again)]


def append_many(name: str, out: Connection, who: str, times: int) -> None:
    """Append by one name, and say so of each entry only once `append` has returned."""
    for number in range(times):
        if number % OPENED_ANEW == 0:
            file = JobFile(Path(name))
        done = file.append((NoteAct(f"{who} {number}"),), who, minutes(number), id=new_id(), wait=LONG)
        os.write(out.fileno(), f"{done.entry.id}\n".encode())


def said(reader: Connection) -> list[str]:
    """What a process has acknowledged until its end."""
    parts = []
    while more := os.read(reader.fileno(), 65536):
        parts.append(more)
    return b"".join(parts).decode().split()


def merge_in_place(name: str, other: JobFile) -> bool:
    """Somebody comes back with one more entry on their stick, and joins it with the job, if the lock is to be had."""
    record(other, None, note("on the road"), by="Jo", number=10_000 + len(other.blocks))
    return main(["merge", name, str(other.path), "--in-place"]) == 0


def by_all_names(folder: Path, times: int) -> tuple[int, int, int]:
    """A process a name appends while the file is replaced by merged ones; acknowledged, lost, and how many merges."""
    file = new_file(folder)
    stick = folder / "stick.job.toml"
    stick.write_bytes(file.path.read_bytes())
    other = JobFile(stick)
    names = names_of(file.path)
    fork = multiprocessing.get_context("fork")
    pipes = [fork.Pipe(duplex=False) for _ in names]
    workers = [
        fork.Process(target=append_many, args=(name, writer, f"Worker {number}", times), daemon=True)
        for number, (name, (_, writer)) in enumerate(zip(names, pipes, strict=True))
    ]
    for worker in workers:
        worker.start()
    for _, writer in pipes:
        writer.close()
    merges = 0
    while any(worker.is_alive() for worker in workers):
        merges += merge_in_place(names[merges % len(names)], other)
    acknowledged = [one for reader, _ in pipes for one in said(reader)]
    there = [block.entry.id for block in JobFile(file.path).blocks if block.entry is not None]
    assert len(there) == len(set(there))
    return len(acknowledged), len(set(acknowledged) - set(there)), merges


@needs_fork
def test_no_name_loses_an_entry(tmp_path: Path) -> None:
    """By six names at once, with merges in place by each of them, no acknowledged entry is lost."""
    merges = 0
    for number in range(RUNS):
        folder = tmp_path / str(number)
        folder.mkdir()
        acknowledged, lost, merges = by_all_names(folder, 10)
        print(f"\n{acknowledged} acknowledged by six names, {merges} merges in place: {lost} lost")
        assert (acknowledged, lost) == (60, 0)
        assert intact(folder / "bay.job.toml") == []
        if merges > 1:
            break
    assert merges > 1


@needs_fork
@pytest.mark.whole
def test_no_name_loses_one_of_a_thousand(tmp_path: Path) -> None:
    """The same with a thousand entries and some."""
    acknowledged, lost, merges = by_all_names(tmp_path, 167)
    print(f"\n{acknowledged} acknowledged by six names, {merges} merges in place: {lost} lost")
    assert (acknowledged, lost) == (1002, 0)
    assert merges > 6


@needs_fork
def test_names_as_given_lose_entries(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the lock goes by the name as given, the same run loses some: otherwise it would show nothing."""
    for module in (disk, readfile):
        monkeypatch.setattr(module, "absolute", lambda path: path)
    lost = 0
    for number in range(RUNS):
        folder = tmp_path / str(number)
        folder.mkdir()
        acknowledged, lost, merges = by_all_names(folder, 20)
        print(f"\nby the names as given: {lost} of {acknowledged} lost in {merges} merges")
        if lost:
            break
    assert lost > 0


def test_one_lock_for_all_names(tmp_path: Path) -> None:
    """While the lock is held by one name, no other name gets it, and each name's lock is known to work."""
    names = names_of(new_file(tmp_path).path)
    for held in names:
        for other in names:
            with disk.locked(Path(held)), pytest.raises(Timeout), disk.locked(Path(other), 0):
                pass
        assert disk.locks_work(Path(held))
    assert [one.name for one in tmp_path.rglob("*.lock")] == ["bay.job.toml.lock"]


def test_what_waits_by_one_name_is_taken_up_by_another(tmp_path: Path) -> None:
    """What was typed by a link while the lock was held is recorded by the next call, by whichever name."""
    path = new_file(tmp_path).path
    names = [Path(name) for name in names_of(path)]
    for number, (one, other) in enumerate(zip(names, reversed(names), strict=True)):
        file = JobFile(one)
        with disk.locked(path), pytest.raises(NotRecorded):
            file.append((NoteAct("waits"),), "Wim", minutes(number), id=entry_id(number), wait=0)
        assert len(rescue.files(other, file.header.hash)) == 1
        assert [entry.id for entry in JobFile(other).take_up()] == [entry_id(number)]


def test_a_link_that_leads_elsewhere_by_now(tmp_path: Path) -> None:
    """What is recorded goes to the job that was opened, not to the one that the link leads to since."""
    first, second = new_file(tmp_path, "bay"), new_file(tmp_path, "roan")
    link = tmp_path / "today.job.toml"
    link.symlink_to(first.path)
    opened = JobFile(link)
    link.unlink()
    link.symlink_to(second.path)
    record(opened, None, note())
    assert len(JobFile(first.path).job.view.entries) == 1
    assert JobFile(second.path).job.view.entries == ()
    assert opened.leads_elsewhere == second.path


def test_what_stands_beside_a_job_stands_beside_the_file(tmp_path: Path) -> None:
    """A torn end that is set aside by a link is put beside the job file, where each name finds it."""
    file = file_with(tmp_path, ())
    record(file, None, note())
    with file.path.open("ab") as raw:
        raw.write(b'\n[[entry]]\nid = "half')
    done = record(JobFile(Path(names_of(file.path)[1])), None, note(), number=2)
    assert done.set_aside is not None
    assert done.set_aside.parent == tmp_path
    assert done.set_aside.name.startswith("bay.set-aside-")
