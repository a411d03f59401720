"""A text written beside a job file, never over another one."""

from __future__ import annotations

import re
from pathlib import Path

from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError

MOST = 99
"""Files of one name in a folder."""
LONGEST = 40
"""Characters of a version in a file's name."""


def write_beside(job: Path, what: str, text: str) -> Path:
    """Write `NAME.WHAT.txt` beside `NAME.job.toml`, with a number where there is one already; where it is.

    Raises JobFileError.
    """
    return _write(job, f"{job.name.removesuffix('.job.toml')}.{what}", ".txt", text)


def write_template(job: Path, id: str, version: str, text: str) -> Path:
    """Write `ID-VERSION.toml` beside a job file, with a number where there is one already; where it is.

    Raises JobFileError.
    """
    plain = re.sub(r"[^a-z0-9]+", "-", version.casefold()).strip("-")[:LONGEST]
    return _write(job, f"{id}-{plain}".rstrip("-"), ".toml", text)


def _write(job: Path, stem: str, ending: str, text: str) -> Path:
    return write_numbered(job.parent, stem, ending, text.encode())


def write_numbered(folder: Path, stem: str, ending: str, data: bytes) -> Path:
    """Write a file, with a number behind its stem where there is one of that name already; where it is.

    Raises JobFileError: it can't be written, or MOST such files lie there.
    """
    for number in range(1, MOST + 1):
        path = folder / f"{stem}{f'-{number}' if number > 1 else ''}{ending}"
        try:
            disk.write_new(path, data)
        except FileExistsError:
            continue
        except OSError as error:
            raise JobFileError(
                f"{path}: can't be written: {error.strerror}; make room for it there"
            ) from error
        return path
    raise JobFileError(f"{path}: {MOST} such files lie there; move old ones away")
