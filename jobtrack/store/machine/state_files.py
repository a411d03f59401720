"""Where this machine keeps what belongs to no job file, and by what a file is known there: its full name."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from stat import S_IMODE

OWNERS, OWNERS_FOLDER = 0o600, 0o700
"""What is kept here may be private: nobody but its owner reads it. The XDG base directories ask for 0700 too."""


def state_folder(what: str) -> Path:
    """A folder of the user's state, its owner's alone, made where it isn't there. Raises OSError."""
    import platformdirs

    own = Path(platformdirs.user_state_dir("jobtrack", appauthor=False))
    folder = own / what
    if not _closed(folder):
        folder.mkdir(parents=True, exist_ok=True)
        _close(folder)
        # Where a system keeps state and data in one folder, the jobs in it stay open to whom they were.
        if own != Path(platformdirs.user_data_dir("jobtrack", appauthor=False)):
            _close(own)
    return folder


def _closed(folder: Path) -> bool:
    """Whether it is there and its owner's alone; then what is in it is, too: its files were closed before it."""
    try:
        return S_IMODE(os.stat(folder).st_mode) == OWNERS_FOLDER
    except OSError:
        return False


def _close(folder: Path) -> None:
    """Take away what an older program, or the umask, has left to others. Does nothing where there are no modes."""
    with suppress(OSError), os.scandir(folder) as inside:
        for one in inside:
            if one.is_file(follow_symlinks=False):
                os.chmod(one.path, OWNERS)
        os.chmod(folder, OWNERS_FOLDER)


def absolute(path: Path) -> Path:
    """The full name of a file, links followed as far as they lead anywhere."""
    return Path(os.path.realpath(path))


def hard_links(path: Path) -> int:
    """How many names a file has; 1 where that can't be told."""
    try:
        return max(1, os.stat(path).st_nlink)
    except OSError:
        return 1
