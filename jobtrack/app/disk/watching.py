"""The folder in which pictures arrive, looked at by a thread of its own for as long as the app is open."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from jobtrack.app.disk.thread import Disk
from jobtrack.job.acts.doing import PhotoAct
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine import photos
from jobtrack.store.machine.watched import Picture, WatchedFolder


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of one look."""

    photos: Sequence[tuple[Picture, PhotoAct]] = ()
    """What was copied beside the job, the oldest first."""
    waiting: int = 0
    """How many have arrived and aren't taken."""
    trouble: str = ""


class Watching:
    """Looks, and copies what has arrived; one look at a time."""

    def __init__(self, folder: WatchedFolder, disk: Disk) -> None:
        self.folder = folder
        self._disk = disk
        self._looking = False
        self._trouble = ""
        """What was in the way of copying at the last look."""

    def look(self, job: Path | None, then: Callable[[Taken], None]) -> None:
        """Look, copy what has arrived beside a job file, and go on with it; without one nothing is taken."""
        if self._looking:
            return
        self._looking = True

        def looked(taken: Taken) -> None:
            self._looking = False
            then(taken)

        self._disk.do(lambda: self._look(job), looked)  # a share that hangs keeps nobody from ending the app

    # In the thread

    def _look(self, job: Path | None) -> Taken:
        found = self.folder.look()
        if job is None:
            return Taken((), len(found.pictures), found.trouble)
        taken: list[tuple[Picture, PhotoAct]] = []
        try:
            for picture in found.pictures:
                taken.append((picture, photos.take(picture.path, job)))
                self.folder.done_with(picture)
        except JobFileError as error:
            return Taken(taken, len(found.pictures) - len(taken), self._new(f"Not taken: {error}"))
        return Taken(taken, 0, found.trouble or self._new(""))

    def _new(self, trouble: str) -> str:
        """What is in the way, where it wasn't said at the look before."""
        before, self._trouble = self._trouble, trouble
        return trouble if trouble != before else ""
