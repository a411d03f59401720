"""A report of a crash, kept on this machine: where it happened and in what, and nothing that anybody has put in."""

from __future__ import annotations

import os
import platform
import sys
import traceback
from collections.abc import Iterator
from datetime import datetime
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from jobtrack.store.machine.state_files import OWNERS, state_folder

PACKAGES = ("jobtrack", "textual", "rich", "msgspec", "tomli", "filelock", "platformdirs")
LEFT_OUT = "(its message is left out: it may hold what somebody has typed)"
ROOTS = tuple(sorted({str(Path(one).resolve()) + os.sep for one in sys.path if one}, key=len, reverse=True))


def crash_report(error: BaseException, at: datetime) -> str:
    """Versions and a traceback: no values of variables, no message of an error, no folder of anybody's."""
    lines = [
        f"jobtrack ended by a mistake of its own, {at:%Y-%m-%d %H:%M:%S %z}.",
        f"Python {platform.python_version()} on {platform.system()} {platform.machine()}",
        ", ".join(f"{name} {_version(name)}" for name in PACKAGES),
        "",
    ]
    return "\n".join([*lines, *_chain(error), ""])


def keep_crash(report: str, at: datetime) -> Path:
    """The report in a file of its own among the state of this machine's user, its owner's alone. Raises OSError."""
    path = state_folder("crashes") / f"crash-{at:%Y%m%d-%H%M%S}-{os.getpid()}.txt"
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, OWNERS)
    with open(descriptor, "w", encoding="utf-8") as file:
        file.write(report)
    return path


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "not installed"


def _chain(last: BaseException) -> Iterator[str]:
    """From the first error to the last, each with where it was raised."""
    errors = [last]
    while (before := _before(errors[0])) is not None and before not in errors:
        errors.insert(0, before)
    for error in errors:
        yield from ["which led to:"] if error is not errors[0] else []
        for frame in traceback.extract_tb(error.__traceback__):
            yield f"  {_short(frame.filename)}:{frame.lineno} in {frame.name}"
        yield f"{type(error).__module__}.{type(error).__qualname__} {LEFT_OUT}"


def _before(error: BaseException) -> BaseException | None:
    return error.__cause__ or (None if error.__suppress_context__ else error.__context__)


def _short(filename: str) -> str:
    """A module's file without the folders that it is installed in."""
    whole = str(Path(filename).resolve())
    return next((whole.removeprefix(root) for root in ROOTS if whole.startswith(root)), Path(filename).name)
