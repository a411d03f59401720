"""The few things that a job file does to the disk, each durable when it returns. All raise OSError."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from filelock import FileLock

LOCK_WAIT = 10.0
"""Seconds that an append waits for another program's."""
TAIL = 64
"""How many of the last bytes read are compared when a file is followed."""


@dataclass(frozen=True, slots=True)
class Known:
    """What of a file has been read: which file it was, how far, and how that ended."""

    device: int
    inode: int
    length: int
    tail: bytes


def read(path: Path) -> tuple[bytes, Known]:
    """All of a file, and what to know it by."""
    with path.open("rb") as file:
        raw = file.read()
        state = os.fstat(file.fileno())
    return raw, Known(state.st_dev, state.st_ino, len(raw), raw[-TAIL:])


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold a job file's lock, a file of its own beside it."""
    with FileLock(f"{path}.lock", timeout=LOCK_WAIT):
        yield


def append(path: Path, data: bytes) -> None:
    """Write behind the end and sync. After any error the file is cut back to its old length."""
    with path.open("ab", buffering=0) as file:
        old = os.fstat(file.fileno()).st_size
        try:
            if file.write(data) != len(data):
                raise OSError("the disk took only a part of it")
            os.fsync(file.fileno())
        except OSError:
            file.truncate(old)
            raise


def sync_folder(folder: Path) -> None:
    """Make a new name in a folder durable, where the system has folders that can be synced."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def write_new(path: Path, data: bytes) -> None:
    """Write a file that isn't there yet, synced, name and all. Raises FileExistsError, OSError."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    sync_folder(path.parent)


def cut_off(path: Path, torn: bytes) -> None:
    """Cut a torn end off a file, whatever its line endings are."""
    with path.open("r+b") as file:
        file.truncate(_length_without(file.read(), torn))
        os.fsync(file.fileno())


def _length_without(raw: bytes, torn: bytes) -> int:
    """Where a torn end begins in a file's bytes as they are, line endings and all."""
    for start in range(max(0, len(raw) - 2 * len(torn)), len(raw)):
        if raw[start:].replace(b"\r\n", b"\n") == torn:
            return start
    return len(raw)
