"""Photos of a job: copied into a folder beside the job file, named by what they hold."""

from __future__ import annotations

import re
from pathlib import Path

from jobtrack.record import disk
from jobtrack.record.blocks import digest
from jobtrack.record.entries import PhotoAct
from jobtrack.record.readfile import JobFileError

LARGEST = 64 * 1024 * 1024
"""Bytes of the largest photo."""


PLAIN_NAME = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9 ._-]*")
PLAIN_SUFFIX = re.compile(r"\.[a-z0-9]{1,8}")


def folder_of(job: Path) -> Path:
    """The folder of a job's photos."""
    return job.with_name(job.name.removesuffix(".job.toml") + ".photos")


def inside(job: Path, photo: str) -> Path | None:
    """Where a photo named in a job file lies; None where the name could lead out of the job's own folder.

    Each part is plain: no drive, no backslash, nothing absolute, no `..`; and no link leads out.
    """
    parts = photo.split("/")
    if not all(PLAIN_NAME.fullmatch(part) and not part.endswith((".", " ")) for part in parts):
        return None
    folder = folder_of(job)
    path = folder.joinpath(*parts)
    try:
        kept = not folder.is_symlink() and path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return None
    return path if kept else None


def take(photo: Path, job: Path) -> PhotoAct:
    """Copy a photo beside its job, synced, and give the act that names it. Raises JobFileError."""
    try:
        if photo.stat().st_size > LARGEST:
            raise JobFileError(f"{photo}: larger than {LARGEST // 1024 // 1024} MiB; make it smaller")
        data = photo.read_bytes()
        folder = folder_of(job)
        if folder.is_symlink():
            raise JobFileError(f"{folder}: leads elsewhere; put a folder in its place")
        folder.mkdir(exist_ok=True)
        suffix = photo.suffix.lower()
        name = digest(data) + (suffix if PLAIN_SUFFIX.fullmatch(suffix) else "")
        if not (folder / name).exists():
            disk.write_new(folder / name, data)
    except OSError as error:
        raise JobFileError(
            f"{photo}: can't be copied: {error.strerror}; name a photo that can be read"
        ) from error
    return PhotoAct(name, digest(data))
