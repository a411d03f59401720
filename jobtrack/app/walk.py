"""The first walk as it is being taken: how far somebody is in it."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.pages.own_keys import named
from jobtrack.pages.walk import Stage, stages, strip_words
from jobtrack.store.file.writer import JobFile


class Walk:
    """Goes on when what it asks for has been done, by the keys of the app and in a job that is nobody's."""

    def __init__(self, file: JobFile) -> None:
        self.file = file
        self.stages = stages()
        self.at = 0
        """Which of its things is at hand; behind the last one the walk is done."""
        self.there = False
        """Whether the page that it asks for has been opened, and somebody isn't back yet."""
        self._began = len(file.job.view.entries)
        self._opened: set[str] = set()

    @property
    def job(self) -> Job:
        """The job as far as it is recorded."""
        return self.file.job

    def did(self, action: str) -> None:
        """A key has run an action."""
        self._opened.add(action)

    def look(self, at_step: bool, busy: bool) -> str:
        """Go on as far as things are done; what the row above the keys says.

        `at_step`: whether a step is in sight; `busy`: whether something is asked there.
        """
        while self.at < len(self.stages) and self._done(self.stages[self.at], at_step):
            self.at += 1
        wanted = self.stages[self.at].opens if self.at < len(self.stages) else ""
        self.there = not at_step and wanted in self._opened
        return strip_words(self.at, self.there, busy)

    def over(self) -> str:
        """It is left; how it is begun again."""
        return f"The walk is over, its copy thrown away; {named('w', 'walk')} begins it again."

    def _done(self, stage: Stage, at_step: bool) -> bool:
        if stage.records is None:
            return at_step and stage.opens in self._opened
        new = self.job.view.entries[self._began :]
        return any(isinstance(act, stage.records) for entry in new for act in entry.did)
