"""What every screen reaches through its app: the bench, and the ways to the other screens."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from textual.app import App

from jobtrack.app.session import Bench

if TYPE_CHECKING:
    from textual.binding import Binding

    from jobtrack.app.reckoner_place import Place, Reckoned
    from jobtrack.pages.reckoner.list import Pick
    from jobtrack.store.file.writer import JobFile
    from jobtrack.store.machine.jobs_folder import TemplateFile
    from jobtrack.workings.answers import Answer

    TakesResult = Callable[[Reckoned | None], None]


class Opening(Protocol):
    """Opens the screens at once, so that keys typed ahead find the screen that they are meant for."""

    def file(self, path: Path) -> str | None:
        """Open a job file; why it can't be, in one line, or None where it is open."""

    def job(self, file: JobFile) -> None:
        """The screens of an open job: its step, and over it a handover that waits to be taken over."""

    def jobs(self) -> None:
        """Back to the jobs of the folder, or to them for the first time."""

    def begin(self, template: TemplateFile) -> None:
        """The questions with which a job begins."""

    def outline(self, file: JobFile, step: str, then: Callable[[str | None], None]) -> None:
        """Stages and steps; `then` gets the step that was chosen."""

    def job_page(self, file: JobFile) -> None:
        """All that holds for the whole job."""

    def end(self, file: JobFile) -> None:
        """Closing or stopping a job."""

    def hand_over(self, file: JobFile) -> None:
        """Handing a job over."""

    def choose(self, title: str, texts: Sequence[str], then: Callable[[int], None]) -> None:
        """One of several texts; `then` gets its number, and isn't called where none was chosen."""

    def reckoner(self, place: Place, then: TakesResult) -> None:
        """The list of workings-out."""

    def working(self, place: Place, pick: Pick, typed: dict[str, str], then: TakesResult) -> None:
        """One working-out with what was typed for it."""

    def answer(self, place: Place, pick: Pick, found: Answer, then: TakesResult) -> None:
        """The answer of a working-out."""

    def all_keys(self, keys: Sequence[Binding]) -> None:
        """What every key does."""

    def rest(self, said: str) -> None:
        """What was said last, whole."""


class BenchApp(App[int]):
    """An app with a bench, from which screens can be opened."""

    bench: Bench
    opening: Opening
