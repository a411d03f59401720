"""`job-card`: the card for the bench, empty or filled in so far."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.cli.on_paper.writing import place, shown, write
from jobtrack.cli.saying import DONE, say
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now


def job_card(options: argparse.Namespace) -> int:
    """Write the card; nothing is recorded."""
    from jobtrack.sheets.job_card.sheet import job_card as card

    out = place(options.out, ENDINGS)
    job = JobFile(Path(options.jobfile)).job
    sheet = card(job, shown(options, job), now.local_now(), options.empty)
    if out is not None:
        write(out, written(sheet, out.suffix))
    say(f"The job card is {out}")
    return DONE
