"""Sheets of a job: each a file of its own in a folder beside the job file, never over another one."""

from __future__ import annotations

import re
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from jobtrack.store.file.beside import write_numbered
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.text.blocks import digest


class KeptSheet(NamedTuple):
    """A sheet that was written, and by what it is known again."""

    path: Path
    hash: str


def folder_of(job: Path) -> Path:
    """The folder of a job's sheets."""
    return job.with_name(job.name.removesuffix(".job.toml") + ".sheets")


def keep_sheet(job: Path, kind: str, at: datetime, data: bytes) -> KeptSheet:
    """Write a sheet as `KIND-DAY-TIME.html`, with a number where there is one already. Raises JobFileError."""
    folder = _made(folder_of(job))
    plain = re.sub(r"[^a-z0-9]+", "-", kind.casefold()).strip("-")
    path = write_numbered(folder, f"{plain}-{at:%Y-%m-%d-%H%M}", ".html", data)
    return KeptSheet(path, digest(data))


def _made(folder: Path) -> Path:
    """The folder, made where there is none. Raises JobFileError."""
    if folder.is_symlink():
        raise JobFileError(f"{folder}: leads elsewhere; put a folder in its place")
    try:
        folder.mkdir(exist_ok=True)
    except FileExistsError:
        raise JobFileError(
            f"{folder}: is no folder; the sheets of the job go there, so move it away"
        ) from None
    except OSError as error:
        raise JobFileError(f"{folder}: can't be made: {error.strerror}; make room for it there") from error
    return folder
