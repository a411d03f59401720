"""The loose ends of each job that this machine has seen: what a file alone can't know about its very tail.

Where an older copy is put back by mistake, the entries behind its end are gone without a trace in the
file; here they are remembered. It is a help, not a record: what can't be written here is left out.
"""

from __future__ import annotations

import os
from collections.abc import Collection, Iterator, Sequence
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.structs import asdict

from jobtrack.store.file import disk
from jobtrack.store.file.loose_ends import LooseEnds
from jobtrack.store.machine.state_files import OWNERS, absolute, state_folder
from jobtrack.store.text.blocks import Scan

MOST = 100
"""Loose ends remembered of one job; the oldest are forgotten first."""
WAIT = 0.5
"""Seconds that remembering waits for another program; then it is left to the next look."""


class SeenEntry(Struct, frozen=True):
    """An entry that this machine has seen at the end of a copy of a job."""

    hash: str
    id: str
    at: str
    by: str
    file: str
    """Where it was seen last."""

    @property
    def when(self) -> datetime:
        """When it was done, with its offset from UTC. Raises ValueError where `at` is no time."""
        return datetime.fromisoformat(self.at)

    def elsewhere(self, path: Path) -> bool:
        """Whether it was seen in another copy, which is there still: then it isn't gone, only not in this one."""
        return self.file != named(path) and os.path.exists(self.file)


def look(path: Path, ends: LooseEnds, damaged: Collection[str] = ()) -> tuple[SeenEntry, ...]:
    """Remember the loose ends of a file; and what this machine has seen of the job that isn't in it.

    An entry that came again under another hash is there: its id is. So is one that can't be read any more:
    `damaged` has the hashes of those.
    """
    seen = _remembered(ends.header)
    lost = _lost(seen, ends)
    if set(ends.loose) != {one.hash for one in seen} - {one.hash for one in lost}:
        _remember(path, ends)
    return tuple(one for one in lost if one.hash not in damaged)


def gone_from(whole: Scan) -> tuple[SeenEntry, ...]:
    """What this machine has seen of a job that isn't in a file of it. Remembers nothing."""
    if whole.header is None:
        return ()
    ends = LooseEnds(whole.header.hash)
    for entry in whole.entries:
        ends.add(entry)
    there = {name for block in whole.blocks for name in block.names}
    return tuple(one for one in _lost(_remembered(ends.header), ends) if one.hash not in there)


def _lost(seen: Sequence[SeenEntry], ends: LooseEnds) -> list[SeenEntry]:
    return [one for one in seen if one.hash not in ends.hashes and one.id not in ends.ids]


def named(path: Path) -> str:
    """The full name of a file as it is remembered."""
    return os.fsencode(absolute(path)).decode("utf-8", "backslashreplace")


def _loose(path: Path, ends: LooseEnds) -> Iterator[SeenEntry]:
    file = named(path)
    for entry in ends.loose.values():
        yield SeenEntry(entry.hash, entry.id, entry.at.isoformat(), entry.by, file)


def _file(header: str) -> Path:
    return state_folder("seen") / f"{header}.json"


def _remembered(header: str) -> list[SeenEntry]:
    import json  # only where something is remembered

    try:
        data: Any = json.loads(_file(header).read_bytes())
        return [_seen_entry(one) for one in data]
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        return []  # it was written by something else, or can't be read: nothing is remembered


def _seen_entry(one: dict[str, Any]) -> SeenEntry:
    end = SeenEntry(*(str(one[key]) for key in ("hash", "id", "at", "by", "file")))
    if end.when.tzinfo is None:
        raise ValueError("a time without its offset")
    return end


def _remember(path: Path, ends: LooseEnds) -> None:
    """Put the loose ends behind what is remembered and isn't in the file; not synced, since the job file is."""
    with suppress(OSError):
        file = _file(ends.header)
        with disk.locked(file, WAIT, private=True):
            kept = [*_lost(_remembered(ends.header), ends), *_loose(path, ends)]
            _replace(file, kept[-MOST:])


def forget(header: str) -> None:
    """Remember nothing more of a job: its file was thrown away on purpose."""
    with suppress(OSError):
        for one in ((file := _file(header)), file.with_name(f"{file.name}.lock")):
            one.unlink(missing_ok=True)


def _replace(file: Path, ends: list[SeenEntry]) -> None:
    import json

    beside = file.with_name(f".{file.name}.{os.urandom(4).hex()}")
    try:
        beside.touch(OWNERS)
        beside.write_text(json.dumps([asdict(one) for one in ends]), encoding="utf-8")
        beside.replace(file)
    finally:
        beside.unlink(missing_ok=True)
