"""A job that is open on the screen: its state here, its file read and written by a thread of its own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from threading import get_ident
from typing import TypeVar

from textual.app import App
from textual.signal import Signal

from jobtrack.app.disk.thread import Disk
from jobtrack.job.acts.base import replace
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.about_file import file_lines, locks_line
from jobtrack.store.file.reader import JobFileError, News
from jobtrack.store.file.rehearsed import Rehearsed
from jobtrack.store.file.writer import Appended, JobFile, NotRecorded
from jobtrack.store.text.writing import write_entry

T = TypeVar("T")

LOCK_WAIT = 0.5
"""Seconds to wait for another program's lock; what isn't recorded by then is kept and tried again."""


@dataclass(frozen=True, slots=True)
class Found:
    """What the thread has seen of the file."""

    news: Sequence[News]
    trouble: Sequence[str]
    """What the file has against it, in sentences."""
    waiting: Sequence[Entry]
    """What was kept because the file didn't take it."""
    changed: bool = False
    taken_up: int = 0
    """How many entries that had waited are on the disk now."""
    unreadable: str = ""
    """Why the file can't be read any more."""


@dataclass(frozen=True, slots=True)
class Written:
    """What came of recording one entry."""

    before: Job
    """The state without it."""
    appended: Appended | None
    why_not: str = ""


class OpenJob:
    """The state of a job, as far as it is recorded, and what is on its way to the disk."""

    def __init__(self, file: JobFile, found: Found, app: App[int], disk: Disk) -> None:
        """`found` is what was seen when the file was opened."""
        self.file = file
        self.grown: Signal[OpenJob] = Signal(app, "grown")
        """Published when the state, or what the file has against it, has changed."""
        self._disk = disk
        self._on_the_way: dict[str, Entry] = {}
        self._words: dict[str, str] = {}
        """By id: what was handed over and isn't answered yet, and what it is called."""
        self._waiting = found.waiting
        self.trouble = found.trouble
        self._looking = False
        file.kept_by(get_ident())

    @property
    def job(self) -> Job:
        """The state as it is recorded."""
        return self.file.job

    @property
    def on_disk(self) -> bool:
        """Whether there is a file at all: a rehearsal has none."""
        return not isinstance(self.file, Rehearsed)

    @property
    def meant(self) -> Job:
        """The state with what is on its way, or waits: the next call may name it."""
        entries = [*self._waiting, *self._on_the_way.values()]
        return self.job.as_if(*_placed(self.job, entries)) if entries else self.job

    @property
    def waits(self) -> bool:
        """Whether something is kept because the file didn't take it."""
        return bool(self._waiting)

    @property
    def on_the_way(self) -> str:
        """What is not yet recorded, in one sentence; empty where the disk has all of it."""
        return f"NOT YET RECORDED: {'; '.join(self._words.values())}." if self._words else ""

    def write(self, entry: Entry, words: str, then: Callable[[Written], None]) -> None:
        """Record an entry behind all that was handed over before it; `words` name it meanwhile."""
        self._on_the_way[entry.id], self._words[entry.id] = entry, words

        def answered(done: tuple[Appended | None, str, Found]) -> None:
            appended, why_not, found = done
            before = self.job
            del self._on_the_way[entry.id], self._words[entry.id]
            self._take_in(found)
            self.grown.publish(self)
            then(Written(before, appended, why_not))

        self._disk.do(lambda: self._written(entry), answered, writes=True)

    def look(self, then: Callable[[Found, Job], None]) -> None:
        """Read what others have added, and record what waits; `then` gets the state before, too.

        Where the last look isn't back yet, there is none.
        """
        if self._looking:
            return
        self._looking = True

        def answered(found: Found) -> None:
            self._looking = False
            before, trouble = self.job, self.trouble
            self._take_in(found)
            if found.changed or found.taken_up or list(found.trouble) != list(trouble):
                self.grown.publish(self)
            then(found, before)

        self._disk.do(self._looked, answered)

    def beside(self, work: Callable[[], T], then: Callable[[T], None]) -> None:
        """Do something else to the disk, in its turn: a file beside the job. The app doesn't end before it is done."""
        self._disk.do(work, then, writes=True)

    def let_go(self) -> None:
        """No screen shows it any more; what is on its way still arrives."""
        self._disk.finish()

    def _take_in(self, found: Found) -> None:
        self.file.take_in(found.news)
        self.trouble, self._waiting = found.trouble, found.waiting

    # In the thread

    def _written(self, entry: Entry) -> tuple[Appended | None, str, Found]:
        appended, why_not = None, ""
        try:
            appended = self.file.write(entry, LOCK_WAIT)
        except NotRecorded as error:
            why_not = str(error)
        return appended, why_not, self._seen()

    def _looked(self) -> Found:
        try:
            changed = self.file.refresh()
        except JobFileError as error:
            return self._seen(unreadable=str(error))
        try:
            taken_up = len(self.file.take_up(LOCK_WAIT))
        except NotRecorded:
            taken_up = 0
        return self._seen(changed, taken_up)

    def _seen(self, changed: bool = False, taken_up: int = 0, unreadable: str = "") -> Found:
        file = self.file
        return Found(file.news(), _trouble(file), file.waiting, changed, taken_up, unreadable)


def first_look(file: JobFile) -> Found:
    """What is to be seen of a file that has just been opened."""
    return Found((), _trouble(file), file.waiting)


def _trouble(file: JobFile) -> list[str]:
    return [*file_lines(file), *locks_line(file)]


def _placed(job: Job, entries: Sequence[Entry]) -> list[Entry]:
    """Entries one behind the other, behind all that is recorded, as the file would place them now."""
    n = max((entry.n for entry in job.view.entries), default=0)
    follows = job.view.loose_ends
    placed: list[Entry] = []
    for entry in entries:
        n += 1
        one = replace(entry, n=n, follows=follows)
        placed.append(replace(one, hash=write_entry(one)[1]))
        follows = (placed[-1].hash,)
    return placed
