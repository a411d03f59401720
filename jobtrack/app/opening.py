"""Which screen is opened how: the one module that knows them all. Each is imported when it is first opened."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.binding import Binding

from jobtrack.app.disk.open_job import Found, OpenJob
from jobtrack.app.host import SessionApp
from jobtrack.app.reckoner_place import Reckoned, ReckonerPlace
from jobtrack.pages.job.last_line import where_to_open
from jobtrack.pages.job.list import waiting_handover
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.rescue import set_reserve_aside

if TYPE_CHECKING:
    from jobtrack.pages.look_up.find import Offer, Row
    from jobtrack.pages.reckoner.list import Pick
    from jobtrack.pages.step.items import Item
    from jobtrack.store.file.rehearsed import Rehearsed
    from jobtrack.store.machine.template_folders import TemplateFile
    from jobtrack.template.plan import PlannedStep
    from jobtrack.workings.answers import Answer

TakesResult = Callable[[Reckoned | None], None]


class Screens:
    """Opens the screens of an app."""

    def __init__(self, app: SessionApp) -> None:
        self.app = app

    # Jobs

    def job(self, file: JobFile, found: Found, told: str = "") -> None:
        """The screens of an open job: its step, and over it a handover that waits to be taken over."""
        self.app.files.append(file)
        self._show(file, found, told)

    def _show(self, file: JobFile, found: Found, told: str = "") -> None:
        disk = self.app.disk()
        opened = OpenJob(file, found, self.app, disk)
        if opened.on_disk:
            self.app.call_after_refresh(disk.do, set_reserve_aside, lambda _: None)
        self.app.session.look_at(file.job)
        step = where_to_open(file.job)
        if step is None:
            from jobtrack.app.screens.job.outline import OutlineScreen

            self.app.push_screen(OutlineScreen(opened, None))
            return
        from jobtrack.app.screens.step.step import StepScreen

        self.app.push_screen(StepScreen(opened, step, told))
        if waiting_handover(file.job) is not None and file.job.ended is None:
            self.take_over(opened)

    def jobs(self) -> None:
        """Back to the jobs of the folder, also where the app was begun in one of them; not from a rehearsal alone."""
        from jobtrack.app.screens.jobs import JobsScreen

        if self.app.apart is not None and not any(
            isinstance(one, JobsScreen) for one in self.app.screen_stack
        ):
            self.app.exit(0)
            return
        while len(self.app.screen_stack) > 2 and not isinstance(self.app.screen, JobsScreen):
            self.app.pop_screen()
        if isinstance(self.app.screen, JobsScreen):
            return
        if len(self.app.screen_stack) > 1:
            self.app.switch_screen(JobsScreen())
        else:
            self.app.push_screen(JobsScreen())

    def walk(self) -> None:
        """What the first walk is, before it is begun."""
        from jobtrack.app.screens.walk import WalkScreen

        self.app.push_screen(WalkScreen())

    def walk_in(self, file: JobFile, found: Found) -> None:
        """The first walk, in a copy that is nobody's."""
        from jobtrack.app.walk import Walk

        self.app.apart = Walk(file)
        self._show(file, found)

    def rehearsal(self, file: Rehearsed, found: Found, remarks: int) -> None:
        """A template walked on an invented job; `remarks`: how many there are on it."""
        from jobtrack.app.rehearsal import Rehearsal, begun_words

        self.app.apart = Rehearsal(self.app.session)
        self._show(file, found, begun_words(file.job.about.title, remarks))

    def begin(self, template: TemplateFile) -> None:
        """The questions with which a job begins."""
        from jobtrack.app.screens.begin import BeginScreen

        self.app.push_screen(BeginScreen(template))

    # In a job

    def outline(self, file: OpenJob, step: str, then: Callable[[str | None], None]) -> None:
        """Stages and steps; `then` gets the step that was chosen."""
        from jobtrack.app.screens.job.outline import OutlineScreen

        self.app.push_screen(OutlineScreen(file, step), then)

    def find(
        self, file: OpenJob, step: str, offers: Sequence[Offer], then: Callable[[Row | None], None]
    ) -> None:
        """Everything that can be found; `then` gets the row that was chosen."""
        from jobtrack.app.screens.look_up.find import FindScreen

        self.app.push_screen(FindScreen(file, step, offers), then)

    def what_now(self, file: OpenJob, then: Callable[[str | None], None]) -> None:
        """What can be done now; `then` gets the step that was chosen."""
        from jobtrack.app.screens.look_up.what_now import WhatNowScreen

        self.app.push_screen(WhatNowScreen(file), then)

    def labour_hours(self, file: OpenJob) -> None:
        """The labour hours of the job."""
        from jobtrack.app.screens.look_up.hours import HoursScreen

        self.app.push_screen(HoursScreen(file))

    def job_page(self, file: OpenJob) -> None:
        """All that holds for the whole job."""
        from jobtrack.app.screens.job.job_page import JobPage

        self.app.push_screen(JobPage(file))

    def known(self, file: OpenJob) -> None:
        """What is known of the vehicles and of the job."""
        from jobtrack.app.screens.job.known import KnownScreen

        self.app.push_screen(KnownScreen(file))

    def parts(self, file: OpenJob, step: str | None, part: str | None = None) -> None:
        """Parts of the step and of the job, and tools; `part`: the one that is marked."""
        from jobtrack.app.screens.job.parts import PartsScreen

        self.app.push_screen(PartsScreen(file, step, part))

    def to_buy(self, file: OpenJob) -> None:
        """What is missing or on its way, as a list to buy with."""
        from jobtrack.app.screens.job.to_buy import ToBuyScreen

        self.app.push_screen(ToBuyScreen(file))

    def drawings(self, file: OpenJob, step: str, chosen: Item | None) -> None:
        """The pictures of a step, that of the chosen line first."""
        from jobtrack.app.screens.step.drawings import DrawingsScreen

        self.app.push_screen(DrawingsScreen(file, step, chosen))

    def end(self, file: OpenJob) -> None:
        """Closing or stopping a job."""
        from jobtrack.app.screens.job.end import EndScreen

        self.app.push_screen(EndScreen(file))

    def next_version(self, file: OpenJob) -> None:
        """What a job that has ended would change in its template."""
        from jobtrack.app.screens.job.next_version import NextVersionScreen

        self.app.push_screen(NextVersionScreen(file))

    def take_over(self, file: OpenJob) -> None:
        """Taking a job over."""
        from jobtrack.app.screens.job.take_over import TakeOverScreen

        self.app.push_screen(TakeOverScreen(file))

    def hand_over(self, file: OpenJob) -> None:
        """Handing a job over."""
        from jobtrack.app.screens.job.handover import HandoverScreen

        self.app.push_screen(HandoverScreen(file))

    def vehicle_record(self, file: OpenJob, vehicle: str) -> None:
        """What will stand on a vehicle's record, before it is written."""
        from jobtrack.app.screens.job.vehicle_record import VehicleRecordScreen

        self.app.push_screen(VehicleRecordScreen(file, vehicle))

    def surprise(self, file: OpenJob, planned: PlannedStep, then: Callable[[str], None]) -> None:
        """What somebody met in a step; `then` gets what was said of what was recorded."""
        from jobtrack.app.screens.step.surprise import SurpriseScreen

        def back(told: str | None) -> None:
            then(told or "")

        self.app.push_screen(SurpriseScreen(file, planned), back)

    def look_again(self, file: OpenJob) -> None:
        """All steps that are to be looked at again."""
        from jobtrack.app.screens.job.look_again import LookAgainScreen

        self.app.push_screen(LookAgainScreen(file))

    # The reckoner

    def reckoner(self, place: ReckonerPlace, then: TakesResult) -> None:
        """The list of workings-out."""
        from jobtrack.app.screens.reckoner.choosing import ReckonerScreen

        self.app.push_screen(ReckonerScreen(place), then)

    def working(self, place: ReckonerPlace, pick: Pick, typed: dict[str, str], then: TakesResult) -> None:
        """One working-out with what was typed for it."""
        from jobtrack.app.screens.reckoner.working import WorkingScreen

        self.app.push_screen(WorkingScreen(place, pick, typed), then)

    def answer(self, place: ReckonerPlace, pick: Pick, found: Answer, then: TakesResult) -> None:
        """The answer of a working-out."""
        from jobtrack.app.screens.reckoner.answer import AnswerScreen

        self.app.push_screen(AnswerScreen(place, pick, found), then)

    # Pages over any other

    def choose(self, title: str, texts: Sequence[str], then: Callable[[int], None]) -> None:
        """One of several texts; `then` gets its number, and isn't called where none was chosen."""
        from jobtrack.app.screens.choose import ChooseScreen

        def chosen(number: int | None) -> None:
            if number is not None:
                then(number)

        self.app.push_screen(ChooseScreen(title, texts), chosen)

    def all_keys(self, help: str, keys: Sequence[Binding]) -> None:
        """What a page is for, and what every key does on it."""
        from jobtrack.app.screens.key_page import KeysScreen

        self.app.push_screen(KeysScreen(help, keys))

    def rest(self, said: str) -> None:
        """What was said last, whole."""
        from jobtrack.app.screens.key_page import RestScreen

        self.app.push_screen(RestScreen(said))
