"""A folder in which pictures arrive, from a phone or a camera: which of them are new and have arrived whole."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterator
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine.photos import LARGEST, regular
from jobtrack.store.machine.picture_kinds import looks_whole, picture_kind
from jobtrack.store.text.blocks import digest

ENDS = 64
"""Bytes at either end of a file by which its kind, and whether it is whole, is told."""
SLOW = 15
"""Looks for which a picture that doesn't end as its kind does must stay as it is before it is taken for whole."""
NEWEST = 50
"""Pictures among which the newest that isn't recorded is looked for; older ones are named by hand."""


class Picture(Struct, frozen=True):
    """A file that begins like a picture."""

    path: Path
    size: int
    """In bytes."""
    changed: float
    """When the file was written last, in seconds since 1970."""

    @property
    def at(self) -> datetime:
        """That time with the offset of the local time zone, to the second."""
        return datetime.fromtimestamp(self.changed).astimezone().replace(microsecond=0)


class Arrivals(Struct, frozen=True):
    """What a look at the folder has found."""

    pictures: tuple[Picture, ...] = ()
    """Those that have arrived whole and aren't done with, the oldest first."""
    trouble: str = ""
    """Why something isn't taken; said once."""


class Seen(Struct, frozen=True):
    """A file as it was at the last look."""

    size: int
    changed_ns: int
    looks: int = 0
    """Looks since for which it has stayed so."""
    done: bool = False
    """Whether it is taken, or no picture, as it is now."""


class WatchedFolder:
    """Looked at again and again, by one thread at a time. Nothing written before `since` is ever new."""

    def __init__(self, folder: Path, since: float) -> None:
        """`since`: in seconds since 1970."""
        self.folder = folder
        self._since = since
        self._seen: dict[str, Seen] = {}
        self._said: set[str] = set()

    def look(self) -> Arrivals:
        """What has arrived by now; a picture is given again at each look until it is done with."""
        try:
            there = dict(_files(self.folder))
        except OSError as error:
            trouble = (
                f"{self.folder}: no photos arrive: {error.strerror}; mend it, or `photos` in the settings"
            )
            return Arrivals((), self._once(trouble))
        self._seen = {
            name: self._now(name, state) for name, state in there.items() if state.st_mtime >= self._since
        }
        found = [(name, self._arrived(name, seen)) for name, seen in self._seen.items() if not seen.done]
        pictures = sorted((one for _, one in found if isinstance(one, Picture)), key=lambda one: one.changed)
        said = [self._once(one) for _, one in found if isinstance(one, str)]
        return Arrivals(tuple(pictures), " ".join(filter(None, said)))

    def done_with(self, picture: Picture) -> None:
        """It is taken: as long as its file stays as it is, it isn't given again."""
        self._mark(picture, True)

    def again(self, picture: Picture) -> None:
        """It came to nothing: it is given once more."""
        self._mark(picture, False)

    def _mark(self, picture: Picture, done: bool) -> None:
        seen = self._seen.get(picture.path.name)
        if seen is not None and (seen.size, seen.changed_ns / 1e9) == (picture.size, picture.changed):
            self._seen[picture.path.name] = replace(seen, done=done)

    def newest(self, known: Collection[str]) -> Picture | None:
        """The newest picture whose hash isn't known. Raises OSError where the folder can't be read."""
        files = [(state.st_mtime, name) for name, state in _files(self.folder)]
        for _, name in sorted(files, reverse=True)[:NEWEST]:
            try:
                picture = picture_at(self.folder / name)
                with regular(picture.path) as file:
                    if digest(file.read(LARGEST)) not in known:
                        return picture
            except (OSError, JobFileError):
                continue  # gone meanwhile, or no picture
        return None

    def _once(self, trouble: str) -> str:
        """What hasn't been said yet."""
        new = trouble if trouble not in self._said else ""
        self._said.add(trouble)
        return new

    def _now(self, name: str, state: os.stat_result) -> Seen:
        before = self._seen.get(name)
        if before is not None and (before.size, before.changed_ns) == (state.st_size, state.st_mtime_ns):
            return replace(before, looks=before.looks + 1)
        return Seen(state.st_size, state.st_mtime_ns)

    def _arrived(self, name: str, seen: Seen) -> Picture | str | None:
        """The picture, if it has arrived whole; why it isn't taken; None: not yet, or it is no picture."""
        if not seen.size or not seen.looks:
            return None
        path = self.folder / name
        try:
            with regular(path) as file:
                head = file.read(ENDS)
                file.seek(max(0, seen.size - ENDS))
                tail = file.read(ENDS)
        except (OSError, JobFileError) as error:  # gone meanwhile, or not to be read yet
            return f"{path}: can't be read: {error}; make it readable" if seen.looks == SLOW else None
        if picture_kind(head) is None or seen.size > LARGEST:
            self._seen[name] = replace(seen, done=True)
            return _too_large(path) if picture_kind(head) else None
        if not looks_whole(head, tail, seen.size) and seen.looks < SLOW:
            return None
        return Picture(path, seen.size, seen.changed_ns / 1e9)


def picture_at(path: Path) -> Picture:
    """The picture under a name. Raises JobFileError, in one line, for whatever else there is."""
    try:
        with regular(path) as file:
            state, head = os.fstat(file.fileno()), file.read(ENDS)
    except OSError as error:
        raise JobFileError(
            f"{path}: can't be read: {error.strerror}; name a photo that can be read"
        ) from error
    if picture_kind(head) is None:
        raise JobFileError(f"{path}: {'begins like no picture' if head else 'is empty'}; name a photo")
    if state.st_size > LARGEST:
        raise JobFileError(_too_large(path))
    return Picture(path, state.st_size, state.st_mtime)


def _too_large(path: Path) -> str:
    return f"{path}: larger than {LARGEST // 1024 // 1024} MiB, not taken; make it smaller"


def _files(folder: Path) -> Iterator[tuple[str, os.stat_result]]:
    """The regular files of a folder, no link followed, none that is hidden. Raises OSError."""
    with os.scandir(folder) as inside:
        for one in inside:
            with suppress(FileNotFoundError):  # gone meanwhile
                if not one.name.startswith(".") and one.is_file(follow_symlinks=False):
                    yield one.name, one.stat(follow_symlinks=False)
