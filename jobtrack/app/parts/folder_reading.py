"""The jobs of a folder and the templates, read by a thread, one file after the other, and handed on as they come."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from jobtrack.app.disk.thread import Disk
from jobtrack.app.screens.base import PageScreen
from jobtrack.store.machine.jobs_folder import Found, in_order, job_paths, opened
from jobtrack.store.machine.template_folders import Shelf, shelf

SHOW_EVERY = 0.1
"""Seconds between two times that what was read so far is handed on."""

Came = Callable[[list[Found]], None]
Read = Callable[[list[Found], Shelf], None]


class FolderReading:
    """Reads a folder again and again, whenever it is asked to; never twice at once."""

    def __init__(self, screen: PageScreen, came: Came, read: Read) -> None:
        """`came` gets what has been read so far, `read` all of it and the templates."""
        self._screen = screen
        self._came = came
        self._read = read
        self._disk: Disk | None = None
        self._folder = Path()
        self._found: list[Found] = []
        self._showing_soon = False
        self._then: Callable[[], None] | None = None

    def begin(self, folder: Path) -> None:
        """Read the folder."""
        if self._disk is None:
            self._disk, self._found = self._screen.app.disk(), []
            self._folder = folder
            self._disk.do(lambda: job_paths(folder), self._next)

    def then(self, do: Callable[[], None]) -> None:
        """Do this once, when all is read."""
        self._then = do

    def _next(self, paths: Sequence[Path]) -> None:
        """Ask for one file at a time: when the app ends, the rest isn't waited for."""
        if self._disk is None:
            return
        if not paths:
            folder = self._folder
            self._disk.do(lambda: shelf(folder), self._all)
            return

        def came(one: Found) -> None:
            self._found.append(one)
            self._show_soon()
            self._next(paths[1:])

        self._disk.do(lambda: opened(paths[0]), came)

    def _show_soon(self) -> None:
        if not self._showing_soon:
            self._showing_soon = True
            self._screen.set_timer(SHOW_EVERY, self._show)

    def _show(self) -> None:
        self._showing_soon = False
        if self._disk is not None:
            self._came(in_order(self._found))

    def _all(self, found: Shelf) -> None:
        if self._disk is not None:
            self._disk.finish()
        self._disk = None
        self._read(in_order(self._found), found)
        then, self._then = self._then, None
        if then is not None:
            then()
