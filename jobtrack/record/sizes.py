"""How large a job file may be that is read into memory. Looked at before a byte of it is read."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

LARGEST = 64 * 1024 * 1024
"""Bytes of the largest job file: some ten thousand entries with the largest header."""


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
