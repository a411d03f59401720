"""Entries that a job file didn't take: kept on this machine until it does.

A rescue file names its job by the header's hash and the job file by its path; then come blocks as in a
job file, each with the hash that it would have had. An entry keeps its id, so it counts once however
often it arrives.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from contextlib import suppress
from pathlib import Path

import tomli

from jobtrack.job.acts.entry import Entry
from jobtrack.store.file import disk
from jobtrack.store.machine.state_files import absolute, state_folder
from jobtrack.store.text.blocks import digest, scan_blocks
from jobtrack.store.text.writing import write_entry, write_line

RESERVE = "reserve"
RESERVE_BYTES = 64 * 1024
"""Given up when the disk is full, so that there is room for what couldn't be recorded."""
BLOCK = b"\n[[entry]]\n"


def keep(path: Path, header: str, entry: Entry) -> Path:
    """Keep an entry that `path` didn't take, synced; where it is kept. Raises OSError where nowhere."""
    folder = state_folder("rescue")
    try:
        return _keep(folder, path, header, entry)
    except OSError:
        # Once more with the room set aside given up; where there is none, that it is missing is the error to raise.
        disk.remove(folder / RESERVE)
        return _keep(folder, path, header, entry)


def _keep(folder: Path, path: Path, header: str, entry: Entry) -> Path:
    kept = folder / _name(path, header)
    with disk.locked(kept, private=True):
        if not kept.exists():
            disk.write_new(kept, _preamble(path, header), private=True)
        _, known = disk.read(kept)
        # A write that was broken off before leaves no hash behind; what follows starts a block of its own.
        disk.append(kept, write_entry(entry)[0], known)
    return kept


def _name(path: Path, header: str) -> str:
    return f"{header[:16]}-{digest(str(absolute(path)).encode('utf-8', 'surrogateescape'))[:8]}.rescue.toml"


def _preamble(path: Path, header: str) -> bytes:
    file = str(absolute(path)).encode("utf-8", "backslashreplace").decode()
    return (write_line("job", header) + write_line("file", file)).encode()


def set_reserve_aside() -> None:
    """Hold some room for the day on which the disk is full. Does nothing where it can't be had."""
    with suppress(OSError):
        reserve = state_folder("rescue") / RESERVE
        if (
            not reserve.exists()
        ):  # no noughts: some file systems keep a stretch of them as a hole, without any room
            disk.write_new(reserve, b"\xff" * RESERVE_BYTES, private=True)


def waiting(path: Path, header: str) -> list[Entry]:
    """What waits for a job file, in the order in which it was entered."""
    return [entry for kept in _files(path, header) for entry in _entries(kept)]


def files(path: Path, header: str) -> list[Path]:
    """The files in which something waits for a job file."""
    return list(_files(path, header))


def _files(path: Path, header: str) -> Iterator[Path]:
    """The file of this path; and those of the same job whose path isn't there any more: it was moved."""
    try:
        found = sorted(state_folder("rescue").glob(f"{header[:16]}-*.rescue.toml"))
    except OSError:
        return
    for kept in found:
        if kept.name == _name(path, header) or not Path(_meant_for(kept)).exists():
            yield kept


def _meant_for(kept: Path) -> str:
    try:
        raw, _ = disk.read(kept)
        return str(tomli.loads(raw.partition(BLOCK)[0].decode())["file"])
    except (OSError, ValueError, KeyError):
        return str(kept)


def _entries(kept: Path) -> Iterator[Entry]:
    try:
        raw, _ = disk.read(kept)
    except OSError:
        return
    start = raw.find(BLOCK)
    for block in scan_blocks(raw[start:], 1) if start >= 0 else []:
        if block.entry is not None:
            yield block.entry


def let_go(path: Path, header: str, ids: Collection[str]) -> None:
    """Forget what has been recorded by now. What can't be forgotten does no harm: its id is in the job file."""
    for kept in _files(path, header):
        with suppress(OSError), disk.locked(kept, private=True):
            rest = [entry for entry in _entries(kept) if entry.id not in ids]
            _rewrite(kept, rest)


def _rewrite(kept: Path, rest: Iterable[Entry]) -> None:
    blocks = b"".join(write_entry(entry)[0] for entry in rest)
    if not blocks:
        disk.remove(kept)
        return
    raw, _ = disk.read(kept)
    disk.replace_whole(kept, raw.partition(BLOCK)[0] + blocks)
