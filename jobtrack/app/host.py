"""What every screen reaches through its app: the session, the disk, and the ways to the other screens."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Protocol, TypeVar

from textual import on
from textual.app import App

from jobtrack.app.disk.thread import Disk, DiskAnswered
from jobtrack.app.session import Session

if TYPE_CHECKING:
    from textual.binding import Binding

    from jobtrack.app.disk.open_job import Found, OpenJob
    from jobtrack.app.disk.watching import Watching
    from jobtrack.app.reckoner_place import Reckoned, ReckonerPlace
    from jobtrack.pages.look_up.find import Offer, Row
    from jobtrack.pages.reckoner.list import Pick
    from jobtrack.pages.step.items import Item
    from jobtrack.store.file.rehearsed import Rehearsed
    from jobtrack.store.file.writer import JobFile
    from jobtrack.store.machine.practice import Practice
    from jobtrack.store.machine.template_folders import TemplateFile
    from jobtrack.template.plan import PlannedStep
    from jobtrack.workings.answers import Answer

    TakesResult = Callable[[Reckoned | None], None]


T = TypeVar("T")


class Opening(Protocol):
    """Opens the screens at once, so that keys typed ahead find the screen that they are meant for."""

    def job(self, file: JobFile, found: Found, told: str = "") -> None:
        """The screens of an open job: its step, and over it a handover that waits to be taken over.

        `found` is what was seen of its file when it was opened, `told` what its step says was done last.
        """

    def jobs(self) -> None:
        """Back to the jobs of the folder, or to them for the first time."""

    def walk(self) -> None:
        """What the first walk is, before it is begun."""

    def walk_in(self, file: JobFile, found: Found) -> None:
        """The first walk, in a copy that is nobody's."""

    def rehearsal(self, file: Rehearsed, found: Found, remarks: int) -> None:
        """A template walked on an invented job; `remarks`: how many there are on it."""

    def begin(self, template: TemplateFile) -> None:
        """The questions with which a job begins."""

    def outline(self, file: OpenJob, step: str, then: Callable[[str | None], None]) -> None:
        """Stages and steps; `then` gets the step that was chosen."""

    def find(
        self, file: OpenJob, step: str, offers: Sequence[Offer], then: Callable[[Row | None], None]
    ) -> None:
        """Everything that can be found; `then` gets the row that was chosen."""

    def what_now(self, file: OpenJob, then: Callable[[str | None], None]) -> None:
        """What can be done now; `then` gets the step that was chosen."""

    def labour_hours(self, file: OpenJob) -> None:
        """The labour hours of the job."""

    def job_page(self, file: OpenJob) -> None:
        """All that holds for the whole job."""

    def known(self, file: OpenJob) -> None:
        """What is known of the vehicles and of the job."""

    def parts(self, file: OpenJob, step: str | None, part: str | None = None) -> None:
        """Parts of the step and of the job, and tools; `part`: the one that is marked."""

    def to_buy(self, file: OpenJob) -> None:
        """What is missing or on its way, as a list to buy with."""

    def drawings(self, file: OpenJob, step: str, chosen: Item | None) -> None:
        """The pictures of a step, that of the chosen line first."""

    def end(self, file: OpenJob) -> None:
        """Closing or stopping a job."""

    def next_version(self, file: OpenJob) -> None:
        """What a job that has ended would change in its template."""

    def take_over(self, file: OpenJob) -> None:
        """Taking a job over."""

    def hand_over(self, file: OpenJob) -> None:
        """Handing a job over."""

    def vehicle_record(self, file: OpenJob, vehicle: str) -> None:
        """What will stand on a vehicle's record, before it is written."""

    def surprise(self, file: OpenJob, planned: PlannedStep, then: Callable[[str], None]) -> None:
        """What somebody met in a step; `then` gets what was said of what was recorded."""

    def look_again(self, file: OpenJob) -> None:
        """All steps that are to be looked at again."""

    def choose(self, title: str, texts: Sequence[str], then: Callable[[int], None]) -> None:
        """One of several texts; `then` gets its number, and isn't called where none was chosen."""

    def reckoner(self, place: ReckonerPlace, then: TakesResult) -> None:
        """The list of workings-out."""

    def working(self, place: ReckonerPlace, pick: Pick, typed: dict[str, str], then: TakesResult) -> None:
        """One working-out with what was typed for it."""

    def answer(self, place: ReckonerPlace, pick: Pick, found: Answer, then: TakesResult) -> None:
        """The answer of a working-out."""

    def all_keys(self, help: str, keys: Sequence[Binding]) -> None:
        """What a page is for, and what every key does on it."""

    def rest(self, said: str) -> None:
        """What was said last, whole."""


class Apart(Protocol):
    """What is taken in a job that is nobody's: the first walk, or a rehearsal."""

    def did(self, action: str) -> None:
        """A key has run an action."""

    def look(self, at_step: bool, busy: bool) -> str:
        """What the row above the keys says. `at_step`: a step is in sight; `busy`: something is asked there."""

    def over(self) -> str:
        """It has been left: put back what was changed for it, and say so."""


class SessionApp(App[int]):
    """An app with a session, from which screens can be opened."""

    session: Session
    opening: Opening

    def __init__(self) -> None:
        super().__init__()
        self._disks: list[Disk] = []
        self.files: list[JobFile] = []
        """The job files that were open, but for those of the walk and of rehearsals."""
        self.watching: Watching | None = None
        """The folder in which pictures arrive, where the settings name one."""
        self.apart: Apart | None = None
        """The first walk or a rehearsal, while somebody takes it."""
        self._practice: Practice | None = None

    def disk(self) -> Disk:
        """One more thread for what touches the disk; when the app ends, what was asked of it is done first."""
        self._disks = [one for one in self._disks if not one.done]
        self._disks.append(Disk(self))
        return self._disks[-1]

    def next_look(self) -> str:
        """Change to the next look; says which it is by now."""
        raise NotImplementedError

    def ring(self) -> None:
        """The terminal's bell, where it is wanted: something recorded as open or held is about to be passed over."""
        if self.session.bell:
            self.bell()

    @property
    def practice(self) -> Practice:
        """Copies to try things on; when the app ends they are thrown away."""
        from jobtrack.store.machine.practice import Practice

        self._practice = self._practice or Practice()
        return self._practice

    @property
    def writing(self) -> bool:
        """Whether something that somebody has put in is on its way to the disk."""
        return any(one.writing for one in self._disks)

    def once(self, work: Callable[[], T], then: Callable[[T], None], writes: bool = False) -> None:
        """Do one thing to the disk in a thread of its own, and go on with what comes of it."""
        disk = self.disk()
        disk.do(work, then, writes)
        disk.finish()

    @property
    def at_rest(self) -> bool:
        """Whether nothing is on its way to the disk or from it."""
        return all(one.at_rest for one in self._disks)

    @on(DiskAnswered)
    def _go_on(self, event: DiskAnswered) -> None:
        event.then()

    async def on_unmount(self) -> None:
        """Wait for what is being written; then nothing of the walk is left."""
        for one in self._disks:
            await asyncio.to_thread(one.close)
        if self._practice is not None:
            self._practice.throw_away()
