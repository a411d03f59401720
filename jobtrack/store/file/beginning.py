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
from jobtrack.store.file.rehearsed import Rehearsed
from jobtrack.store.file.writer import JobFile, create, job_text
from jobtrack.store.machine import now
from jobtrack.template.load import build, load
from jobtrack.template.plan import plan

NAME = ".name"
"""The given by which each vehicle is called."""


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
    return create(out, job_id, title, data, _first_entry(About(job_id, title, plan(read), ""), by, givens))


def rehearse(template: Path, by: str) -> Rehearsed:
    """An invented job from a template file, in memory alone. Raises TemplateError."""
    read, data = load(template)
    job_id, title = new_id(), f"Rehearsal: {read.title}"[:NAME_LIMIT]
    about = About(job_id, title, plan(read), "")
    known = [
        (name, f"invented {name.removesuffix(NAME)}")
        for name, given in about.plan.givens.items()
        if name.endswith(NAME) and given.kind == "text"
    ]
    return Rehearsed(read.id, job_text(job_id, title, data, _first_entry(about, by, known)))


def _first_entry(about: About, by: str, givens: Sequence[tuple[str, str]]) -> Entry:
    draft = first_acts(Job.fold(about, ()), givens, by, now.local_now())
    return Entry(draft.id, 1, draft.at, draft.by, draft.done(), (), "")


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
