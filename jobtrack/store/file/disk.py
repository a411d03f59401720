"""The few things that a job file does to the disk, each durable when it returns. All raise OSError.

Every call goes to the system one at a time, through `os`, so that the tests can make each of them fail,
and can cut the power between any two.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from stat import S_IMODE
from typing import TYPE_CHECKING

from msgspec import Struct

from jobtrack.store.machine.state_files import OWNERS, absolute

if TYPE_CHECKING:
    from filelock import FileLock

LOCK_WAIT = 10.0
"""Seconds that an append waits for another program's."""
TAIL = 64
"""How many of the last bytes read are compared when a file is followed.

A hash line has 42, so they hold the last entry's own hash: a file that ends otherwise there is another one, and
what was added costs no reading of all that was there.
"""
BINARY = getattr(os, "O_BINARY", 0)
CHUNK = 1 << 20


class Known(Struct, frozen=True):
    """What of a file has been read: which file it was, how far, and how that ended."""

    device: int
    inode: int
    length: int
    tail: bytes

    def same_file(self, state: os.stat_result) -> bool:
        """Whether a state is of that very file, whatever stands in it by now."""
        return (state.st_dev, state.st_ino) == (self.device, self.inode)


class Replaced(OSError):
    """The file isn't the one that was read any more: read it again, then try again."""


@contextmanager
def _opened(path: Path, flags: int, mode: int = 0o666) -> Iterator[int]:
    handle = os.open(path, flags | BINARY, mode)
    try:
        yield handle
    finally:
        os.close(handle)


def read(path: Path) -> tuple[bytes, Known]:
    """All of a file, and what to know it by."""
    with _opened(path, os.O_RDONLY) as handle:
        raw = _read_on(handle)
        state = os.fstat(handle)
    return raw, Known(state.st_dev, state.st_ino, len(raw), raw[-TAIL:])


def read_behind(path: Path, known: Known) -> tuple[bytes, Known] | None:
    """What stands behind the part that is known; None where that part isn't what it was."""
    with _opened(path, os.O_RDONLY) as handle:
        os.lseek(handle, known.length - len(known.tail), os.SEEK_SET)
        raw = _read_on(handle)
        state = os.fstat(handle)
    if not known.same_file(state) or not raw.startswith(known.tail):
        return None
    new = raw[len(known.tail) :]
    return new, Known(state.st_dev, state.st_ino, known.length + len(new), raw[-TAIL:])


def _read_on(handle: int) -> bytes:
    parts = []
    while part := os.read(handle, CHUNK):
        parts.append(part)
    return b"".join(parts)


@contextmanager
def locked(path: Path, wait: float | None = None, private: bool = False) -> Iterator[None]:
    """Hold a job file's lock, a file of its own beside it. Raises TimeoutError where another holds it.

    A file system that knows no locks is written to without one: `locks_work` says so.
    """
    # Not the job file itself: where a merge puts another file in its place, the lock would go with the old one.
    lock = _lock(path, LOCK_WAIT if wait is None else wait, private)
    try:
        lock.acquire()
    except NotImplementedError:
        yield
        return
    try:
        yield
    finally:
        lock.release()


def locks_work(path: Path) -> bool:
    """Whether a second descriptor is kept out while a first holds a job file's lock."""
    try:
        with _lock(path, 0):
            try:
                with _lock(path, 0):
                    return False
            except TimeoutError:
                return True
    except NotImplementedError:
        return False


def _lock(path: Path, wait: float, private: bool = False) -> FileLock:
    """The lock of a file, one and the same by whatever links the file is reached."""
    import filelock  # a file is shown without it

    real = absolute(path)
    os.stat(real.parent)  # where the folder is gone, a stick pulled out, the library would make it anew
    if private:
        return filelock.FileLock(f"{real}.lock", timeout=wait, mode=OWNERS)
    return filelock.FileLock(f"{real}.lock", timeout=wait)


