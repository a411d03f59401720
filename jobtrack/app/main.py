"""The app: thin. It holds the session, opens the first screen, and ends cleanly."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from collections.abc import Sequence
from pathlib import Path

from textual.filter import LineFilter

from jobtrack.app.disk.open_job import first_look
from jobtrack.app.host import SessionApp
from jobtrack.app.looks.few_colours import MANY, NONE, FewColours, colours
from jobtrack.app.looks.outliving import OutlivesTerminal
from jobtrack.app.looks.theme import THEMES, after
from jobtrack.app.opening import Screens
from jobtrack.app.session import METRIC, Session
from jobtrack.literal import visible
from jobtrack.pages import own_keys
from jobtrack.sheets.words.about_file import waiting_lines
from jobtrack.store.file.rehearsed import Rehearsed
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.now import local_now
from jobtrack.store.machine.settings import LOOKS, Settings, settings_file

PAPER = LOOKS[0]
NONE_SET = Settings()
NOT_RECORDED = 3
"""The exit status where something waits to be recorded, as that of `record`."""


class JobApp(SessionApp):
    """The jobs of a folder, or one job."""

    CSS_PATH = "styles.tcss"
    ENABLE_COMMAND_PALETTE = False

    def __init__(
        self,
        folder: Path,
        by: str | None = None,
        file: JobFile | None = None,
        settings: Settings = NONE_SET,
        first: bool = False,
        remarks: int = 0,
    ) -> None:
        """`first`: it is the first start here, and begins with what the first walk is.

        `remarks`: how many there are on the template that is rehearsed.
        """
        self.colours = colours(os.environ)
        self._few_colours = FewColours(self.colours)
        super().__init__()
        own_keys.go_by(settings.keys)
        self.set_keymap({action: _for_textual(key) for action, key in settings.keys.items()})
        who = " ".join(by.split()) if by and by.strip() else None
        self.session = Session(
            folder,
            who,
            units=settings.units or METRIC,
            units_set=settings.units is not None,
            motion=settings.motion,
            bell=settings.bell,
        )
        self.opening = Screens(self)
        self.file = file
        self.first = first
        self.remarks = remarks
        if settings.photos is not None:
            self._watch(Path(settings.photos).expanduser())
        for theme in THEMES.values():
            self.register_theme(theme)
        self.theme = settings.looks or PAPER
        self.animation_level = self.animation_level if settings.motion else "none"

    def _watch(self, folder: Path) -> None:
        """From now on; what was written earlier goes nowhere by itself."""
        from jobtrack.app.disk.watching import Watching
        from jobtrack.store.machine.watched import WatchedFolder

        self.watching = Watching(WatchedFolder(folder, self.session.now().timestamp()), self.disk())

    def on_mount(self) -> None:
        """Open the first screen: the job, or the jobs of the folder."""
        self._end_on_signals()
        if isinstance(self.file, Rehearsed):
            self.opening.rehearsal(self.file, first_look(self.file), self.remarks)
        elif self.file is not None:
            self.opening.job(self.file, first_look(self.file))
        else:
            self.opening.jobs()
            if self.first:
                self.opening.walk()

    def get_line_filters(self) -> Sequence[LineFilter]:
        """What stands between the look's own colours and a terminal that has fewer."""
        if self.colours == MANY or (self.is_headless and self.colours != NONE):
            return super().get_line_filters()
        return [self._few_colours]

    def next_look(self) -> str:
        """Change to the next look; says which it is by now."""
        self.theme = after(self.theme)
        if self.colours == NONE:
            return f"Looks: {self.theme}. Colours are off here, so every look is the same."
        always = f'looks = "{self.theme}" in {settings_file()}'
        return f"Looks: {self.theme}, until the program ends. For every time: {always}."

    def _end_on_signals(self) -> None:
        """A request to end, or a closed terminal, ends the app as q does; all is on the disk already."""
        if os.name != "posix":
            return
        loop = asyncio.get_running_loop()
        for number in (signal.SIGTERM, signal.SIGHUP):
            try:
                loop.add_signal_handler(number, self.exit, 128 + number, 128 + number)
            except (RuntimeError, ValueError):
                return  # not the main thread: whoever runs the app there handles signals

    def _fatal_error(self) -> None:
        """A crash shows where it happened, without the values: they hold what people recorded."""
        from rich.segment import Segments
        from rich.text import Text

        told = Text(told_of_crash(self._exception) if self._exception else "")
        self._exit_renderables.append(Segments(self.console.render(told, self.console.options)))
        self._close_messages_no_wait()


def told_of_crash(error: BaseException) -> str:
    """What the terminal shows after a crash; the same is kept in a file."""
    from jobtrack.store.machine.crash import crash_report, keep_crash

    at = local_now()
    report = crash_report(error, at)
    try:
        kept = f"This report is sent nowhere; it is kept in\n{keep_crash(report, at)}"
    except OSError as trouble:
        kept = f"This report couldn't be kept in a file: {trouble.strerror}."
    return f"{report}\nWhat was said to be recorded is in its job file. {kept}\n"


def _for_textual(key: str) -> str:
    """A key as Textual's own maps of keys have it, where a comma stands between several."""
    return "comma" if key == "," else key


def run(folder: Path, by: str | None, settings: Settings = NONE_SET, first: bool = False) -> int:
    """The app on a folder of jobs; the exit code. `first`: it was never started here before."""
    return _run(JobApp(folder, by, settings=settings, first=first))


def run_job(path: Path, by: str | None, settings: Settings = NONE_SET) -> int:
    """The app on one job file; the exit code. Raises JobFileError where it can't be opened."""
    return _run(JobApp(path.parent, by, JobFile(path), settings))


def run_rehearsal(file: Rehearsed, remarks: int, settings: Settings = NONE_SET) -> int:
    """The app on an invented job that is on no disk; the exit code. `remarks`: how many there are on its template."""
    return _run(JobApp(Path(), None, file, settings, remarks=remarks))


def _run(app: JobApp) -> int:
    if sys.__stderr__ is not None and not isinstance(
        sys.__stderr__, OutlivesTerminal
    ):  # on which Textual paints
        sys.__stderr__ = OutlivesTerminal(sys.__stderr__)  # type: ignore[misc, assignment]
    app.run()
    waiting = {text: None for file in app.files for text in waiting_lines(file)}
    for text in waiting:
        print(visible(text), file=sys.stderr)
    return app.return_code or (NOT_RECORDED if waiting else 0)
