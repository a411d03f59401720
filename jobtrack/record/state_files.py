"""Where this machine keeps what belongs to no job file, and by what a file is known there: its full name."""

from __future__ import annotations

import os
from pathlib import Path


def state_folder(what: str) -> Path:
    """A folder of the user's state, made where it isn't there. Raises OSError."""
    import platformdirs

    folder = Path(platformdirs.user_state_dir("jobtrack", appauthor=False)) / what
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def absolute(path: Path) -> Path:
    """The full name of a file, links followed as far as they lead anywhere."""
    return Path(os.path.realpath(path))


def hard_links(path: Path) -> int:
    """How many names a file has; 1 where that can't be told."""
    try:
        return max(1, os.stat(path).st_nlink)
    except OSError:
        return 1