def append(path: Path, data: bytes, known: Known) -> None:
    """Write behind the end of the file that is known, and sync.

    After any error the file is cut back to its old length. Where even that fails, what stays there is
    told apart by its hash and its id. Raises Replaced where another file stands there by now.
    """
    with _opened(path, os.O_RDWR | os.O_APPEND) as handle:
        _refuse_another(handle, known)
        try:
            _write(handle, data)
            sync(handle)
        except OSError:
            with suppress(OSError):
                os.ftruncate(handle, known.length)
            raise
    # Somebody without the lock may have put another file there since it was opened; then no name leads to this one.
    if not known.same_file(os.stat(path)):
        raise Replaced("it was replaced while it was written to")


def _refuse_another(handle: int, known: Known) -> None:
    state = os.fstat(handle)
    if not known.same_file(state) or state.st_size != known.length:
        raise Replaced("it was replaced or changed")
    os.lseek(handle, known.length - len(known.tail), os.SEEK_SET)
    if os.read(handle, TAIL) != known.tail:
        raise Replaced("it was changed")


def _write(handle: int, data: bytes) -> None:
    left = memoryview(data)
    while left:
        done = os.write(handle, left)
        if not done:
            raise OSError("the disk took only a part of it")
        left = left[done:]


def sync(handle: int) -> None:
    """Make what was written durable; on a system whose fsync stops at the drive's cache, past that too."""
    try:
        import fcntl
    except ImportError:
        os.fsync(handle)
        return
    full = getattr(fcntl, "F_FULLFSYNC", None)
    if full is None:
        os.fsync(handle)
        return
    try:
        fcntl.fcntl(handle, full)
    except OSError:
        os.fsync(handle)


def sync_folder(folder: Path) -> None:
    """Make a new name in a folder durable, where the system has folders that can be synced."""
    if os.name != "posix":
        return
    with _opened(folder, os.O_RDONLY) as handle:
        sync(handle)


def write_new(path: Path, data: bytes, private: bool = False) -> None:
    """Write a file that isn't there yet, synced, name and all: it appears whole or not at all.

    A private one is its owner's alone, any other as the umask says.
    Raises FileExistsError, OSError; nothing is left behind then.
    """
    if path.exists():
        raise FileExistsError(f"{path} is there already")
    # Its bytes first, then its name, then the folder: a cut in between leaves no name that leads to half a file.
    with _written_beside(path, data, OWNERS if private else 0o666) as beside:
        try:
            os.link(beside, path)  # a rename would put it over a file that has come there meanwhile
        except FileExistsError:
            raise
        except OSError:  # a file system without links
            os.rename(beside, path)
    sync_folder(path.parent)


def replace_whole(path: Path, data: bytes) -> None:
    """Put a file in the place of another, synced: whoever looks sees the old one or the new one.

    Whoever may write to the old one may write to the new one.
    """
    with _written_beside(path, data) as beside:
        with suppress(OSError):
            os.chmod(beside, S_IMODE(os.stat(path).st_mode))
        os.replace(beside, path)
    sync_folder(path.parent)


@contextmanager
def _written_beside(path: Path, data: bytes, mode: int = 0o666) -> Iterator[Path]:
    """A synced file of another name in the same folder; it is gone afterwards."""
    beside = path.with_name(f".{path.name}.{os.urandom(4).hex()}.new")
    try:
        with _opened(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode) as handle:
            _write(handle, data)
            sync(handle)
        yield beside
    finally:
        with suppress(OSError):
            os.unlink(beside)


def remove(path: Path) -> None:
    """Take a file away."""
    os.unlink(path)


def cut_off(path: Path, torn: bytes) -> None:
    """Cut a torn end off a file, whatever its line endings are."""
    with _opened(path, os.O_RDWR) as handle:
        os.ftruncate(handle, _length_without(_read_on(handle), torn))
        sync(handle)


def _length_without(raw: bytes, torn: bytes) -> int:
    """Where a torn end begins in a file's bytes as they are, line endings and all."""
    # `torn` has LF alone; with each of them as CRLF it is at most twice as long.
    for start in range(max(0, len(raw) - 2 * len(torn)), len(raw)):
        if raw[start:].replace(b"\r\n", b"\n") == torn:
            return start
    return len(raw)
