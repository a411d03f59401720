"""A job file read and followed: at a cost that goes with what was added, not with what is there.

Reading never changes a file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from threading import get_ident
from typing import Any

import tomli

from jobtrack.job.about import About
from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.damage import Damage
from jobtrack.job.state.job import Job
from jobtrack.store.file import disk
from jobtrack.store.file.loose_ends import LooseEnds
from jobtrack.store.machine import last_seen
from jobtrack.store.machine.state_files import absolute
from jobtrack.store.text.blocks import Block, Header, Scan, scan, scan_blocks
from jobtrack.store.text.broken import legible
from jobtrack.store.text.header import HeaderError, read_header
from jobtrack.store.text.sizes import counted, full, sized


class JobFileError(ValueError):
    """A job file that can't be opened: one line that says what, where and how to mend it."""


News = Callable[[Job | None], Job]
"""What was read, as the way from the state before to the state with it."""


class ReadFile:
    """A job file that is open: what it holds, and the state that follows from it.

    Where one thread reads and writes the file and another shows the state (`kept_by`), nothing of the state is
    touched by the first: what it reads is `news`, which the other takes in.
    """

    def __init__(self, path: Path) -> None:
        """Open a job file. Raises JobFileError."""
        self.path = path
        """The name by which it was opened, for what is said of it."""
        self.real = absolute(path)
        """The file itself, looked up once: where a link leads elsewhere later, this job stays the one that is open."""
        self.header: Header
        self.about: About
        self.blocks: list[Block] = []
        self.crlf = False
        self.job: Job
        self.gone: tuple[last_seen.SeenEntry, ...] = ()
        """What this machine has seen of the job and this file doesn't hold."""
        self._known: disk.Known
        self._ends: LooseEnds
        self._damaged: list[Damage] = []
        self._unknown = False
        self._lines = 0
        self._keeper: int | None = None
        self._apart: list[News] = []
        self._read_whole()

    def kept_by(self, thread: int) -> None:
        """From now on only this thread changes the state; what another reads waits in `news`."""
        self._keeper = thread

    def news(self) -> list[News]:
        """What this thread has read and the state doesn't have yet, handed out once."""
        found, self._apart = self._apart, []
        return found

    def take_in(self, news: Iterable[News]) -> None:
        """Take into the state what another thread has read."""
        for one in news:
            self.job = one(self.job)

    def _came(self, one: News) -> None:
        if self._keeper in (None, get_ident()):
            self.job = one(getattr(self, "job", None))
        else:
            self._apart.append(one)

    def _read_whole(self) -> None:
        try:
            raw, known = self._all()
        except OSError as error:
            raise JobFileError(f"{self.path}: can't be read: {error.strerror}; name a job file") from error
        whole = scan(raw)
        header = _header(self.path, whole)
        about = _about(self.path, header)
        self.header, self.about = header, about
        self.crlf = whole.crlf
        self._known = known
        self._ends = LooseEnds(self.header.hash)
        self.blocks, self._unknown = [], False
        self._damaged = [] if header.sound else [Damage(header.hash, 1, header=True)]
        self._lines = self.header.data.count(b"\n")
        self._take(whole.blocks)
        self.gone = self._look()
        folded = Job.fold(about, whole.entries, self._lost())
        self._came(lambda _: folded)

    def _all(self) -> tuple[bytes, disk.Known]:
        """The file from its beginning to its end. Raises OSError."""
        sized(self.real)
        raw, known = disk.read(self.real)
        counted(raw)
        return raw, known

    def _take(self, blocks: Sequence[Block]) -> None:
        """Keep count of what was read, a block at a time."""
        for block in blocks:
            self.blocks.append(block)
            self._lines += block.data.count(b"\n")
            self._unknown |= _unread(block) or (block.entry is not None and _holds_unknown(block.entry))
            if block.kind == "altered" or _unread(block):
                self._damaged.append(Damage(block.name, block.line, block.names, legible(block.data)))
            if block.entry is not None:
                self._ends.add(block.entry)

    def _look(self) -> tuple[last_seen.SeenEntry, ...]:
        """What is gone. What another program has recorded since the file was read isn't: the next look has it."""
        damaged = {name for one in self._damaged for name in one.names}
        gone = last_seen.look(self.real, self._ends, damaged)
        return gone if gone and self._as_read() else ()

    def _lost(self) -> tuple[Damage, ...]:
        """What can't be read, and what is gone and in no other copy here: each may have opened something."""
        gone = [
            Damage(one.hash, gone=f"{one.when:%Y-%m-%d %H:%M} by {one.by}")
            for one in self.gone
            if not one.elsewhere(self.real)
        ]
        return (*self._damaged, *gone)

    def _as_read(self) -> bool:
        try:
            state = self.real.stat()
        except OSError:
            return True
        return self._known.same_file(state) and state.st_size == self._known.length

    def refresh(self) -> bool:
        """Take in what others have added since. True where anything came in.

        A file that only grew is read from where it ended; a replaced, shortened or altered one anew.
        """
        try:
            found = self._news()
        except OSError as error:
            raise JobFileError(
                f"{self.path}: can't be read any more: {error.strerror}; put it back"
            ) from error
        # What stands behind a torn end, and which line endings count, can be told from the whole file only.
        if found is None or (found[0] and (self.crlf or self.torn is not None or b"\r" in found[0])):
            self._read_whole()
            return True
        new, known = found
        if new:
            self._grew(new, known)
        return bool(new)

    def _grew(self, new: bytes, known: disk.Known) -> None:
        """Take in what stands behind all that was known."""
        blocks = scan_blocks(new, self._lines + 1)
        self._take(blocks)
        self._known = known
        self.gone = self._look()
        self._came(_grown([block.entry for block in blocks if block.entry], self._lost()))

    def _news(self) -> tuple[bytes, disk.Known] | None:
        """What stands behind the part that is known; None where that part isn't what it was."""
        state = sized(self.real)
        if not self._known.same_file(state) or state.st_size < self._known.length:
            return None
        return disk.read_behind(self.real, self._known)

    def template_data(self) -> dict[str, Any]:
        """The template in the header, as data. Raises JobFileError where the header can't be read as TOML."""
        try:
            found: dict[str, Any] = tomli.loads(self.header.data.decode())["template"]
        except (ValueError, KeyError) as error:
            raise JobFileError(f"{self.path}: the template in its header can't be read ({error})") from error
        return found

    @property
    def beside(self) -> Path:
        """The job file that photos and lists are put beside. Raises JobFileError where nothing may be."""
        return self.real

    @property
    def leads_elsewhere(self) -> Path | None:
        """The other file to which the name leads by now; None where it leads to this one still."""
        there = absolute(self.path)
        return there if there != self.real and there.exists() else None

    @property
    def torn(self) -> Block | None:
        """What a broken-off write has left at the very end."""
        return self.blocks[-1] if self.blocks and self.blocks[-1].kind == "torn" else None

    @property
    def read_only(self) -> str | None:
        """Why nothing can be recorded here, in words; None where it can."""
        if not self.header.sound:
            return "its header was changed"
        if self.about.newer is not None:
            return f"its format {self.about.newer} is newer than this program"
        if full(self._known.length, len(self.blocks)):
            return "it is as large as a job file can be"
        if self._unknown:
            return "it holds what this program doesn't know; a newer one has recorded in it"
        return None


