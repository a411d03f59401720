"""The jobs of a folder: where each stands, what is recorded as open in it; and the templates."""

from __future__ import annotations

from jobtrack.job.acts.people import HandoverAct, TakenOverAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.pages.job.outline import summary
from jobtrack.pages.own_keys import named
from jobtrack.pages.wording import NO_CONDITION, counted
from jobtrack.sheets.words.about_file import file_lines
from jobtrack.sheets.words.sentences import day_and_clock, tag_or_words, worst_first
from jobtrack.sheets.words.templates import whence
from jobtrack.store.machine.jobs_folder import Found
from jobtrack.store.machine.template_folders import TemplateFile, Unread


def job_words(found: Found) -> list[str]:
    """A job's title, where it stands, and what is recorded as open; or why it can't be opened."""
    if found.file is None:
        return [found.path.name, f"Can't be opened: {found.why}"]
    job = found.file.job
    waiting = waiting_handover(job)
    handed = [f"Handed over to {_to(waiting)} by {waiting.entry.by}, not taken over yet."] if waiting else []
    return [job.about.title, f"{summary(job)}.", open_words(job), *handed, *file_lines(found.file)]


def open_words(job: Job) -> str:
    """What is recorded as open, by tag where it has one, the worst first."""
    found = [tag_or_words(one) for one in worst_first(job)]
    return f"Open: {', '.join(dict.fromkeys(found))}." if found else NO_CONDITION


def waiting_handover(job: Job) -> Done | None:
    """The last handover that nobody has taken over."""
    taken = {name for done in job.view.of_kind(TakenOverAct) if isinstance(done.act, TakenOverAct)
             for name in done.act.of}  # fmt: skip
    waiting = [done for done in job.view.of_kind(HandoverAct) if done.name not in taken]
    return waiting[-1] if waiting else None


def not_taken_over(job: Job) -> list[str]:
    """That a handover waits, and where it is taken over."""
    waiting = waiting_handover(job) if job.ended is None else None
    if waiting is None:
        return []
    given = f"Handed over to {_to(waiting)}, {day_and_clock(waiting.entry.at)}"
    return [f"{given}; not taken over yet: {named('e', 'find')}, take over."]


def _to(done: Done) -> str:
    return done.act.to if isinstance(done.act, HandoverAct) else ""


def template_words(one: TemplateFile) -> str:
    """A template as one may choose it: its title, how many steps it has before they are spread out, and whose it is."""
    return ", ".join([f"Begin: {one.title} ({counted(one.steps, 'step')} in the template)", *whence(one)])


def unread_words(one: Unread) -> str:
    """A file among the templates that can't be read as one, and why."""
    return f"Not a template that can be read: {one.why}"
