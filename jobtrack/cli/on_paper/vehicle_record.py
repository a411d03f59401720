"""`vehicle-record`: the record of one vehicle, written once somebody has seen what will stand on it."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.cli.asking import ask, tell
from jobtrack.cli.on_paper import writing
from jobtrack.cli.saying import DONE, BadInput, say
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.sheets.vehicle_record.belongs import vehicle_name, vehicles
from jobtrack.sheets.vehicle_record.list import on_the_record
from jobtrack.sheets.vehicle_record.page import Page
from jobtrack.sheets.vehicle_record.photo_files import photos_of
from jobtrack.sheets.vehicle_record.pictures import photo_names
from jobtrack.sheets.vehicle_record.sheet import vehicle_record
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now

NOT_WRITTEN = "not written: nobody said yes"


def write_record(options: argparse.Namespace) -> int:
    """Show what will stand on the record, ask, write it."""
    out = writing.place(options.out, ENDINGS)
    assert out is not None  # it is asked for
    file, including = JobFile(Path(options.jobfile)), tuple(options.including or ())
    vehicle, shown = _vehicle(file.job, options.vehicle), writing.shown(options, file.job)
    photos = photos_of(file.path, photo_names(Page(file.job, vehicle, including, shown)))
    say(f"On the record of {vehicle_name(file.job, vehicle)}:")
    for text in on_the_record(file.job, vehicle, including, photos).words():
        tell(text)
    if ask(f"Write this as {out}? Type yes, then Enter:").casefold() not in ("yes", "y"):
        raise BadInput(NOT_WRITTEN)
    sheet = vehicle_record(file.job, vehicle, including, photos, shown, now.local_now())
    writing.write(out, written(sheet, out.suffix))
    say(f"Written: {out}")
    return DONE


def _vehicle(job: Job, typed: str) -> str:
    """The vehicle by its id or the name that was typed for it. Raises BadInput."""
    known = vehicles(job.plan)
    alike = " ".join(typed.split()).casefold()
    found = [one for one in known if alike in (one, " ".join(vehicle_name(job, one).split()).casefold())]
    if typed in known:
        return typed
    if len(found) != 1:
        raise BadInput(f"{typed} is no vehicle of this job; name one of {', '.join(known)}")
    return found[0]
