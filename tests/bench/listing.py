"""Listing a folder of small jobs beside reading and parsing their bytes: `python tests/bench/listing.py [JOBS]`.

All in one run, on jobs of one entry each, begun from the shipped template: the list of jobs as the app words
it, the hours, and as the measure tomli, compiled, on the same files. Each is done once to warm up the disk's
cache and what the program keeps, then timed; `first` is the first time in this process.
"""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import tomli

from jobtrack.hours.labour import labour
from jobtrack.job.acts.entry import Entry
from jobtrack.job.compose.draft import new_id
from jobtrack.pages.job.list import job_words
from jobtrack.store.file.beginning import first_acts
from jobtrack.store.file.writer import create
from jobtrack.store.machine import now
from jobtrack.store.machine.jobs_folder import ENDING, in_order, job_paths, opened, shipped
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.writing import write_entry, write_header
from jobtrack.template.load import parse

JOBS = 1000


def make(folder: Path, jobs: int) -> None:
    """Small jobs of one template, each with its first entry."""
    data, _ = parse(max(shipped("job_templates").glob("*.toml"), key=lambda one: one.stat().st_size))
    empty = create(folder / f"first{ENDING}", "first", "First", data)
    draft = first_acts(empty.job, (), "Wim", now.local_now())
    did = draft.done()
    empty.path.unlink()
    for number in range(jobs):
        head = write_header({"id": f"job-{number}", "title": f"Job {number}"}, data)
        header = scan(head).header
        assert header is not None
        entry = Entry(new_id(), 1, draft.at, "Wim", did, (header.hash,))
        (folder / f"job-{number:04}{ENDING}").write_bytes(head + write_entry(entry)[0])


def parsed(folder: Path) -> None:
    """The measure: each file read and parsed, and nothing else."""
    for path in folder.glob(f"*{ENDING}"):
        tomli.loads(path.read_bytes().decode())


def listed(folder: Path) -> None:
    """What the app's first screen says of a folder."""
    for one in in_order(map(opened, job_paths(folder))):
        job_words(one)


def summed(folder: Path) -> None:
    """The hours of a folder."""
    labour([one.file.job for one in map(opened, job_paths(folder)) if one.file], "step")


def timed(work: Callable[[Path], None], folder: Path) -> float:
    """Seconds."""
    begun = perf_counter()
    work(folder)
    return perf_counter() - begun


def main(jobs: int) -> None:
    """Print the ratios."""
    with tempfile.TemporaryDirectory() as name:
        os.environ["XDG_STATE_HOME"] = f"{name}/state"
        folder = Path(name) / "jobs"
        folder.mkdir()
        make(folder, jobs)
        parsed(folder)
        measure = timed(parsed, folder)
        size = sum(one.stat().st_size for one in folder.iterdir()) / jobs / 1024
        print(
            f"{jobs} jobs of {size:.0f} KiB; read and parsed by tomli: {measure / jobs * 1000:.2f} ms a job"
        )
        for what, work in (("listed", listed), ("hours", summed)):
            for when in ("first", "again"):
                took = timed(work, folder)
                print(
                    f"{what}, {when}: {took / jobs * 1000:.2f} ms a job, {took / measure:.1f} times as long"
                )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else JOBS)
