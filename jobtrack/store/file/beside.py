"""A text written beside a job file, never over another one."""

from __future__ import annotations

from pathlib import Path

from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError

MOST = 99
"""Files of one kind beside a job."""


def write_beside(job: Path, what: str, text: str) -> Path:
    """Write `NAME.WHAT.txt` beside `NAME.job.toml`, with a number where there is one already; where it is.

    Raises JobFileError.
    """
    for number in range(1, MOST + 1):
        path = job.with_name(
            f"{job.name.removesuffix('.job.toml')}.{what}{f'-{number}' if number > 1 else ''}.txt"
        )
        try:
            disk.write_new(path, text.encode())
        except FileExistsError:
            continue
        except OSError as error:
            raise JobFileError(
                f"{path}: can't be written: {error.strerror}; make room for it there"
            ) from error
        return path
    raise JobFileError(f"{job}: {MOST} such lists lie beside it; move old ones away")
