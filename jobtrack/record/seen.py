"""The loose ends of each job that this machine has seen: what a file alone can't know about its very tail.

Where an older copy is put back by mistake, the entries behind its end are gone without a trace in the
file; here they are remembered. It is a help, not a record: what can't be written here is left out.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from secrets import token_hex
from typing import Any

from jobtrack.record.ends import Ends
from jobtrack.record.state_files import absolute, state_folder


@dataclass(frozen=True, slots=True)
class SeenEnd:
    """An entry that this machine has seen at the end of a copy of a job."""

    hash: str
    id: str
    at: str
    by: str
    file: str
    """Where it was seen last."""

    @property
    def when(self) -> datetime:
        return datetime.fromisoformat(self.at)


def look(path: Path, ends: Ends) -> tuple[SeenEnd, ...]:
    """Remember the loose ends of a file; and what this machine has seen of the job that isn't in it.

    An entry that came again under another hash is there: its id is.
    """
    seen = _remembered(ends.header)
    gone = tuple(one for one in seen if one.hash not in ends.hashes and one.id not in ends.ids)
    known = {one.hash for one in seen}
    if set(ends.loose) != known - {one.hash for one in gone}:
        _remember(ends.header, [*gone, *_loose(path, ends)])
    return gone


def _loose(path: Path, ends: Ends) -> Iterator[SeenEnd]:
    file = os.fsencode(absolute(path)).decode("utf-8", "backslashreplace")
    for entry in ends.loose.values():
        yield SeenEnd(entry.hash, entry.id, entry.at.isoformat(), entry.by, file)


def _file(header: str) -> Path:
    return state_folder("seen") / f"{header}.json"


def _remembered(header: str) -> list[SeenEnd]:
    try:
        data: Any = json.loads(_file(header).read_bytes())
        return [_seen_end(one) for one in data]
    except (OSError, ValueError, TypeError, KeyError):
        return []


def _seen_end(one: dict[str, Any]) -> SeenEnd:
    end = SeenEnd(*(str(one[key]) for key in ("hash", "id", "at", "by", "file")))
    datetime.fromisoformat(end.at)
    return end


def _remember(header: str, ends: list[SeenEnd]) -> None:
    """Replace what is remembered; not synced, since the job file is."""
    with suppress(OSError):
        file = _file(header)
        beside = file.with_name(f".{file.name}.{token_hex(4)}")
        try:
            beside.write_text(json.dumps([asdict(one) for one in ends]), encoding="utf-8")
            beside.replace(file)
        finally:
            beside.unlink(missing_ok=True)
