"""Beginning a job: a file with its header, then who began it and what is known."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from jobtrack.job.about import About
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import NAME_LIMIT, Draft, new_id
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.job.state.job import Job
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, create
from jobtrack.store.machine import now
from jobtrack.template.load import build, load
from jobtrack.template.plan import plan


def begin(
    template: Path, out: Path, by: str, title: str | None, givens: Sequence[tuple[str, str]]
) -> JobFile:
    """A new job from a template file. Raises TemplateError, JobFileError, Refused, UnitError.

    The givens are read before anything is written, so that bad input leaves no file behind.
    """
    _, data = load(template)
    read = build(data)
    job_id, title = new_id(), (title or "").strip() or read.title
    if len(title) > NAME_LIMIT:  # a header that says so can't be read
        raise Refused(f"a title is at most {NAME_LIMIT} characters; shorten it")
    if out.exists():
        raise JobFileError(f"{out}: is there already; name a file that isn't")
    planned = Job.fold(About(job_id, title, plan(read), ""), ())
    draft = first_acts(planned, givens, by, now.local_now())
    first = Entry(draft.id, 1, draft.at, draft.by, draft.done(), (), "")
    return create(out, job_id, title, data, first)


def first_acts(job: Job, givens: Sequence[tuple[str, str]], by: str, at: datetime) -> Draft:
    """The first entry of a job: its givens, the defaults among them, and what must be asked first."""
    draft = Draft(job, by, at)
    typed = dict(givens)
    for name, text in typed.items():
        values.given(draft, name, text)
    for name, given in job.plan.givens.items():
        if name not in typed and given.default is not None:
            default = (
                {True: "yes", False: "no"}.get(given.default)
                if isinstance(given.default, bool)
                else given.default
            )
            values.given(draft, name, str(default))
    if job.plan.template.ask_first is not None:
        draft.add(OpensAct(ASK_FIRST))
    if not draft.did:
        draft.add(NoteAct("begun"))
    return draft
