"""A small invented job, and short ways to make entries in several copies of it, with names and times fixed."""

from __future__ import annotations

from base64 import b32encode
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta, timezone
from functools import cache
from hashlib import blake2b
from itertools import count
from pathlib import Path
from typing import Any

import tomli

from jobtrack.job.about import About
from jobtrack.job.acts.base import Act, replace
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import conditions, ending, mending, people, steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.store.file.beginning import first_acts
from jobtrack.store.file.writer import Appended, JobFile, create
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_entry, write_header

Do = Callable[[Draft], object]
START = datetime(2031, 4, 1, 8, 0, tzinfo=timezone(timedelta(hours=1)))
DONOR, RECIPIENT = "pin-spacing.donor", "pin-spacing.recipient"


@cache
def template_text() -> str:
    return (Path(__file__).parent / "bracket.toml").read_text(encoding="utf-8")


def template() -> dict[str, Any]:
    return tomli.loads(template_text())


@cache
def about() -> About:
    """What the header of a job file of the small template says."""
    data = write_header({"id": "job-1", "title": "Bay horse-box"}, template())
    header = scan(data).header
    assert header is not None
    return about_from(tomli.loads(data.decode()), header.hash)


def minutes(after: float) -> datetime:
    """A time of the first morning."""
    return START + timedelta(minutes=after)


def entry_id(number: int, salt: str = "") -> str:
    """A name for an entry that says nothing of when it was made, the same in every run."""
    digest = blake2b(f"{salt}{number}".encode(), digest_size=10).digest()
    return b32encode(digest).decode().lower()


@dataclass
class Copy:
    """One person's copy of the job: what it holds, and how to add to it without a disk."""

    job: Job = field(default_factory=lambda: Job.fold(about(), ()))
    ids: Iterator[str] = field(default_factory=lambda: (entry_id(number) for number in count()))
    clock: Iterator[datetime] = field(default_factory=lambda: (minutes(number) for number in count()))

    @property
    def entries(self) -> tuple[Entry, ...]:
        return self.job.view.entries

    def call(self, step: str | None, *do: Do, by: str = "Wim", at: datetime | None = None) -> Entry:
        """One call of somebody, recorded in this copy. Raises Refused."""
        draft = Draft(self.job, by, at or next(self.clock), step, id=next(self.ids))
        for one in do:
            one(draft)
        return self.put(draft.done(), draft)

    def put(self, did: tuple[Act, ...], draft: Draft) -> Entry:
        """Add an entry of these acts behind all loose ends."""
        n = 1 + max((entry.n for entry in self.entries), default=0)
        entry = Entry(draft.id, n, draft.at, draft.by, did, self.job.view.loose_ends, "", draft.step)
        entry = replace(entry, hash=write_entry(entry)[1])
        self.job = self.job.apply(entry)
        return entry

    def begin(self, *givens: tuple[str, str], by: str = "Wim") -> Entry:
        """The job's first entry."""
        draft = first_acts(self.job, givens, by, next(self.clock))
        draft.id = next(self.ids)
        return self.put(draft.done(), draft)

    def split(self, salt: str) -> Copy:
        """Another copy of what this one holds now, with names and a clock of its own."""
        ids = (entry_id(number, salt) for number in count())
        return Copy(Job.fold(about(), self.entries), ids)

    def take(self, *others: Copy) -> Copy:
        """Merge what other copies hold into this one."""
        mine = {entry.hash: entry for copy in (self, *others) for entry in copy.entries}
        self.job = Job.fold(about(), mine.values())
        return self


def surveyed(donor: str = "1012", recipient: str = "965") -> Copy:
    """A copy in which both vehicles are measured and their steps finished."""
    copy = Copy()
    copy.call(DONOR, read("spacing", donor), finish)
    copy.call(RECIPIENT, read("spacing", recipient), finish)
    return copy


def marked(moved: str = "22.8", side: str = "left") -> Copy:
    """Surveyed; one side marked, its hold released and the step finished."""
    copy = surveyed()
    copy.call(f"mark.{side}", read("moved", moved), tick("scribed"))
    copy.call(f"mark.{side}", release, by="Ada")
    copy.call(f"mark.{side}", finish)
    return copy


def read(name: str, *texts: str) -> Do:
    return lambda draft: values.reading(draft, name, texts)


def tick(name: str, yes: bool = True) -> Do:
    return lambda draft: values.tick(draft, name, yes)


def given(name: str, text: str) -> Do:
    return lambda draft: values.given(draft, name, text)


def note(text: str = "seen") -> Do:
    return lambda draft: draft.add(NoteAct(text))


def close(name: str) -> Do:
    return lambda draft: conditions.closes(draft, name)


def opens(text: str) -> Do:
    return lambda draft: conditions.opens(draft, text)


def stands(because: str = "looked again") -> Do:
    return lambda draft: steps.stands(draft, because)


def settle(name: str, text: str, whose: str | None = None) -> Do:
    return lambda draft: steps.settle(draft, name, text, whose)


def clock(what: str) -> Do:
    return lambda draft: people.clock(draft, what)


def undo_named(entry: Entry) -> Do:
    return lambda draft: mending.undo(draft, entry.id)


def not_needed(because: str = "") -> Do:
    return lambda draft: steps.not_needed(draft, because or None)


finish: Do = steps.finished
release: Do = steps.release_hold
undo: Do = mending.undo
close_job: Do = ending.close_job


def open_names(job: Job) -> list[str]:
    """What is recorded as open, by name."""
    return [one.name for one in job.all_open]


def states(job: Job) -> dict[str, str]:
    return {step: job.state(step) for step in job.steps}


def new_file(folder: Path, name: str = "bay") -> JobFile:
    """A job file of the small template, without entries."""
    return create(folder / f"{name}.job.toml", "job-1", "Bay horse-box", template())


def record(file: JobFile, step: str | None, *do: Do, by: str = "Wim", number: int | None = None) -> Appended:
    """One call, appended to a job file; `number` fixes its name and time."""
    number = len(file.blocks) if number is None else number
    draft = Draft(file.job, by, minutes(number), step, id=entry_id(number))
    for one in do:
        one(draft)
    return file.append(draft.done(), draft.by, draft.at, id=draft.id, step=step)


def file_with(folder: Path, calls: Iterable[tuple[str | None, Do]], name: str = "bay") -> JobFile:
    """A job file with one entry a call."""
    file = new_file(folder, name)
    for step, do in calls:
        record(file, step, do)
    return file


WORK: tuple[tuple[str | None, Do], ...] = (
    (DONOR, read("spacing", "1012")), (RECIPIENT, read("spacing", "38 in")), ("mark.left", read("moved", "22.8")),
    ("mark.left", tick("scribed")), (None, note('[3/4] "é"\u001b 🔧')),
)  # fmt: skip
"""Five calls of everyday work."""
