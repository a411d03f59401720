"""The app, opened from the command line: on the jobs folder, or on one job."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.app.main import run, run_job
from jobtrack.app.own_keys import usable
from jobtrack.cli.saying import complain, say
from jobtrack.store.machine.jobs_folder import jobs_folder
from jobtrack.store.machine.settings import Settings, read_settings


def on_one_job(options: argparse.Namespace) -> int:
    """The app on a job file, or on the job of that name in the jobs folder."""
    settings = own_settings()
    path = Path(options.jobfile)
    if not path.exists():
        path = _folder(options, settings)[0] / path
    return run_job(path, options.by or settings.by, settings)


def on_folder(options: argparse.Namespace) -> int:
    """The app on the jobs folder."""
    settings = own_settings()
    folder, first = _folder(options, settings)
    return run(folder, options.by or settings.by, settings, first)


def own_settings() -> Settings:
    """The user's settings; a mistake in them is said on a line of its own, and stops nothing."""
    settings, mistakes = usable(read_settings())
    for mistake in mistakes:
        complain(mistake)
    return settings


def _folder(options: argparse.Namespace, settings: Settings) -> tuple[Path, bool]:
    """The folder of the jobs, and whether the samples were put there just now: it is the first start."""
    folder, samples = jobs_folder(Path(options.folder) if options.folder else None, settings.folder)
    if samples:
        say(f"First use: copies of {len(samples)} sample jobs were put into {folder}")
    return folder, bool(samples)
