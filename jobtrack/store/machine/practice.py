"""Copies of a sample job to try things on, in a folder of their own, and thrown away together."""

from __future__ import annotations

import tomllib
from pathlib import Path
from tempfile import TemporaryDirectory

from jobtrack.job.acts.base import replace
from jobtrack.job.acts.people import HandoverAct
from jobtrack.job.compose.draft import new_id
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import last_seen
from jobtrack.store.machine.jobs_folder import ENDING, shipped
from jobtrack.store.text.blocks import Scan, scan
from jobtrack.store.text.writing import write_entry, write_header

SAMPLE = f"axle-exchange-half-done{ENDING}"


class Practice:
    """Half-done jobs that are nobody's. Each is a job of its own, so that no copy is missed in another."""

    def __init__(self) -> None:
        self._folder: TemporaryDirectory[str] | None = None
        self._headers: list[str] = []

    def begin(self) -> JobFile:
        """One more copy of the sample, as it stood before its last step was begun. Raises JobFileError."""
        try:
            whole = scan((shipped("sample_jobs") / SAMPLE).read_bytes())
            self._folder = self._folder or TemporaryDirectory(prefix="jobtrack-")
            path = Path(self._folder.name) / f"{new_id()}{ENDING}"
            path.write_bytes(_copied(whole))
        except OSError as error:
            raise JobFileError(f"no copy of {SAMPLE} can be made: {error.strerror or error}") from error
        file = JobFile(path)
        self._headers.append(file.header.hash)
        return file

    def throw_away(self) -> None:
        """Take all copies away, and what this machine remembers of them."""
        for header in self._headers:
            last_seen.forget(header)
        if self._folder is not None:
            self._folder.cleanup()
        self._headers, self._folder = [], None


def _copied(whole: Scan) -> bytes:
    """The sample's template and entries as another job, without its last step and its handover.

    So nothing is measured twice in it, and nobody has to take it over.
    """
    if whole.header is None:
        raise JobFileError(f"{SAMPLE}: holds no header; install the program anew")
    table = tomllib.loads(whole.header.data.decode())
    data = write_header({"id": new_id(), "title": table["job"]["title"]}, table["template"])
    header = scan(data).header
    follows = header.hash if header is not None else ""
    last = next((entry.step for entry in reversed(whole.entries) if entry.step is not None), None)
    for entry in whole.entries:
        if entry.step != last and not any(isinstance(act, HandoverAct) for act in entry.did):
            block, follows = write_entry(replace(entry, follows=(follows,)))
            data += block
    return data
