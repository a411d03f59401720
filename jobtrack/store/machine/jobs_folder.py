"""Which folder the jobs are in, the job files in it, and what travels with the program."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable
from pathlib import Path

from msgspec import Struct

from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile

ENDING = ".job.toml"
FOLDER_VARIABLE = "JOBTRACK_FOLDER"
PACKAGE = Path(__file__).parents[2]


class Found(Struct, frozen=True):
    """A job file of a folder: opened, or why it can't be."""

    path: Path
    file: JobFile | None
    why: str = ""


def shipped(what: str) -> Path:
    """A folder that travels with the program: `job_templates` or `sample_jobs`."""
    inside = PACKAGE / "shipped" / what
    return inside if inside.is_dir() else PACKAGE.parent / what


def jobs_folder(asked: Path | None = None, usual: str | None = None) -> tuple[Path, list[Path]]:
    """The folder of the jobs, and the samples that were copied into it just now.

    Asked for, else named by JOBTRACK_FOLDER, else `usual` (the settings' own), else the user's data folder,
    which gets copies of the samples when it is made. Raises JobFileError where it can't be made.
    """
    named = _named(asked, usual)
    try:
        if named is not None:
            named.mkdir(parents=True, exist_ok=True)
            return named, []
        return _own_folder()
    except OSError as error:
        raise JobFileError(
            f"{named or 'the data folder'}: can't be made: {error.strerror}; name another with --folder"
        ) from error


def which_folder(asked: Path | None = None, usual: str | None = None) -> Path:
    """The folder of the jobs by the same rule, whether it is there or not; nothing is made."""
    return _named(asked, usual) or _data_folder()


def _named(asked: Path | None, usual: str | None) -> Path | None:
    name = os.environ.get(FOLDER_VARIABLE)
    return asked or (Path(name) if name else Path(usual).expanduser() if usual else None)


def _data_folder() -> Path:
    import platformdirs

    return Path(platformdirs.user_data_dir("jobtrack", appauthor=False))


def _own_folder() -> tuple[Path, list[Path]]:
    folder = _data_folder()
    if folder.is_dir():
        return folder, []
    folder.mkdir(parents=True)
    samples = sorted(shipped("sample_jobs").glob(f"*{ENDING}"))
    return folder, [Path(shutil.copyfile(sample, folder / sample.name)) for sample in samples]


def job_paths(folder: Path) -> list[Path]:
    """The job files of a folder by name, not opened yet."""
    return sorted(folder.glob(f"*{ENDING}"))


def in_order(found: Iterable[Found]) -> list[Found]:
    """The half-finished first, then the ended, then what can't be opened; else as they come."""
    return sorted(
        found, key=lambda one: (one.file is None, one.file is not None and one.file.job.ended is not None)
    )


def opened(path: Path) -> Found:
    """A job file, opened, or why it can't be."""
    try:
        return Found(path, JobFile(path))
    except JobFileError as error:
        return Found(path, None, str(error))
