"""The app, opened from the command line: on the jobs folder, or on one job."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.app.main import run, run_job
from jobtrack.cli.saying import say
from jobtrack.store.machine.jobs_folder import jobs_folder


def on_one_job(options: argparse.Namespace) -> int:
    """The app on a job file, or on the job of that name in the jobs folder."""
    if Path(options.jobfile).exists():
        return run_job(Path(options.jobfile), options.by)
    return run_job(_folder(options) / options.jobfile, options.by)


def on_folder(options: argparse.Namespace) -> int:
    """The app on the jobs folder."""
    return run(_folder(options), options.by)


def _folder(options: argparse.Namespace) -> Path:
    folder, samples = jobs_folder(Path(options.folder) if options.folder else None)
    if samples:
        say(f"First use: copies of {len(samples)} sample jobs were put into {folder}")
    return folder
