"""One sitting at the bench: the folder, who is there, the time; and recording, which answers in one line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path

from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.wording import clock_time, named
from jobtrack.sheets.words.acts import acts_words
from jobtrack.sheets.words.effects import effect_lines
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.machine import now
from jobtrack.units import UnitError

LOCK_WAIT = 0.5
"""Seconds that a screen waits for another program's lock; what isn't recorded by then is kept and tried again."""

Fill = Callable[[Draft], object]


@dataclass(slots=True)
class Bench:
    """What the screens share: the folder of jobs, and who records."""

    folder: Path
    by: str | None = None
    asked: set[tuple[str, str, datetime]] = field(default_factory=set)
    """The silences that were asked about: of which job, whose, since when."""

    def now(self) -> datetime:
        """The time here, with its offset, to the second."""
        return now.local_now()


@dataclass(frozen=True, slots=True)
class Told:
    """The one line that answers an attempt to record."""

    text: str
    recorded: bool
    kept: bool = False
    """It didn't reach the job file, and waits: it needn't be typed again."""
    when: str = ""
    """When it was recorded, as a clock shows it."""
    follows: str = ""
    """What it has changed elsewhere, in sentences."""

    def of(self, what: str) -> str:
        """The answer with other words for what was recorded."""
        return f"Recorded {self.when}: {what} {self.follows}".rstrip() if self.recorded else self.text

    @property
    def taken(self) -> bool:
        """Whether the text that was typed has been taken off the person's hands."""
        return self.recorded or self.kept


def draft(
    file: JobFile,
    bench: Bench,
    step: str | None,
    fill: Fill,
    by: str | None = None,
    at: datetime | None = None,
) -> Draft:
    """The acts of a call, done now or at another time, not yet recorded. Raises Refused, UnitError."""
    found = Draft(file.meant, by or bench.by or "", at or bench.now(), step)
    fill(found)
    return found


def record(
    file: JobFile,
    bench: Bench,
    step: str | None,
    fill: Fill,
    by: str | None = None,
    at: datetime | None = None,
) -> Told:
    """Record one call; what is refused, or didn't reach the disk, comes back as the line that says why."""
    before, typed_at = file.job, bench.now() if at else None
    try:
        made = draft(file, bench, step, fill, by, at)
        done = file.append(
            made.done(), made.by, made.at, id=made.id, step=step, typed_at=typed_at, wait=LOCK_WAIT
        )
    except (Refused, UnitError) as error:
        return Told(str(error), recorded=False)
    except NotRecorded as error:
        return Told(str(error), recorded=False, kept=True)
    aside = [f"a torn end of the file was set aside as {done.set_aside.name}"] if done.set_aside else []
    follows = [named(file.job, text) for text in (*effect_lines(before, file.job), *aside)]
    told = Told("", recorded=True, when=clock_time(made.at), follows=" ".join(f"{text}." for text in follows))
    return replace(told, text=told.of(f"{_what(made)}."))


def _what(made: Draft) -> str:
    """What was recorded, but for what it brings along by itself: that is told by its effects."""
    own = [act for act in made.did if not isinstance(act, OpensAct | ClosesAct)]
    return acts_words(own or made.did)
