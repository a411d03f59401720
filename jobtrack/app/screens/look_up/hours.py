"""The labour hours of the job, a page only to be read."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, QUIT, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.look_up.hours import hours_page
from jobtrack.pages.own_keys import named

BACK = "Back to where you were."


class HoursScreen(PageScreen):
    """By stage, step and person; in the order of the work, or the most hours first."""

    desk: JobDesk
    HELP = (
        "The labour hours recorded in this job, by stage, step and person, each on a ruled scale beside the template's "
        "estimate. {sort-hours} turns between the order of the work and the most hours first."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("s", "order or hours", "sort_hours", "In the order of the work, or the most hours first."),
        key("escape", "back", "leave", BACK),
        ALL_KEYS,
        also("b", "leave", BACK),
        QUIT,
        REST,
    ]

    def __init__(self, file: OpenJob) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.by_hours = False

    def draw(self) -> None:
        """The hours as they are recorded now."""
        self.desk.draw_frame()
        self.page.show(hours_page(self.desk.job, self.page.room, self.by_hours))

    def action_sort_hours(self) -> None:
        """The other order."""
        self.by_hours = not self.by_hours
        self.draw()
        order = "The most hours first" if self.by_hours else "In the order of the work"
        self.entry.say(f"{order}; {named('s', 'sort-hours')} turns it round.")
