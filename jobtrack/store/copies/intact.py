"""Whether a job file is as it was written: what is torn, altered, stray, missing, doubled or out of order."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.entry import Entry
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine.last_seen import gone_from
from jobtrack.store.text.blocks import Block, Scan, scan
from jobtrack.store.text.sizes import counted, sized

INTACT = "The file is as it was written. That doesn't show who wrote it or that it is true."


class Found(Struct, frozen=True):
    """One thing found in a job file. A remark is no damage."""

    line: int
    what: str
    why: str
    remark: bool = False

    def text(self, path: Path) -> str:
        """The finding on one line, as PATH:LINE: WHAT: WHY."""
        return f"{path}:{self.line}: {self.what}: {self.why}"


def intact(path: Path) -> list[Found]:
    """What is found in a job file, in the order of its lines; empty: it is as it was written."""
    return examine(taken_apart(path))


def taken_apart(path: Path) -> Scan:
    """What a file holds, whatever that is. Raises JobFileError."""
    try:
        sized(path)
        return scan(counted(path.read_bytes()))
    except OSError as error:
        raise JobFileError(f"{path}: can't be read: {error.strerror}; name a job file") from error


def gone(whole: Scan, path: Path) -> list[Found]:
    """The entries that this machine has seen and a file doesn't hold: it alone can't know that they are missing.

    What stands in another copy that is there is a remark.
    """
    parts = [*((whole.header,) if whole.header else ()), *whole.blocks]
    last = sum(part.data.count(b"\n") for part in parts)
    return [
        Found(
            last,
            "missing",
            f"the entry {one.hash} of {one.when:%Y-%m-%d %H:%M} by {one.by}, seen at the end of {one.file}, "
            "isn't in the file",
            remark=one.elsewhere(path),
        )
        for one in gone_from(whole)
    ]


def examine(whole: Scan) -> list[Found]:
    """What is found in a file that was taken apart."""
    found = [*_header(whole), *_blocks(whole.blocks), *_order(whole), *_remarks(whole)]
    return sorted(found, key=lambda one: one.line)


def _header(whole: Scan) -> Iterator[Found]:
    if whole.header is None:
        yield Found(1, "changed header", "the file doesn't begin with one")
    elif not whole.header.sound:
        yield Found(1, "changed header", "it isn't as it was written")


def _blocks(blocks: tuple[Block, ...]) -> Iterator[Found]:
    seen: set[str] = set()
    for block in blocks:
        if block.kind == "torn":
            yield Found(block.line, "torn", "the write of this entry was broken off")
        elif block.kind == "altered":
            yield Found(
                block.line, "altered", f"this entry isn't as it was written (hash {block.hash or 'lost'})"
            )
        elif block.kind == "stray":
            yield Found(block.line, "stray", "text that belongs to no entry")
        elif block.hash in seen:
            yield Found(block.line, "doubled", "this entry stands in the file before")
        elif block.kind == "sound":
            seen.add(block.hash)


def _order(whole: Scan) -> Iterator[Found]:
    have = {name for block in whole.blocks for name in block.names} | {
        whole.header.hash if whole.header else ""
    }
    numbers = {entry.hash: entry.n for entry in whole.entries}
    last: Entry | None = None
    seen: set[str] = set()
    for block in whole.blocks:
        if block.entry is None or block.hash in seen:
            continue
        yield from _missing(block.line, block.entry, have)
        if last is not None and block.entry.order < last.order:
            yield Found(block.line, "out of order", "this entry belongs before the one above it")
        elif _wrong_number(block.entry, numbers, whole):
            why = f"n is {block.entry.n}, which doesn't follow from what it follows"
            yield Found(block.line, "out of order", why)
        last = block.entry
        seen.add(block.hash)


def _missing(line: int, entry: Entry, have: set[str]) -> Iterator[Found]:
    if not entry.follows:
        yield Found(line, "missing", "this entry doesn't say what it follows")
    for parent in entry.follows:
        if parent not in have:
            yield Found(line, "missing", f"the entry {parent}, which this one follows, isn't in the file")


def _wrong_number(entry: Entry, numbers: dict[str, int], whole: Scan) -> bool:
    """Whether `n` doesn't come right behind the largest of what it follows; unknown where one of those can't be read.

    An entry made while some of those couldn't be read left room for each, as if they followed one another.
    """
    parents = [
        0 if whole.header and parent == whole.header.hash else numbers.get(parent) for parent in entry.follows
    ]
    known = [n for n in parents if n is not None]
    return len(known) == len(parents) and not 0 < entry.n - max(known, default=0) <= max(1, len(known))


def _remarks(whole: Scan) -> Iterator[Found]:
    if whole.crlf:
        yield Found(1, "line endings", "they were changed to CRLF; nothing else is", remark=True)
    hashes: dict[str, str] = {}
    for block in whole.blocks:
        if block.kind == "sound" and block.entry is None:
            yield Found(
                block.line, "unknown", "an entry of a shape that this program doesn't know", remark=True
            )
        if block.entry is None:
            continue
        if any(isinstance(act, UnknownAct) for act in block.entry.did):
            yield Found(block.line, "unknown", "an act that this program doesn't know", remark=True)
        if hashes.setdefault(block.entry.id, block.hash) != block.hash:
            yield Found(block.line, "twice", f"the id {block.entry.id} stands under two hashes", remark=True)
