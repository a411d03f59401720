"""Opening a job file: at the step on which somebody was, or at a handover that waits."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from textual.app import App

from jobtrack.pages.job.last_line import where_to_open
from jobtrack.pages.job.list import waiting_handover
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.rescue import set_reserve_aside


def open_job(app: App[Any], path: Path) -> str | None:
    """Open a job; why it can't be, in one line, or None where it is open."""
    try:
        file = JobFile(path)
    except JobFileError as error:
        return str(error)
    show_job(app, file)
    return None


def show_job(app: App[Any], file: JobFile) -> None:
    """The screens of an open job: its step, and over it a handover that waits to be taken over."""
    app.call_after_refresh(set_reserve_aside)
    step = where_to_open(file.job)
    if step is None:
        from jobtrack.app.screens.job.outline import OutlineScreen

        app.push_screen(OutlineScreen(file, None))
        return
    from jobtrack.app.screens.job.step import StepScreen

    app.push_screen(StepScreen(file, step))
    if waiting_handover(file.job) is not None and file.job.ended is None:
        from jobtrack.app.screens.job.handover import TakeOverScreen

        app.push_screen(TakeOverScreen(file))
