"""Pictures that arrive while the app is open: each goes to the step that was in sight when it was taken."""

from __future__ import annotations

from jobtrack.app.disk.watching import Taken, Watching
from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Told
from jobtrack.job.acts.doing import PhotoAct
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.photos import arrived_words, recorded_as, taken_at
from jobtrack.pages.wording import counted
from jobtrack.store.machine.watched import Picture

EVERY = 2.0
"""Seconds between two looks: a file that has grown meanwhile hasn't arrived yet."""


class Arriving:
    """Records what arrives, and says so on whatever page is in sight."""

    def __init__(self, desk: StepDesk) -> None:
        self._desk = desk
        self._waiting = ""
        """Why pictures that have arrived aren't taken, as it was said last."""

    def start(self) -> None:
        """Look from now on, where a folder is watched."""
        app = self._desk.screen.app
        if app.watching is not None and app.apart is None:
            self._desk.screen.set_interval(EVERY, self._look)

    def _look(self) -> None:
        watching = self._desk.screen.app.watching
        if watching is not None:
            waits = self._why_not()
            job = None if waits else self._desk.file.file.real
            watching.look(job, lambda taken: self._looked(watching, taken, waits))

    def _why_not(self) -> str:
        """Why nothing is taken now; empty where it is."""
        if self._desk.screen.session.by is None:
            return f"nobody is here yet; {named('b', 'by-whom')} says who is."
        if self._desk.job.ended is not None:
            return f"this job has ended; {named('i', 'photo')} records one all the same."
        return ""

    def _looked(self, watching: Watching, taken: Taken, waits: str) -> None:
        if not self._desk.screen.is_attached:
            # The job was left meanwhile, and its file takes nothing any more.
            for picture, _ in taken.photos:
                watching.folder.again(picture)
            return
        if taken.trouble:
            self._say(f"{self._standing()} {taken.trouble}.".strip())
        waiting = (
            f"{counted(taken.waiting, 'photo')} not recorded: {waits}" if taken.waiting and waits else ""
        )
        if waiting and waiting != self._waiting:
            self._say(waiting)
        self._waiting = waiting
        steps, before = dict[str, list[str]](), self._standing()
        for picture, act in taken.photos:
            if recorded_as(self._desk.file.meant, act.hash, undone=True) is None:
                self._record(picture, act, steps, before)

    def _record(self, picture: Picture, act: PhotoAct, steps: dict[str, list[str]], before: str) -> None:
        """Hand it over to be recorded; said with those that came with it into the same step."""
        desk, now = self._desk, self._desk.screen.session.now()
        at = taken_at(desk.file.meant, picture, now)
        step = desk.at.step_at(at or now)
        names = steps.setdefault(step, [])
        names.append(picture.path.name)

        def told(what: Told) -> None:
            said = what.of(arrived_words(desk.job, step, names))
            self._say(f"{before} {said}".strip(), what.kept or bool(before))

        refused = desk.record(step, lambda made: made.add(act), at=at, then=told)
        if refused is not None:
            self._say(f"{picture.path.name} isn't recorded: {refused}.")

    def _standing(self) -> str:
        """What was said on the page in sight and must stay there, but for what is on its way."""
        top = self._desk.screen.app.screen
        stays = isinstance(top, PageScreen) and top.entry.stays and not self._desk.file.on_the_way
        return top.entry.last if stays and isinstance(top, PageScreen) else ""

    def _say(self, text: str, stays: bool = False) -> None:
        """On the page in sight, and on the step below it; nothing that is typed is touched."""
        top = self._desk.screen.app.screen
        if isinstance(top, PageScreen) and top is not self._desk.screen:
            top.entry.tell(text, stays)
        self._desk.tell(text, stays)
