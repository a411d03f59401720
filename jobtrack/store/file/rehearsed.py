"""An invented job for a rehearsal of its template: it lies in memory alone, and takes entries as a job file does.

Nothing of it can be left behind, however the program ends; no lock, rescue file or memory of this machine knows it.
"""

from __future__ import annotations

from pathlib import Path

from jobtrack.job.acts.entry import Entry
from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import Appended, JobFile
from jobtrack.store.machine import last_seen
from jobtrack.store.text.writing import write_entry


class Rehearsed(JobFile):
    """A job that is on no disk."""

    def __init__(self, name: str, text: bytes) -> None:
        """`text`: all that would stand in its file; `name`: what it is called where a job file's name is said."""
        self._text = text
        super().__init__(Path(f"rehearsal of {name}"))

    def write(self, entry: Entry, wait: float | None = None) -> Appended:
        """Take one call, that was composed, into the state."""
        [placed] = self._placed([entry])
        new = write_entry(placed)[0]
        self._grew(new, _in_memory(self._known.length + len(new)))
        return Appended(placed)

    @property
    def waiting(self) -> list[Entry]:
        """Nothing waits: there is no disk that could refuse it."""
        return []

    @property
    def beside(self) -> Path:
        """Raises JobFileError: what lies beside a job file would stay behind."""
        raise JobFileError("this is a rehearsal, and nothing of it is put on the disk")

    @property
    def leads_elsewhere(self) -> Path | None:
        """No name leads to it."""
        return None

    def locks_work(self) -> bool:
        """Nobody else could record in it."""
        return True

    def _all(self) -> tuple[bytes, disk.Known]:
        return self._text, _in_memory(len(self._text))

    def _news(self) -> tuple[bytes, disk.Known]:
        return b"", self._known

    def _look(self) -> tuple[last_seen.SeenEntry, ...]:
        return ()


def _in_memory(length: int) -> disk.Known:
    return disk.Known(0, 0, length, b"")
