"""What every command that writes a sheet does: where it may go, in which units, and that it comes before the entry."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path

from jobtrack.cli.saying import BadInput, complain
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.spoken import spoken_by
from jobtrack.store.file import disk
from jobtrack.store.machine.settings import UNITS, read_settings
from jobtrack.units.chosen import Chosen


def add_units(one: argparse.ArgumentParser) -> None:
    """The option `--units`."""
    one.add_argument("--units", choices=UNITS, help="say figures in these first; what was typed stays beside")


def shown(options: argparse.Namespace, job: Job) -> Chosen:
    """The unit system of a sheet: as the option says, else the user's settings, else the job's template.

    A mistake in the settings is said on a line of its own, and stops nothing.
    """
    if options.units:
        return Chosen(options.units)
    found = read_settings()
    for mistake in found.mistakes:
        complain(mistake)
    return Chosen(found.settings.units or spoken_by(job))


def place(out: str | None, endings: Sequence[str]) -> Path | None:
    """Where a sheet goes; None: nothing was said. Raises BadInput: no such ending, there already, no such folder."""
    if out is None:
        return None
    path = Path(out)
    if path.suffix not in endings:
        raise BadInput(f"{path}: no sheet is written so; name a file that ends in {' or '.join(endings)}")
    if path.exists():
        raise BadInput(f"{path}: is there already; name a file that isn't")
    if not path.parent.is_dir():
        raise BadInput(f"{path}: there is no such folder; make it first, or name another place")
    return path


def write(out: Path, sheet: bytes) -> None:
    """Write a sheet, whole or not at all, over nothing that is there. Raises BadInput."""
    try:
        disk.write_new(out, sheet)
    except FileExistsError as error:
        raise BadInput(f"{out}: is there already; name a file that isn't") from error
    except OSError as error:
        raise BadInput(
            f"{out}: can't be written: {error.strerror}; nothing was recorded, name another place"
        ) from error


def write_and_record(out: Path | None, sheet: bytes, record: Callable[[], object]) -> None:
    """The sheet comes first: where it can't be written, nothing is recorded that nobody has a sheet of.

    What is refused then takes the sheet away again. Raises BadInput, and what `record` raises.
    """
    if out is not None:
        write(out, sheet)
    try:
        record()
    except Refused:
        if out is not None:
            disk.remove(out)
        raise