def _grown(entries: Sequence[Entry], lost: tuple[Damage, ...]) -> News:
    def grown(job: Job | None) -> Job:
        assert job is not None, "a file that was never read doesn't grow"
        return job.with_more(entries, lost)

    return grown


def _holds_unknown(entry: Entry) -> bool:
    return any(isinstance(act, UnknownAct) for act in entry.did)


def _unread(block: Block) -> bool:
    return block.kind == "sound" and block.entry is None


def _header(path: Path, whole: Scan) -> Header:
    if whole.header is None:
        raise JobFileError(
            f"{path}:1: the file holds no header; it isn't a job file, or its beginning is lost"
        )
    return whole.header


def _about(path: Path, header: Header) -> About:
    """What the header says. Raises JobFileError where it can't be understood."""
    end = header.data.rfind(b"\n[header]\n")
    try:
        return read_header(header.data[: end + 1 or None], header.hash)
    except HeaderError as error:
        if error.newer is not None:
            why = f"format {error.newer} is newer than this program and can't be understood"
            raise JobFileError(f"{path}:{error.line}: {why} ({error}); get a newer program") from error
        why = "can't be understood" if header.sound else "was changed and can't be read"
        raise JobFileError(
            f"{path}:{error.line}: the header {why} ({error}); take it from a copy of the file"
        ) from error
