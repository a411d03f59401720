"""Breaks job files and templates in many ways and reads them: `python tests/fuzz/fuzz_files.py SECONDS [SEED]`.

What is broken gets the right hash again, mostly, or it would never get past the hash. Whatever comes out
but the project's own errors, takes too long or too much memory is a finding, printed with its seed.
"""

from __future__ import annotations

import json
import random
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

from jobtrack.hours.labour import labour
from jobtrack.literal import visible
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.store.copies.intact import intact
from jobtrack.store.copies.merge import merge_files
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.template.load import TemplateError, load
from jobtrack.template.plan import plan
from jobtrack.template.proofread import as_json, as_lines, check
from tests.fuzz.fuzz_breaking import job_case, template_case
from tests.support.handed import handed

SECONDS_A_CASE = 5.0
MEMORY = 1 << 30


class TooLong(BaseException):
    """A case that took longer than it may."""


@dataclass(frozen=True)
class Finding:
    """A case that ended otherwise than it should: its seed, what came, and the bytes."""

    seed: int
    what: str
    data: bytes


def read_template(path: Path) -> None:
    """All that is done with a template file that somebody sends."""
    try:
        template, _ = load(path)
        plan(template)
    except TemplateError as error:
        _own(str(error))
    found = check(path)
    json.loads(as_json(found))
    for line in as_lines(found):
        _own(line)


def read_job(path: Path) -> None:
    """All that is done with a job file that somebody sends, but recording in it."""
    _own("\n".join(one.text(path).replace("\n", " ") for one in intact(path)), lines=True)
    try:
        file = JobFile(path)
    except JobFileError as error:
        _own(str(error))
        return
    json.dumps(job_json(file.job), allow_nan=False)
    assert "unexpected" not in visible(job_text(file.job)).lower()
    handed(file.job, "Wim", "Ada")
    for per in ("step", "stage", "person", "vehicle", "job", "template", "month"):
        labour([file.job], per)
    try:
        merge_files([path, path])
    except JobFileError as error:
        _own(str(error))


def _own(message: str, lines: bool = False) -> None:
    """A message of the project's own is one line that doesn't own up to surprise."""
    assert lines or "\n" not in message, f"several lines: {message!r}"
    assert "unexpected" not in message.lower(), message


@contextmanager
def time_limit(seconds: float) -> Iterator[None]:
    """Raise TooLong after some seconds of work; what other programs take of the machine isn't counted."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise TooLong

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def one_case(seed: int, folder: Path) -> Finding | None:
    """One broken file read; None where all is as it should be."""
    pick = random.Random(seed)
    make, read, name = ((template_case, read_template, "a.toml") if pick.random() < 0.4
                        else (job_case, read_job, "a.job.toml"))  # fmt: skip
    data = make(pick)
    path = folder / name
    path.write_bytes(data)
    try:
        with time_limit(SECONDS_A_CASE):
            read(path)
    except TooLong:
        return Finding(seed, f"took longer than {SECONDS_A_CASE} s", data)
    except Exception:  # noqa: BLE001 - whatever comes out is what is looked for
        return Finding(seed, traceback.format_exc(), data)
    return None


def main(seconds: float, seed: int) -> int:
    """Run for some seconds, print what is found; the number of findings of different kinds."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    until = time.monotonic() + seconds
    kinds: Counter[str] = Counter()
    cases = 0
    with tempfile.TemporaryDirectory() as place:
        while time.monotonic() < until:
            found = one_case(seed + cases, Path(place))
            cases += 1
            if found is not None:
                kind = " ".join(found.what.strip().splitlines()[-3:])
                kinds[kind] += 1
                if kinds[kind] == 1:
                    print(f"seed {found.seed}: {found.what}", flush=True)
    print(f"{cases} cases, seeds {seed} to {seed + cases - 1}; {len(kinds)} kinds of findings")
    for kind, count in kinds.most_common():
        print(f"{count} x {kind}")
    return len(kinds)


if __name__ == "__main__":
    sys.exit(bool(main(float(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)))
