"""Where this machine keeps what belongs to no job file: what waits to be written, and what it has seen."""

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
