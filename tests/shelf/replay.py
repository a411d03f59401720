"""Replays the value files of a shipped template and says what is missing in them or in the template.

    .venv/bin/python -m tests.shelf.replay ID [--show]

`--show` prints each job as it stands at the end, too.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from jobtrack.job.state.job import Job
from jobtrack.sheets.job_text import job_text
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.findings import as_lines
from jobtrack.template.proofread import check
from tests.shelf.at_the_end import among_all, of_one, said
from tests.shelf.value_file import ValueFile, ValueFileError, read
from tests.walk.replay import CallFailedError, begin, make

VALUES = Path(__file__).parent / "values"
SHOWN = 6
"""So many calls that failed are shown: those behind the first may have failed for its sake."""


@dataclass(frozen=True)
class Walked:
    """A value file that was replayed: the job at the end, and the calls that failed."""

    values: ValueFile
    job: Job | None
    """None: it couldn't be begun."""
    failed: tuple[str, ...]


def value_files(template: str, values: Path = VALUES) -> list[Path]:
    """The value files of a template: ID.toml and ID-WHAT.toml, but those of a template with a longer id."""
    found = sorted({*values.glob(f"{template}.toml"), *values.glob(f"{template}-*.toml")})
    return [path for path in found if read(path).template == template]


def walk(values: ValueFile, template: Path, folder: Path) -> Walked:
    """Begin the job of a value file in a folder and make all its calls, those behind a failing one too."""
    out = folder / f"{values.path.stem}.job.toml"
    try:
        begin({**values.begin, "template": str(template)}, out)
    except CallFailedError as error:
        return Walked(values, None, (f"{values.path.name}: can't be begun:\n    {error.said}",))
    failed = list(_failing(values, out))
    return Walked(values, JobFile(out).job, tuple(failed))


def _failing(values: ValueFile, out: Path) -> Iterator[str]:
    for number, row in enumerate(values.rows, start=1):
        try:
            make(row.call, out)
        except CallFailedError as error:
            where = f"{values.path.name}:{row.line}: call {number} of {len(values.rows)}"
            yield f"{where}: {row.words}\n    {error.said}"


def problems(
    template: Path, files: Sequence[Path], folder: Path, look: Callable[[Walked], None]
) -> list[str]:
    """All that is wrong with a template and its value files, a text each; `look` gets each job at its end."""
    found = [] if not (lines := check(template)) else as_lines(lines)
    walked = []
    for path in files:
        one = walk(read(path), template, folder)
        look(one)
        walked.append(one)
        found += _shown(one.failed)
        found += of_one(one.values, one.job) if one.job is not None else []
    if not files:
        found.append(f"{template.stem} has no value file; write {VALUES.name}/{template.stem}.toml")
    return found + among_all([(one.values, one.job) for one in walked if one.job is not None])


def _shown(failed: Sequence[str]) -> list[str]:
    more = len(failed) - SHOWN
    return [*failed[:SHOWN], *([f"… and {more} more calls failed"] if more > 0 else [])]


def main(arguments: Sequence[str]) -> int:
    """Replay what is asked for, print what is wrong, and give the exit status: 1 where something is."""
    names = [one for one in arguments if one != "--show"]
    known = {path.stem: path for path in sorted(shipped("job_templates").glob("*.toml"))}
    if len(names) != 1 or names[0] not in known:
        print(f"{(__doc__ or '').strip()}\n\nID is one of {', '.join(known)}.")
        return 2

    def look(one: Walked) -> None:
        if one.job is not None:
            print(job_text(one.job) if "--show" in arguments else "\n".join(said(one.values, one.job)))

    with TemporaryDirectory() as place:
        os.environ["XDG_STATE_HOME"] = place
        try:
            found = problems(known[names[0]], value_files(names[0]), Path(place), look)
        except ValueFileError as error:
            found = [str(error)]
    print("\n".join(["", *found, f"{len(found)} to mend" if found else "Nothing to mend."]))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
