"""Photos in words: which file is meant, its time and size; which are recorded in a step."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from jobtrack.job.acts.doing import PhotoAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.pages.wording import day_and_time, step_name
from jobtrack.sheets.words.sentences import joined
from jobtrack.store.machine.watched import Picture

AHEAD = timedelta(minutes=2)
"""By how much a camera's clock may be ahead of this one's."""
LONG = 300
"""Characters of the longest sentence that is said whole where something is typed."""
NAMED = 3
"""Files named where several arrive at once."""


def photos_of(job: Job, step: str) -> list[Done]:
    """The photos recorded in a step, in order."""
    return [done for done in job.view.in_step(step) if isinstance(done.act, PhotoAct)]


def recorded_as(job: Job, hash: str | None, undone: bool = False) -> Done | None:
    """The photo with these bytes, where the job has it; one that was taken back too, if asked."""
    found = job.view.of_kind(PhotoAct, undone)
    return next((done for done in found if isinstance(done.act, PhotoAct) and done.act.hash == hash), None)


def hashes(job: Job) -> set[str]:
    """Of every photo that the job has."""
    found = (done.act for done in job.view.of_kind(PhotoAct))
    return {act.hash for act in found if isinstance(act, PhotoAct) and act.hash is not None}


def taken_at(job: Job, picture: Picture, now: datetime) -> datetime | None:
    """When a picture was taken, by its file: not before the job began, not after now; None where that can't be."""
    begun = min((entry.at for entry in job.view.entries), default=now)
    return min(picture.at, now) if begun <= picture.at <= now + AHEAD else None


def picture_lines(job: Job, picture: Picture, now: datetime) -> list[str]:
    """Which file it is, its time and size."""
    why = "ahead of the clock here" if picture.at > now else "before this job began"
    at = "" if taken_at(job, picture, now) else f" That is {why}: recorded as of now."
    size = (
        f"{picture.size / 1024 / 1024:.1f} MiB"
        if picture.size >= 100_000
        else f"{picture.size / 1024:.1f} KiB"
    )
    return [
        f"Photo: {picture.path.name}, {day_and_time(picture.at)}, {size}.{at}",
        f"In {picture.path.parent}",
    ]


def in_brief(why: str) -> str:
    """Why a file isn't taken; of a name that goes on and on its beginning, and why."""
    return why if len(why) <= LONG else f"{why[: LONG // 4]} … {why[-LONG // 2 :]}"


def there_already(job: Job, done: Done) -> str:
    """That a picture is recorded, and where."""
    planned = job.steps.get(done.entry.step or "")
    where = f"in “{step_name(planned)}”" if planned else "for the job"
    return f"That picture is recorded {where} already: nothing is recorded."


def photo_rows(photos: Sequence[Done]) -> list[str]:
    """Each photo by when it was taken, by whom it was recorded, and its file."""
    return [f"{day_and_time(done.entry.at)}, {done.entry.by}: {done.act.words()}" for done in photos]


def arrived_words(job: Job, step: str, names: Sequence[str]) -> str:
    """ "Photo a.jpg goes to “Mark the place (left)”."""
    more = [f"{len(names) - NAMED} more"] if len(names) > NAMED else []
    photos = "Photo" if len(names) == 1 else "Photos"
    return f"{photos} {joined([*names[:NAMED], *more])}: recorded in “{step_name(job.steps[step])}”."
