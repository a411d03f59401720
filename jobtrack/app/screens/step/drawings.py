"""The pictures of a step, one at a time; that of the chosen line first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, QUIT, RECKONER, REST, also, key
from jobtrack.app.looks.terminal import draws_plain
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.drawings.page import Room, picture_page
from jobtrack.pages.step.items import Item
from jobtrack.sheets.drawings.of_step import StepPicture, Subject, step_pictures

BACK = "Back to the step."


class DrawingsScreen(PageScreen):
    """Only to be looked at; drawn anew when the job grows."""

    desk: JobDesk
    HELP = (
        "The pictures of the step as its readings stand now: where a reading lies, and what a working-out comes "
        "to. The arrows go from one to the next. What isn't known yet is said instead of drawn."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("escape", "back", "leave", BACK),
        key("right", "next picture", "turn(1)", "The next picture."),
        key("left", "the one before", "turn(-1)", "The picture before this one."),
        RECKONER,
        ALL_KEYS,
        also("down", "turn(1)", "The next picture."),
        also("up", "turn(-1)", "The picture before this one."),
        also("d", "leave", BACK),
        also("b", "leave", BACK),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob, step: str, chosen: Item | None) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.step = step
        self.chosen = chosen
        self.shown: Subject | None = None
        """What the picture that is shown is of; at first that of the chosen line."""

    @property
    def pictures(self) -> list[StepPicture]:
        """The pictures of the step as the job stands now."""
        job = self.desk.job
        return step_pictures(job, job.steps[self.step], self.chosen, self.session.shown)

    def draw(self) -> None:
        """The picture as the job stands now."""
        here = self.desk.job.steps[self.step]
        self.desk.draw_frame(here)
        pictures, room = self.pictures, Room(self.page.room, self.page.size.height, draws_plain())
        self.page.show(picture_page(pictures, self._at(pictures), here, room))

    def _at(self, pictures: Sequence[StepPicture]) -> int:
        return next((number for number, one in enumerate(pictures) if one.of == self.shown), 0)

    @property
    def by_height(self) -> bool:
        """As large as there is room for."""
        return True

    def action_turn(self, by: int) -> None:
        """Another picture."""
        if pictures := self.pictures:
            self.shown = pictures[(self._at(pictures) + by) % len(pictures)].of
            self.draw()
            self.page.top()
