"""A job file on the disk: created, appended to; what it does not take goes into the rescue file instead.

An append is one block, one write and one fsync under a lock of its own file; nothing is rewritten in
place. A torn end is set aside only by the next append, under the lock.
What the file doesn't take is kept in a rescue file, and recorded as soon as it does.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any

from msgspec import Struct

from jobtrack.job.acts.base import Act, replace
from jobtrack.job.acts.entry import Entry
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import Job
from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError, ReadFile
from jobtrack.store.machine import rescue
from jobtrack.store.text.blocks import digest, scan, scan_blocks
from jobtrack.store.text.writing import write_entry, write_header

TRIES = 5
"""How often an append looks again where the file is replaced or changed while it writes."""


class NotRecorded(Exception):
    """An entry that didn't reach the disk: one line that says why, and where it is kept."""


class _ReadOnly(Exception):
    """Why nothing can be recorded in this file."""


class Appended(Struct, frozen=True):
    """An entry that is on the disk."""

    entry: Entry
    set_aside: Path | None = None
    """Where a torn end was put, if one stood before it."""
    taken_up: tuple[Entry, ...] = ()
    """What had waited and is on the disk now, too."""


class JobFile(ReadFile):
    """One open job that can be recorded in."""

    def __init__(self, path: Path) -> None:
        """Open a job file. Raises JobFileError."""
        super().__init__(path)
        self._unkept: list[Entry] = []
        self._locks_work: bool | None = None

    def append(
        self,
        did: Sequence[Act],
        by: str,
        at: datetime,
        *,
        id: str,
        step: str | None = None,
        typed_at: datetime | None = None,
        wait: float | None = None,
    ) -> Appended:
        """Record one call, behind what still waits. Returns when it is on the disk; the state has it then.

        `wait`: seconds to wait for another program's lock. Raises Refused for a call too long for one
        entry; NotRecorded where the disk didn't take it: it is then kept, and waits.
        """
        return self.write(composed(did, by, at, id=id, step=step, typed_at=typed_at), wait)

    def write(self, entry: Entry, wait: float | None = None) -> Appended:
        """Record one call that was composed, as `append` does. Raises NotRecorded."""
        try:
            written, aside = self._write([*self.waiting, entry], wait)
        except (OSError, JobFileError, _ReadOnly) as error:
            raise NotRecorded(self._kept_instead(entry, error)) from error
        # The same call may have arrived before, and the disk's error after it.
        found = [one for one in written if one.id == entry.id]
        mine = found[0] if found else replace(entry, hash=self._ends.ids.get(entry.id, ""))
        return Appended(mine, aside, tuple(one for one in written if one.id != entry.id))

    def take_up(self, wait: float | None = None) -> tuple[Entry, ...]:
        """Record what waits, where the file takes it now. Raises NotRecorded where it doesn't."""
        entries = self.waiting
        if not entries:
            return ()
        try:
            written, _ = self._write(entries, wait)
        except (OSError, JobFileError, _ReadOnly) as error:
            raise NotRecorded(f"{self.path}: not yet recorded: {_reason(error)}") from error
        return tuple(written)

    @property
    def waiting(self) -> list[Entry]:
        """What was entered for this file and isn't in it yet."""
        kept = {entry.id: entry for entry in (*rescue.waiting(self.real, self.header.hash), *self._unkept)}
        return [entry for id, entry in kept.items() if id not in self._ends.ids]

    @property
    def meant(self) -> Job:
        """The state with what waits to be recorded: the next call may name it."""
        waits = self.waiting
        return self.job.as_if(*self._placed(waits)) if waits else self.job

    def locks_work(self) -> bool:
        """Whether the lock of this file keeps a second program out; tried once."""
        if self._locks_work is None:
            try:
                self._locks_work = disk.locks_work(self.real)
            except OSError:
                return True  # it keeps us out just now; or nothing can be recorded at all, and that is said
        return self._locks_work

    def _write(self, entries: Sequence[Entry], wait: float | None) -> tuple[list[Entry], Path | None]:
        """Put entries behind all that is there; those that are there already are left out."""
        by_id = {entry.id: entry for entry in entries}
        with disk.locked(self.real, wait):
            written = self._write_locked(by_id.values(), TRIES)
            # It is on the disk. Where it can't be read again just now, the next look finds it.
            with suppress(JobFileError):
                self.refresh()
        self._unkept.clear()
        rescue.let_go(self.real, self.header.hash, by_id)
        return written

    def _write_locked(self, entries: Collection[Entry], tries: int) -> tuple[list[Entry], Path | None]:
        self.refresh()
        if self.read_only is not None:
            raise _ReadOnly(f"{self.read_only}, so it is open for reading only")
        new = self._placed(entry for entry in entries if entry.id not in self._ends.ids)
        aside = self._set_torn_end_aside()
        try:
            if new:
                disk.append(self.real, b"".join(write_entry(one)[0] for one in new), self._known)
        except disk.Replaced:
            # A program that knows no lock, an editor or a synchroniser, was there between our reading and writing.
            # What the entries follow, and their numbers, go by the file as it is now: all is done from the beginning.
            if tries <= 1:
                raise
            new, again = self._write_locked(entries, tries - 1)
            aside = again or aside
        return new, aside

    def _placed(self, entries: Iterable[Entry]) -> list[Entry]:
        """Entries, one behind the other, behind all loose ends, sound or not, that the file has now."""
        placed: list[Entry] = []
        for entry in entries:
            if placed:
                one = replace(entry, n=placed[-1].n + 1, follows=(placed[-1].hash,))
            else:
                one = self._ends.place(entry, self._damaged)
            placed.append(replace(one, hash=write_entry(one)[1]))
        return placed

    def _kept_instead(self, entry: Entry, error: Exception) -> str:
        """Keep what wasn't recorded; the line that says so."""
        why = f"{self.path}: NOT YET RECORDED: {_reason(error)}"
        try:
            kept = rescue.keep(self.real, self.header.hash, entry)
        except OSError as second:
            self._unkept.append(entry)
            return f"{why}; nor could it be kept in a rescue file ({_reason(second)}): write it down, and try again"
        return f"{why}; kept in {kept}, and recorded by itself when the file takes it again"

    def _set_torn_end_aside(self) -> Path | None:
        """Move a broken-off write out of the way, synced before the file is cut. Only under the lock."""
        torn = self.torn
        if torn is None:
            return None
        aside = self.real.with_name(
            f"{self.real.name.removesuffix('.job.toml')}.set-aside-{digest(torn.data)}"
        )
        if not aside.exists():  # it is named by what it holds: a try that was broken off may have left it
            disk.write_new(aside, torn.data)
        disk.cut_off(self.real, torn.data)
        self._read_whole()
        return aside


