"""A screen of the reckoner, perhaps opened over a job: that job's open conditions stay on top."""

from __future__ import annotations

from jobtrack.app.disk.open_job import Found, OpenJob
from jobtrack.app.parts.desks.desk import Desk
from jobtrack.app.parts.desks.job_desk import FOLLOW_EVERY
from jobtrack.app.reckoner_place import ReckonerPlace
from jobtrack.app.screens.base import PageScreen
from jobtrack.job.state.job import Job
from jobtrack.pages.job.conditions import MOST, tag_lines, top_lines
from jobtrack.pages.typeset import Line, wrap


class ReckonerDesk(Desk):
    """Where the reckoner was opened from, under one of its pages."""

    def __init__(self, screen: PageScreen, place: ReckonerPlace) -> None:
        self._screen = screen
        self.opened_at = place

    def start(self) -> None:
        """Where there is a job under it, look at its file from now on."""
        if self.opened_at.file is not None:
            self._screen.set_interval(FOLLOW_EVERY, self.follow)
            self.opened_at.file.grown.subscribe(self._screen, self._grown, immediate=True)

    def resumed(self) -> None:
        """Show what is open by now."""
        self._screen.draw()

    def follow(self) -> None:
        """Take in what others have added: something may have been recorded as open."""
        if self.opened_at.file is not None and self._screen.app.screen is self._screen:
            self.opened_at.file.look(self._looked)

    def _looked(self, found: Found, before: Job) -> None:
        if found.unreadable:
            self._screen.entry.say(found.unreadable)

    def _grown(self, file: OpenJob) -> None:
        if self._screen.app.screen is self._screen:
            self._screen.draw()

    def draw_frame(self, title: str) -> None:
        """Open conditions and a title on top, the keys below."""
        room = self._screen.room
        self._screen.show_part("head", [*self._open(room), *wrap(title, room, "strong")])
        self._screen.show_part("last", [])
        self._screen.show_keys()

    def _open(self, room: int) -> list[Line]:
        """What is recorded as open in the job, if there is one."""
        job, here = self.opened_at.job, self.opened_at.planned
        if job is None:
            return []
        return top_lines(job, room, MOST, here) if self._screen.tall else tag_lines(job, room, here)
