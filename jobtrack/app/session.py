"""One session of the app: the folder, who is there, the time; and recording, which answers in one line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path

from jobtrack.app.disk.open_job import OpenJob, Written
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import Job
from jobtrack.pages.wording import clock_time
from jobtrack.sheets.words.doing.acts import named_acts_words
from jobtrack.sheets.words.doing.effects import effect_sentences
from jobtrack.sheets.words.sentences import ended
from jobtrack.sheets.words.spoken import spoken_by
from jobtrack.store.file.writer import composed
from jobtrack.store.machine import now
from jobtrack.store.machine.settings import UNITS
from jobtrack.units import UnitError
from jobtrack.units.chosen import Chosen

METRIC, US = UNITS
RECORDED, REHEARSED = "Recorded", "Rehearsed"
Fill = Callable[[Draft], object]


@dataclass(slots=True)
class Session:
    """What the screens share: the folder of jobs, and who records."""

    folder: Path
    by: str | None = None
    asked: set[tuple[str, str, datetime]] = field(default_factory=set)
    """The silences that were asked about: of which job, whose, since when."""
    units: str = METRIC
    """The units in which values are said first: metric, or US."""
    units_set: bool = False
    """Whether somebody has said which: by a setting, or by the key."""
    motion: bool = True
    """Whether anything may blink or glide."""
    bell: bool = True
    """Whether the terminal's bell may ring."""

    titles: dict[str, str] = field(default_factory=dict)
    """What was typed as the title of a job that isn't begun yet, by its template's id."""

    on_paper: datetime | None = None
    """When it was done what is being typed in from paper; None: it is done now."""

    @property
    def shown(self) -> Chosen:
        """The unit system that figures are said in first."""
        return Chosen(self.units)

    def turn_units(self) -> None:
        """Say figures in the other unit system first, until it is turned back or the program ends."""
        self.units, self.units_set = self.shown.turned.system, True

    def look_at(self, job: Job) -> None:
        """A job is opened: where nobody has said otherwise, values are said in the units that its template speaks."""
        if not self.units_set:
            self.units = spoken_by(job)

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
    done: str = RECORDED
    """What was done with it, in a word."""

    def of(self, what: str) -> str:
        """The answer with other words for what was recorded."""
        return f"{self.done} {self.when}: {what} {self.follows}".rstrip() if self.recorded else self.text


def draft(
    file: OpenJob,
    session: Session,
    step: str | None,
    fill: Fill,
    by: str | None = None,
    at: datetime | None = None,
) -> Draft:
    """The acts of a call, done now or at another time, not yet recorded. Raises Refused, UnitError.

    They stand on what is recorded and on all that is on its way to the disk.
    """
    found = Draft(file.meant, by or session.by or "", at or session.on_paper or session.now(), step)
    fill(found)
    return found


def record(
    file: OpenJob,
    session: Session,
    step: str | None,
    fill: Fill,
    by: str | None = None,
    at: datetime | None = None,
    *,
    then: Callable[[Told], None],
) -> str | None:
    """Hand one call over to the disk; `then` is told, later, what came of it. Why it is refused, where it is."""
    typed_at = session.now() if at or session.on_paper else None
    try:
        made = draft(file, session, step, fill, by, at)
        entry = composed(made.done(), made.by, made.at, id=made.id, step=step, typed_at=typed_at)
    except (Refused, UnitError) as error:
        return str(error)
    file.write(entry, _what(made), lambda done: then(_told(file, made, done, session.shown)))
    return None


def _told(file: OpenJob, made: Draft, done: Written, shown: Chosen) -> Told:
    if done.appended is None:
        return Told(done.why_not, recorded=False, kept=True)
    put_aside = done.appended.set_aside
    aside = [f"A torn end of the file was set aside as {put_aside.name}"] if put_aside else []
    follows = [*effect_sentences(done.before, file.job, shown), *aside]
    word = RECORDED if file.on_disk else REHEARSED
    told = Told("", recorded=True, when=clock_time(made.at), follows=" ".join(map(ended, follows)), done=word)
    return replace(told, text=told.of(f"{_what(made)}."))


def _what(made: Draft) -> str:
    """What was recorded, but for what it brings along by itself: that is told by its effects."""
    own = [act for act in made.did if not isinstance(act, OpensAct | ClosesAct)]
    return named_acts_words(made.job, made.step, own or made.did)
