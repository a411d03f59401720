"""A photo recorded by a key: the newest of the watched folder, or one by its name; and photos looked at."""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.questions import GOES_ON, Questions
from jobtrack.app.session import Told
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.acts.doing import PhotoAct
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.photos import (
    hashes,
    in_brief,
    photo_rows,
    photos_of,
    picture_lines,
    recorded_as,
    taken_at,
    there_already,
)
from jobtrack.pages.wording import NOT_RECORDED_YET, step_name
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import photos, viewer
from jobtrack.store.machine.watched import Picture, WatchedFolder, picture_at

Found = tuple[Picture | None, str]
"""The picture, or why there is none."""
KEYS = "Enter records it   w type another file's name   Escape cancels"
NOT_WATCHED = 'No folder is watched: photos = "~/…" in the settings names one.'


class Photographing:
    """Looks for a picture, says which file it is, and records it at Enter."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._desk = desk
        self._asks = asks
        self._entry = desk.screen.entry

    def begin(self) -> None:
        """The newest picture of the watched folder that isn't recorded yet, else one by its name."""
        self._asks.with_name(self._begin)

    def _begin(self) -> None:
        watching = self._desk.screen.app.watching
        if watching is None:
            self._ask_name(NOT_WATCHED)
            return
        folder, known = watching.folder, hashes(self._desk.file.meant)
        self._look(f"the newest photo in {folder.folder}", lambda: _newest(folder, known))

    def _look(self, what: str, work: Callable[[], Found], typed: str = "") -> None:
        """Look on the disk; meanwhile no key records anything, and Escape gives it up."""
        looking = SecondKey(
            [f"Looking for {what} …"], "enter", lambda: None, "Escape gives it up.", key_row="Escape cancels"
        )
        self._entry.confirm(looking)

        def found(what: Found) -> None:
            if self._entry.waiting is looking:
                self._found(*what, typed)

        self._desk.screen.app.once(work, found)

    def _found(self, picture: Picture | None, why: str, typed: str = "") -> None:
        if picture is None:
            self._ask_name(why, typed)
            return
        session, at = self._desk.screen.session, self._desk.at
        about = picture_lines(at.job, picture, session.now())
        step, taken = at.step, taken_at(at.job, picture, session.now())

        def record() -> None:
            self._take(picture, step, taken)

        others = (("y", record), ("*", record), ("w", lambda: self._ask_name("")))
        self._entry.confirm(SecondKey(about, "enter", record, NOT_RECORDED_YET, others, KEYS))

    def _ask_name(self, why: str, start: str = "") -> None:
        """A file by its name; what was typed and isn't one stays in the field."""

        def named(text: str) -> str | None:
            if not text.strip():
                return "Type a file's name; Escape cancels."
            watching = self._desk.screen.app.watching
            folder = watching.folder.folder if watching else None
            self._look("that file", lambda: _by_name(text.strip(), folder), text.strip())
            return None

        about = [in_brief(why)] if why else []
        self._asks.ask("Which photo? Its file, as ~/pictures/weld.jpg", named, about, GOES_ON, start)

    # Recording

    def _take(self, picture: Picture, step: str, at: datetime | None) -> None:
        """Copy it beside the job, then record it."""
        file = self._desk.file.file
        self._entry.idle()
        self._desk.screen.draw()
        self._entry.say("")
        self._desk.tell(f"Copying {picture.path.name} …")
        self._desk.file.beside(
            lambda: _copied(picture.path, file), lambda done: self._copied(picture, step, at, *done)
        )

    def _copied(
        self, picture: Picture, step: str, at: datetime | None, act: PhotoAct | None, why: str
    ) -> None:
        if act is None:
            self._desk.tell(f"Not recorded: {why}.", stays=True)
            return
        job = self._desk.file.meant
        if (there := recorded_as(job, act.hash)) is not None:
            self._desk.tell(there_already(job, there))
            return
        said = f"photo {picture.path.name} in “{step_name(job.steps[step])}”."

        def told(what: Told) -> None:
            self._desk.answer_with(what)
            self._desk.tell(what.of(said), what.kept)

        refused = self._desk.record(step, lambda made: made.add(act), at=at, then=told)
        if refused is not None:
            self._desk.tell(f"Not recorded: {refused}.", stays=True)

    # Looking at them

    def look_at(self) -> None:
        """One of the photos of the step, in the system's viewer."""
        found = photos_of(self._desk.job, self._desk.at.step)
        if not found:
            self._entry.say(f"No photo is recorded in this step; {named('i', 'photo')} records one.")
            return
        names = [done.act.photo for done in found if isinstance(done.act, PhotoAct)]
        title = f"Photos of “{step_name(self._desk.at.here)}”. Which one is shown?"
        self._desk.screen.app.opening.choose(
            title, photo_rows(found), lambda number: self._show(names[number])
        )

    def _show(self, photo: str) -> None:
        path = self._desk.file.file.real
        self._desk.screen.app.once(
            lambda: viewer.show_photo(path, photo), lambda said: self._desk.tell(said, stays=True)
        )


# In the thread


def _newest(folder: WatchedFolder, known: set[str]) -> Found:
    try:
        picture = folder.newest(known)
    except OSError as error:
        return None, f"{folder.folder}: can't be read: {error.strerror}."
    return picture, f"No photo that isn't recorded yet in {folder.folder}."


def _by_name(text: str, folder: Path | None) -> Found:
    """A file by its whole name, else one in the watched folder, else one in the folder that one works in."""
    try:
        path = Path(text).expanduser()
        beside = folder / path if folder is not None and not path.is_absolute() else path
        return picture_at(beside if os.path.lexists(beside) else path), ""
    except JobFileError as error:
        return None, f"{error}."
    except (RuntimeError, ValueError):  # a home that nobody has, a character that no name holds
        return None, f"{text}: no file can be called that; name a photo."


def _copied(picture: Path, job: JobFile) -> tuple[PhotoAct | None, str]:
    try:
        return photos.take(picture, job.beside), ""
    except JobFileError as error:
        return None, str(error)
