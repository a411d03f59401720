"""A disk that loses power: what was synced stays; of the rest any mix of sectors, with the old size or the new.

`Disk` watches the system calls of `jobtrack.store.file.disk` and keeps, for each file, what is certain to be on the
disk and what has been written since. Names come and go likewise: a name is certain when its folder was synced.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from random import Random
from typing import Any

from tests.support.watched_calls import WatchedOs

SECTOR = 512


@dataclass
class File:
    """The bytes of one file: as they are certain to be on the disk, and each state since, the last one as it is."""

    synced: bytes = b""
    since: list[bytes] = field(default_factory=list)

    @property
    def now(self) -> bytes:
        return self.since[-1] if self.since else self.synced

    def after_a_cut(self, random: Random) -> bytes:
        """One of the states in which a cut could leave it, sector by sector."""
        states = [self.synced, *self.since]
        size = len(random.choice(states))
        sectors = []
        for start in range(0, size, SECTOR):
            part = random.choice(states)[start : start + SECTOR]
            sectors.append(part.ljust(min(SECTOR, size - start), b"\0")[: size - start])
        return b"".join(sectors)


@dataclass(frozen=True)
class Moment:
    """The disk at one moment: its files, and its names as they are certain and as they are."""

    files: dict[int, File]
    certain: dict[str, int]
    names: dict[str, int]
    said: tuple[str, ...]
    """What had been acknowledged by then."""

    def cut(self, random: Random) -> dict[str, bytes]:
        """What is found after the power comes back: each name with its bytes."""
        found: dict[str, bytes] = {}
        for name in sorted({*self.certain, *self.names}):
            sides = [self.certain.get(name), self.names.get(name)]
            file = random.choice(sides)
            if file is not None:
                found[name] = self.files[file].after_a_cut(random)
        return found


class Disk:
    """Watches calls, and keeps a moment behind each that changes anything."""

    def __init__(self) -> None:
        self.files: dict[int, File] = {}
        self.certain: dict[str, int] = {}
        self.names: dict[str, int] = {}
        self.moments: list[Moment] = []
        self.said: list[str] = []
        self._open: dict[int, tuple[str, int | None]] = {}

    def watching(self) -> WatchedOs:
        """The stand-in for `os`."""
        return WatchedOs(after=self.saw)

    def acknowledge(self, what: str) -> None:
        self.said.append(what)
        self._keep()

    def saw(self, call: str, arguments: tuple[Any, ...], result: Any) -> None:
        handler = getattr(self, f"_saw_{call}", None)
        if handler is not None:
            handler(*arguments, result)
            self._keep()

    def _keep(self) -> None:
        files = {number: File(one.synced, list(one.since)) for number, one in self.files.items()}
        self.moments.append(Moment(files, dict(self.certain), dict(self.names), tuple(self.said)))

    def _saw_open(self, path: Any, flags: int, mode: int, handle: int) -> None:
        name = os.fspath(path)
        if os.path.isdir(name):
            self._open[handle] = (name, None)
            return
        number = os.fstat(handle).st_ino
        if number not in self.files or name not in self.names:
            # An inode's number comes again when its file is gone: what is there on opening is this file's.
            self.files[number] = File(b"" if flags & os.O_CREAT else _content(name))
        self.names[name] = number
        if not flags & os.O_CREAT:
            self.certain.setdefault(name, number)
        self._open[handle] = (name, number)

    def _file(self, handle: int) -> File | None:
        number = self._open[handle][1]
        return None if number is None else self.files[number]

    def _changed(self, handle: int) -> None:
        file = self._file(handle)
        if file is not None:
            file.since.append(_content(self._open[handle][0]))

    def _saw_write(self, handle: int, data: Any, result: int) -> None:
        self._changed(handle)

    def _saw_ftruncate(self, handle: int, length: int, result: None) -> None:
        self._changed(handle)

    def _saw_fsync(self, handle: int, result: None) -> None:
        name, number = self._open[handle]
        if number is not None:
            self.files[number] = File(self.files[number].now)
            return
        here = {one for one in (*self.names, *self.certain) if os.path.dirname(one) == name}
        for one in here:
            if one in self.names:
                self.certain[one] = self.names[one]
            else:
                self.certain.pop(one, None)

    def _saw_link(self, old: Any, new: Any, result: None) -> None:
        self.names[os.fspath(new)] = self.names[os.fspath(old)]

    def _saw_rename(self, old: Any, new: Any, result: None) -> None:
        self.names[os.fspath(new)] = self.names.pop(os.fspath(old))

    _saw_replace = _saw_rename

    def _saw_unlink(self, path: Any, result: None) -> None:
        self.names.pop(os.fspath(path), None)


def _content(name: str) -> bytes:
    with open(name, "rb") as file:
        return file.read()
