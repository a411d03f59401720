"""How large a job file may be that is read into memory. Looked at before a byte of it is read."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

LARGEST = 64 * 1024 * 1024
"""Bytes of the largest job file: some ten thousand entries with the largest header."""

MOST_ENTRIES = 32_000
"""Entries of the longest job: one every two minutes for half a year."""
ROOM = 1024 * 1024
"""Bytes below the largest file at which nothing more is recorded in it."""


def full(length: int, entries: int) -> bool:
    """Whether a file has no room for one more entry; larger still, it couldn't be opened again."""
    return length > LARGEST - ROOM or entries >= MOST_ENTRIES


def counted(raw: bytes) -> bytes:
    """The bytes of a job file, where they hold no more entries than can be shown. Raises OSError."""
    if max(raw.count(b"\n[[entry]]"), raw.count(b"\nhash = ")) > MOST_ENTRIES + 1:
        raise OSError(errno.EFBIG, f"more than {MOST_ENTRIES} entries")
    return raw


def sized(path: Path) -> os.stat_result:
    """What the system says of a file that may be read. Raises OSError where it is none, or too large."""
    state = path.stat()
    if stat.S_ISDIR(state.st_mode):
        raise OSError(errno.EISDIR, os.strerror(errno.EISDIR))
    if not stat.S_ISREG(state.st_mode):
        raise OSError(errno.EINVAL, "it is no file but a device or a pipe")
    if state.st_size > LARGEST:
        raise OSError(errno.EFBIG, f"larger than {LARGEST // 1024 // 1024} MiB")
    return state