def composed(
    did: Sequence[Act],
    by: str,
    at: datetime,
    *,
    id: str,
    step: str | None = None,
    typed_at: datetime | None = None,
) -> Entry:
    """One call as an entry, not placed yet. Raises Refused for a call too long for one entry."""
    entry = Entry(id, 1, at, by, tuple(did), (), "", step, typed_at)
    _refuse_unreadable(write_entry(entry)[0])
    return entry


def _refuse_unreadable(data: bytes) -> None:
    """What couldn't be read again isn't written: it would leave the file open for reading only."""
    [block] = scan_blocks(data, 1)
    if block.entry is None:
        raise Refused("too long for one entry; record it in several calls")


def _reason(error: BaseException) -> str:
    if isinstance(error, TimeoutError) and error.errno is None:  # a slow share has a number
        return "another program holds the file's lock"
    return (error.strerror or str(error)) if isinstance(error, OSError) else str(error)


def job_text(job_id: str, title: str, template: Mapping[str, Any], first: Entry | None) -> bytes:
    """All that stands in a new job file."""
    data = write_header({"id": job_id, "title": title}, template)
    if first is not None:
        header = scan(data).header
        data += write_entry(replace(first, n=1, follows=(header.hash,) if header else ()))[0]
    return data


def create(
    path: Path, job_id: str, title: str, template: Mapping[str, Any], first: Entry | None = None
) -> JobFile:
    """A new job file: its header, and its first entry where there is one, whole or not at all.

    Raises JobFileError; never overwrites.
    """
    try:
        disk.write_new(path, job_text(job_id, title, template, first))
    except FileExistsError:
        raise JobFileError(f"{path}: is there already; name a file that isn't") from None
    except OSError as error:
        raise JobFileError(f"{path}: can't be written: {error.strerror}; choose another place") from error
    rescue.set_reserve_aside()
    return JobFile(path)
