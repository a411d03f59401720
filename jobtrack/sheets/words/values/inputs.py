"""What goes into a working-out, in the template's words, and what of it is missing."""

from __future__ import annotations

from jobtrack.job.state.conditions import of_member
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import step_name
from jobtrack.template.model import WorkOut
from jobtrack.template.plan import PlannedStep, Ref


def missing_words(job: Job, planned: PlannedStep, work: WorkOut) -> str:
    """What a working-out still waits for, in the template's words."""
    found = []
    for value in work.inputs.values():
        ref = job.plan.resolve(value, planned) if isinstance(value, str) else None
        if ref is not None and job.now.value(ref) is None:
            found.append(called(job, planned, ref))
    return "; ".join(found) or "an input that it can take"


def called(job: Job, near: PlannedStep, ref: Ref) -> str:
    """What a name stands for, in the template's words, with its step where that is another one."""
    if ref.kind == "given":
        ask, owner = job.plan.givens[ref.name].ask, ref.name.rpartition(".")[0]
        return of_member(ask, owner)
    there = job.steps[ref.step or ""]
    if ref.kind == "reading":
        own = there.step.reading[ref.item].say or ref.item
    else:
        own = ref.result.replace("_", " ") or ref.item
    return own if there.id == near.id else f"{own}, {step_name(there)}"
