"""`show --wheel-tag`: the paper for the steering wheel."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.cli.on_paper.writing import place, write
from jobtrack.cli.saying import DONE, say, typed_name
from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.tag.sheet import NO_TAG, tag_sheet
from jobtrack.sheets.words.about_file import file_lines
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now


def wheel_tag(options: argparse.Namespace) -> int:
    """Write the paper; none where no tag is due, which could be taken for an all-clear."""
    out = place(options.wheel_tag, (".html",))
    assert out is not None  # asked for, or `show` does something else
    file, by = JobFile(Path(options.jobfile)), options.by
    last = [entry.by for entry in file.job.view.entries[-1:]]
    left_by = typed_name("--by", by) if by is not None else next(iter(last), None)
    sheet = tag_sheet(file.job, left_by, now.local_now())
    if sheet is not None:
        write(out, written(sheet, out.suffix))
    say(NO_TAG if sheet is None else f"The tag is {out}")
    for line in file_lines(file):
        say(f"! {line}")
    return DONE
