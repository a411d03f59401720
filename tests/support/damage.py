"""A job with everything in it that damage could reach, as bytes, and what is found and open once some are changed."""

from __future__ import annotations

import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import count, islice
from pathlib import Path

from jobtrack.job.compose import conditions
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import Job
from jobtrack.store.copies.intact import examine
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text import blocks
from jobtrack.store.text.blocks import Scan, scan
from jobtrack.store.text.writing import write_entry, write_header
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    Copy,
    Do,
    clock,
    finish,
    given,
    note,
    opens,
    read,
    release,
    settle,
    template,
    tick,
    undo,
)

Call = tuple[str | None, tuple[Do, ...]]
FOLDER = tempfile.TemporaryDirectory()
"""Where changed files are opened; it goes with the tests' process."""
FIRST: tuple[Call, ...] = (
    (DONOR, (read("spacing", "1012"), finish)),
    (RECIPIENT, (read("spacing", "38 in"), finish)),
    ("mark.left", (read("moved", "23.4"),)),
    ("mark.left", (tick("scribed"),)),
    ("mark.left", (release,)),
    ("mark.left", (finish,)),
    ("mark.right", (read("moved", "23"),)),
    (None, (undo,)),
    (None, (opens("wedge under the left wheel"),)),
    (None, (opens("lamp lead across the floor"),)),
    (None, (lambda draft: conditions.closes(draft, draft.job.all_open[-1].name),)),
    ("tack.left", (read("other", "2.0"), read("slope", "2.1"))),
    ("cold.left", (tick("looked"), finish)),
    (None, (undo,)),
)
"""Openings that stay, are undone, closed by name and by a finish, and a closing that is undone."""
OVER: tuple[Call, ...] = (
    (None, (note('[3/4] "é" \u001b 🔧'),)),
    ("tack.right", (read("other", "2.0"),)),
    (None, (clock("on"),)),
    ("tack.right", (read("slope", "2.2"),)),
    (None, (given("step-height", "412 mm"),)),
    ("height", (read("height", "412"),)),
    (None, (clock("off"),)),
    ("nuts", (tick("painted", False),)),
)
"""What fills a job up to any number of entries, again and again."""


def busy(entries: int) -> Copy:
    """A copy with so many entries: what `FIRST` opens and closes, then two people apart and together again."""
    one = Copy()
    one.begin()
    for step, do in FIRST[: entries - 1]:
        one.call(step, *do)
    for turn in count():
        if len(one.entries) >= entries - 4:
            break
        _apart(one, turn, entries - 4)
    for step, do in islice(OVER, entries - len(one.entries)):
        one.call(step, *do)
    return one


def steady(entries: int) -> Copy:
    """A copy with so many entries of one person, most of them short."""
    one = Copy()
    one.begin()
    for step, do in FIRST[: entries - 1]:
        one.call(step, *do)
    for number in range(entries - len(one.entries)):
        one.call(None, note(f"bolt {number}"))
    return one


def _apart(one: Copy, turn: int, entries: int) -> None:
    """Two copies measure the same thing, not knowing of each other; then they are merged and it is settled."""
    other = one.split(f"other {turn}")
    other.call(DONOR, read("spacing", f"{1013 + turn % 2}"), by="Ada")
    other.call(*_filling(turn), by="Ada")
    one.call(DONOR, read("spacing", "1012.5"))
    one.take(other)
    one.call(DONOR, settle("spacing", "1012"))
    for number in range(min(4, entries - len(one.entries))):
        one.call(*_filling(turn + number))


def _filling(number: int) -> tuple[str | None, Do]:
    step, (do,) = OVER[number % len(OVER)]
    return step, do


@dataclass(frozen=True)
class Whole:
    """A job file that is as it was written: its header and its blocks."""

    parts: tuple[bytes, ...]

    @classmethod
    def of(cls, copy: Copy) -> Whole:
        header = write_header({"id": "job-1", "title": "Bay horse-box"}, template())
        return cls((header, *(write_entry(entry)[0] for entry in copy.entries)))

    @cached_property
    def data(self) -> bytes:
        return b"".join(self.parts)

    @cached_property
    def starts(self) -> list[int]:
        """Where each part begins."""
        return [sum(map(len, self.parts[:number])) for number in range(len(self.parts) + 1)]

    @cached_property
    def lines(self) -> list[int]:
        """The line of each part: of `[[entry]]` for an entry, 1 for the header."""
        return [1, *(2 + self.data.count(b"\n", 0, start) for start in self.starts[1:-1])]

    @cached_property
    def job(self) -> Job:
        return opened(self.data).job

    @cached_property
    def names(self) -> list[str]:
        """The hash of each part."""
        return [part[-34:-2].decode() for part in self.parts]

    def part_at(self, at: int) -> int:
        """In which part a byte stands."""
        return next(number for number, start in enumerate(self.starts) if start > at) - 1

    def changed(self, at: int, value: int) -> bytes:
        return self.data[:at] + bytes([value]) + self.data[at + 1 :]


@contextmanager
def read_once() -> Iterator[None]:
    """Entries that were read before aren't read again: what an entry says follows from its bytes alone."""
    honest = blocks._entry
    blocks._entry = cache(honest)
    try:
        yield
    finally:
        blocks._entry = honest


def opened(data: bytes) -> JobFile:
    """A job file of these bytes. Raises JobFileError."""
    path = Path(FOLDER.name) / "bay.job.toml"
    path.write_bytes(data)
    return JobFile(path)


def found(data: bytes) -> list[tuple[int, str]]:
    """What `intact` finds, remarks left out."""
    return found_in(scan(data))


def found_in(whole: Scan) -> list[tuple[int, str]]:
    return [(one.line, one.what) for one in examine(whole) if not one.remark]


def kept(before: Iterable[OpenCondition], file: JobFile) -> Iterator[str]:
    """Of each condition that was open: *name* where it still is, *damage* where what can't be read stands for it.

    Any other is *lost*.
    """
    after = file.job.all_open
    names = {one.name for one in after} | {opening for one in after for opening in one.openings}
    own = {name for one in file.job.damage for name in one.names} | set(file.job.view.missing)
    for one in before:
        by_name = one.name in names or names & set(one.openings)
        yield "name" if by_name else "damage" if names & own else "lost"


def conditions_after(whole: Whole, data: bytes) -> Counter[str]:
    """How the open conditions of a job come through a change of its file; *refused* where it isn't opened at all."""
    try:
        return Counter(kept(whole.job.all_open, opened(data)))
    except JobFileError:
        return Counter(refused=len(whole.job.all_open))
