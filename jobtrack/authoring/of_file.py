"""The next version of a template, from a job file; or why there is none."""

from __future__ import annotations

from jobtrack.authoring.next_version import NextVersion, next_version
from jobtrack.schema.problem import MISTAKE, dotted
from jobtrack.store.file.reader import ReadFile
from jobtrack.template.proofread import problems


class NoNextVersion(ValueError):
    """Why no version can be made: one line, which doesn't name the file."""


def version_of(file: ReadFile) -> NextVersion:
    """What the job makes of its template. Raises NoNextVersion, JobFileError."""
    if file.job.ended is None:
        raise NoNextVersion(
            "the job hasn't ended; close it or stop it, then make its template's next version"
        )
    if not file.header.sound:
        raise NoNextVersion("its header was changed, and the template in it; take it from a copy of the file")
    made = next_version(file.job, file.template_data())
    if file.job.damage:
        made.left_out.append("what the entries hold that can't be read")
    if not made.changes:
        why = "".join(f" Left out: {one}." for one in made.left_out)
        raise NoNextVersion(f"no step, time, part or check is new in this job, so nothing is written.{why}")
    _refuse_mistakes(made)
    return made


def _refuse_mistakes(made: NextVersion) -> None:
    mistakes = [one for one in problems(made.data) if one.kind == MISTAKE]
    if mistakes:
        first = f"{dotted(mistakes[0].key)}: {mistakes[0].why}"
        raise NoNextVersion(
            f"the new version would hold a mistake, so it isn't written: {first}. {mistakes[0].mend}"
        )
