"""A job file on the disk: create, read, follow, append.

An append is one block, one write and one fsync under a lock of its own file; nothing is rewritten in
place. Reading never changes a file: a torn end is set aside only by the next append, under the lock.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any

import tomli
from filelock import Timeout

from jobtrack.record import disk
from jobtrack.record.blocks import Block, Header, Scan, digest, scan, scan_blocks, write_entry, write_header
from jobtrack.record.conditions import Damage
from jobtrack.record.entries import Act, Entry, UnknownAct
from jobtrack.record.job import About, Job
from jobtrack.template.load import TemplateError


class JobFileError(ValueError):
    """A job file that can't be opened: one line that says what, where and how to mend it."""


class NotRecorded(Exception):
    """An entry that didn't reach the disk: one line that says why. Nothing of it is left in the file."""


@dataclass(frozen=True, slots=True)
class Appended:
    """An entry that is on the disk."""

    entry: Entry
    set_aside: Path | None = None
    """Where a torn end was put, if one stood before it."""


class JobFile:
    """One open job: its file, what it holds, and the state that follows from it."""

    def __init__(self, path: Path) -> None:
        """Open a job file. Raises JobFileError."""
        self.path = path
        self.header: Header
        self.blocks: list[Block] = []
        self.crlf = False
        self.job: Job
        self._known: disk.Known
        self._read_whole()

    # Reading

    def _read_whole(self) -> None:
        try:
            raw, known = disk.read(self.path)
        except OSError as error:
            raise JobFileError(f"{self.path}: can't be read: {error.strerror}; name a job file") from error
        whole = scan(raw)
        self.header = _header(self.path, whole)
        self.blocks = list(whole.blocks)
        self.crlf = whole.crlf
        self._known = known
        self.job = Job.fold(_about(self.path, self.header), whole.entries, self._damage())

    def _damage(self) -> tuple[Damage, ...]:
        return tuple(
            Damage(block.hash or digest(block.data), block.line)
            for block in self.blocks
            if block.kind == "altered" or _unread(block)
        )

    def refresh(self) -> bool:
        """Take in what others have added since. True where anything came in.

        A file that only grew is read from where it ended; a replaced, shortened or altered one anew.
        """
        try:
            state = self.path.stat()
        except OSError as error:
            raise JobFileError(
                f"{self.path}: can't be read any more: {error.strerror}; put it back"
            ) from error
        known = self._known
        same = (state.st_dev, state.st_ino) == (known.device, known.inode)
        if same and state.st_size == known.length and self._tail() == known.tail:
            return False
        grown = same and state.st_size > known.length
        if not (grown and not self.crlf and self.torn is None and self._follow()):
            self._read_whole()
        return True

    def _tail(self) -> bytes:
        """The last bytes of the part that is known, as they are now."""
        with self.path.open("rb") as file:
            file.seek(max(0, self._known.length - disk.TAIL))
            return file.read(disk.TAIL)

    def _follow(self) -> bool:
        """Read what stands behind the part that is known; False where that part isn't what it was."""
        with self.path.open("rb") as file:
            file.seek(max(0, self._known.length - disk.TAIL))
            data = file.read()
            state = os.fstat(file.fileno())
        tail = self._known.tail
        if not data.startswith(tail):
            return False
        new = data[len(tail) :]
        if b"\r" in new:
            return False
        blocks = scan_blocks(new, self._next_line())
        self.blocks += blocks
        self._known = disk.Known(
            state.st_dev, state.st_ino, self._known.length + len(new), data[-disk.TAIL :]
        )
        self.job = self.job.with_more((block.entry for block in blocks if block.entry), self._damage())
        return True

    def _next_line(self) -> int:
        """The number of the line behind all that has been read."""
        parts = (self.header.data, *(block.data for block in self.blocks))
        return 1 + sum(part.count(b"\n") for part in parts)

    @property
    def torn(self) -> Block | None:
        """What a broken-off write has left at the very end."""
        return self.blocks[-1] if self.blocks and self.blocks[-1].kind == "torn" else None

    @property
    def read_only(self) -> str | None:
        """Why nothing can be recorded here, in words; None where it can."""
        if not self.header.sound:
            return "its header was changed"
        if any(isinstance(act, UnknownAct) for entry in self.job.view.entries for act in entry.did):
            return "a newer program has recorded in it what this one doesn't know"
        if any(_unread(block) for block in self.blocks):
            return "it holds an entry of a shape that this program doesn't know"
        return None

    # Writing

    def append(
        self,
        did: Sequence[Act],
        by: str,
        at: datetime,
        *,
        id: str,
        step: str | None = None,
        typed_at: datetime | None = None,
    ) -> Appended:
        """Record one call. Returns when it is on the disk; the state has then taken it in.

        Raises NotRecorded where it isn't: nothing of it stays in the file, and the same call may be tried again.
        """
        self._refuse_read_only()
        entry = Entry(id, 1, at, by, tuple(did), (), "", step, typed_at)
        try:
            with disk.locked(self.path):
                self.refresh()
                self._refuse_read_only()
                entry = self._placed(entry)
                data, written = write_entry(entry)
                self._refuse_unreadable(data)
                aside = self._set_torn_end_aside()
                disk.append(self.path, data)
                self.refresh()
        except (OSError, Timeout, JobFileError) as error:
            raise NotRecorded(f"{self.path}: not recorded: {_reason(error)}; try again") from error
        return Appended(replace(entry, hash=written), aside)

    def _refuse_read_only(self) -> None:
        if (why := self.read_only) is not None:
            raise NotRecorded(f"{self.path}: not recorded: {why}, so it is open for reading only")

    def _refuse_unreadable(self, data: bytes) -> None:
        """What couldn't be read again isn't written: it would leave the file open for reading only."""
        [block] = scan_blocks(data, 1)
        if block.entry is None:
            raise NotRecorded(
                f"{self.path}: not recorded: too long for one entry; record it in several calls"
            )

    def _placed(self, entry: Entry) -> Entry:
        """The entry behind all loose ends, sound or not, that the file has now."""
        named = {parent for one in self.job.view.entries for parent in one.follows}
        lost = [one.hash for one in self.job.damage if one.hash not in named]
        ends = [end for end in self.job.view.loose_ends if not (lost and end == self.header.hash)] + lost
        numbers = [one.n for one in self.job.view.entries]
        # Lost entries may have followed one another; each may have had the next number.
        n = 1 + max(numbers, default=0) + len(lost)
        return replace(entry, n=n, follows=tuple(sorted(ends)) or (self.header.hash,))

    def _set_torn_end_aside(self) -> Path | None:
        """Move a broken-off write out of the way, synced before the file is cut. Only under the lock."""
        torn = self.torn
        if torn is None:
            return None
        aside = self.path.with_name(
            f"{self.path.name.removesuffix('.job.toml')}.set-aside-{digest(torn.data)}"
        )
        if not aside.exists():
            disk.write_new(aside, torn.data)
        disk.cut_off(self.path, torn.data)
        self._read_whole()
        return aside


