"""What is recorded beside the answers: in a step on its page, for the job on the page of the job."""

from __future__ import annotations

from collections.abc import Iterable

from jobtrack.job.acts.base import APART, OF_JOB, Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.job import Job
from jobtrack.pages.typeset import Line, wrap
from jobtrack.pages.wording import day_and_time, of_member, step_name
from jobtrack.sheets.words.doing.acts import named_act
from jobtrack.sheets.words.values.readings import given_words
from jobtrack.template.plan import PlannedStep


def step_lines(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    """Everything recorded in a step that stands nowhere else on its page, a line an entry."""
    lines = [row for entry in job.view.counting_entries() if entry.step == planned.id
             for row in _entry(job, entry, _beside(entry.did), "", width)]  # fmt: skip
    return [*wrap("Recorded here:", width, "strong"), *lines] if lines else []


def job_lines(job: Job, width: int) -> list[Line]:
    """Everything recorded for the job, in a step too where it concerns the whole of it, a line an entry."""
    lines: list[Line] = []
    for entry in job.view.counting_entries():
        planned = job.steps.get(entry.step or "")
        here = [act for act in _beside(entry.did) if planned is None or _on_page(act) == OF_JOB]
        where = f" in “{step_name(planned)}”" if planned is not None else _unplanned(entry.step)
        lines += _entry(job, entry, here, where, width)
    return [*wrap("Recorded for the job:", width, "strong"), *lines] if lines else []


def known_lines(job: Job, width: int) -> list[Line]:
    """What is known of the vehicles and of the job, and what isn't yet."""
    lines: list[Line] = []
    for name, given in job.plan.givens.items():
        found, owner = job.places.given(name), name.rpartition(".")[0]
        said = (
            (given_words(job, name) if found.value is not None else "don't know yet")
            if found.acts
            else "not yet said"
        )
        agreed = said if found.agreed else "disagreement; counts as not known until it is settled"
        lines += wrap(f"- {of_member(given.ask, owner or None)}: {agreed}", width, "", 2)
    return [*wrap("Known, or not yet:", width, "strong"), *lines] if lines else []


def _unplanned(step: str | None) -> str:
    return f" in {step}, a step that this job doesn't have" if step else ""


def _beside(did: Iterable[Act]) -> list[Act]:
    """Without what has a place of its own: table, checks, what is known, open conditions, state, hold, clock."""
    return [act for act in did if _on_page(act) != APART]


def _on_page(act: Act) -> str:
    return act.on_page or act.under


def _entry(job: Job, entry: Entry, did: list[Act], where: str, width: int) -> list[Line]:
    """One entry: who, when, and what of it stands nowhere else."""
    if not did:
        return []
    words = (named_act(job, entry.step, act, act.page_words()) for act in did)
    said = "; ".join(dict.fromkeys(words))
    return wrap(f"- {entry.by}, {day_and_time(entry.at)}{where}: {said}", width, "", 2)
