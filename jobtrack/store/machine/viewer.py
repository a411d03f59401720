"""A photo or a sheet in the system's own viewer, a program of its own that this one doesn't wait for or talk to."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from threading import Thread

from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.sheet_files import KeptSheet
from jobtrack.store.machine.photos import folder_of, inside, regular
from jobtrack.store.machine.picture_kinds import picture_kind
from jobtrack.store.machine.watched import ENDS
from jobtrack.store.text.blocks import digest


def show_photo(job: Path, photo: str) -> str:
    """Show a photo that a job file names; what came of it, in one sentence.

    Only a picture in the job's own folder is opened, by the kind that its bytes are of: the name comes from a file.
    """
    path = inside(job, photo)
    if path is None:
        return f"{photo} names nothing in {folder_of(job)}: it isn't opened."
    try:
        with regular(path) as file:
            kind = picture_kind(file.read(ENDS))
    except (OSError, JobFileError):
        return f"{path.name} doesn't lie in {folder_of(job)}; copy it there to look at it."
    if kind is None or path.suffix.lower() != kind:
        return f"{path} isn't what its name says: it isn't opened."
    return _opened(path.absolute(), "pictures")


def show_sheet(sheet: KeptSheet) -> str:
    """Show a sheet that this program has written; what came of it, in one sentence.

    Whatever else may lie under its name by now is left alone.
    """
    try:
        with regular(sheet.path) as file:
            as_written = digest(file.read()) == sheet.hash
    except (OSError, JobFileError):
        as_written = False
    if not as_written:
        return f"{sheet.path} isn't as it was written: it isn't opened."
    return _opened(sheet.path.absolute(), "sheets")


def _opened(path: Path, what: str) -> str:
    nowhere = f"Nothing here shows {what}. It lies at {path}"
    try:
        if sys.platform == "win32":
            os.startfile(path)
        elif (program := _program()) is None:
            return nowhere
        else:
            _detached([program, str(path)])
    except OSError:
        return nowhere
    return f"Opened by the system's viewer: {path}"


def _program() -> str | None:
    """What opens a file in the program that is usual for it; None where there is none, or no screen for it."""
    if sys.platform == "darwin":
        return shutil.which("open")
    screen = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return shutil.which("xdg-open") if screen else None


def _detached(call: list[str]) -> None:
    """Begin a program in a session of its own, away from this terminal. Raises OSError."""
    nothing = subprocess.DEVNULL
    begun = subprocess.Popen(call, stdin=nothing, stdout=nothing, stderr=nothing, start_new_session=True)
    Thread(
        target=begun.wait, name="viewer", daemon=True
    ).start()  # or what has ended would stay in the system's table