def _unread(block: Block) -> bool:
    return block.kind == "sound" and block.entry is None


def _reason(error: BaseException) -> str:
    if isinstance(error, Timeout):
        return "another program holds the file's lock"
    return (error.strerror or str(error)) if isinstance(error, OSError) else str(error)


def _header(path: Path, whole: Scan) -> Header:
    if whole.header is None:
        raise JobFileError(
            f"{path}:1: the file holds no header; it isn't a job file, or its beginning is lost"
        )
    return whole.header


def _about(path: Path, header: Header) -> About:
    """What the header says. Raises JobFileError where it can't be read."""
    end = header.data.rfind(b"\n[header]\n")
    try:
        table: Mapping[str, Any] = tomli.loads(header.data[: end + 1 or None].decode())
        if table["format"] != 1:
            raise JobFileError(
                f"{path}:1: format {table['format']!r} is newer than this program; get a newer one"
            )
        return About.read(table, header.hash)
    except (
        tomli.TOMLDecodeError,
        UnicodeDecodeError,
        KeyError,
        TypeError,
        AttributeError,
        TemplateError,
    ) as error:
        raise JobFileError(
            f"{path}:1: the header was changed and can't be read ({error}); take it from a copy of the file"
        ) from error


def create(path: Path, job_id: str, title: str, template: Mapping[str, Any]) -> JobFile:
    """A new job file with its header. Raises JobFileError; never overwrites."""
    try:
        disk.write_new(path, write_header({"id": job_id, "title": title}, template))
    except FileExistsError:
        raise JobFileError(f"{path}: is there already; name a file that isn't") from None
    except OSError as error:
        raise JobFileError(f"{path}: can't be written: {error.strerror}; choose another place") from error
    return JobFile(path)
