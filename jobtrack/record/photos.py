"""Photos of a job: copied into a folder beside the job file, named by what they hold."""

from __future__ import annotations

from pathlib import Path

from jobtrack.record import disk
from jobtrack.record.blocks import digest
from jobtrack.record.entries import PhotoAct
from jobtrack.record.readfile import JobFileError

LARGEST = 64 * 1024 * 1024
"""Bytes of the largest photo."""


def take(photo: Path, job: Path) -> PhotoAct:
    """Copy a photo beside its job, synced, and give the act that names it. Raises JobFileError."""
    try:
        if photo.stat().st_size > LARGEST:
            raise JobFileError(f"{photo}: larger than {LARGEST // 1024 // 1024} MiB; make it smaller")
        data = photo.read_bytes()
        folder = job.with_name(job.name.removesuffix(".job.toml") + ".photos")
        folder.mkdir(exist_ok=True)
        name = digest(data) + photo.suffix.lower()
        if not (folder / name).exists():
            disk.write_new(folder / name, data)
    except OSError as error:
        raise JobFileError(
            f"{photo}: can't be copied: {error.strerror}; name a photo that can be read"
        ) from error
    return PhotoAct(name, digest(data))
