"""Photos of a job: copied into a folder beside the job file, named by what they hold."""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path
from typing import BinaryIO

from jobtrack.job.acts.doing import PhotoAct
from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine.picture_kinds import NAMES, picture_kind
from jobtrack.store.text.blocks import digest

LARGEST = 64 * 1024 * 1024
"""Bytes of the largest photo."""
READING = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0) | getattr(os, "O_BINARY", 0)
PLAIN_NAME = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9 ._-]*")


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
    data = _picture(photo)
    name = digest(data) + (picture_kind(data) or "")
    _keep(folder_of(job), name, data)
    return PhotoAct(name, digest(data))


def _picture(photo: Path) -> bytes:
    """The bytes of a picture. Raises JobFileError for whatever else there is under the name."""
    try:
        data = _regular(photo)
    except OSError as error:
        raise JobFileError(
            f"{photo}: can't be read: {error.strerror}; name a photo that can be read"
        ) from error
    if len(data) > LARGEST:
        raise JobFileError(f"{photo}: larger than {LARGEST // 1024 // 1024} MiB; make it smaller")
    if picture_kind(data) is None:
        why = "begins like no picture that is known here" if data else "is empty"
        raise JobFileError(f"{photo}: {why}; name a photo: {NAMES}")
    return data


def _regular(photo: Path) -> bytes:
    """What a regular file holds, one byte more than the largest at most."""
    with regular(photo) as file:
        return file.read(LARGEST + 1)


def regular(photo: Path) -> BinaryIO:
    """A regular file, opened; what waits for a writer isn't waited for. Raises JobFileError, OSError."""
    file = open(os.open(photo, READING), "rb")  # noqa: SIM115
    if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
        file.close()
        raise JobFileError(f"{photo}: isn't a file of its own, but a device, pipe or the like; name a photo")
    return file


def _keep(folder: Path, name: str, data: bytes) -> None:
    """Put a picture into the job's folder, where it isn't yet. Raises JobFileError, which names the folder."""
    if folder.is_symlink():
        raise JobFileError(f"{folder}: leads elsewhere; put a folder in its place")
    try:
        folder.mkdir(exist_ok=True)
        if not (folder / name).exists():
            disk.write_new(folder / name, data)
    except FileExistsError:
        raise JobFileError(
            f"{folder}: is no folder; the photos of the job go there, so move it away"
        ) from None
    except OSError as error:
        raise JobFileError(f"{folder}: takes no photo: {error.strerror}; make room for it there") from error
