"""What was recorded besides values, checks and holds, as `show --json` gives it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from jobtrack.job.acts.base import IN_STEP, OF_JOB, Act, keys
from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.doing.recorded import in_step, of_job, words
from jobtrack.store.machine.last_seen import SeenEntry

Json = dict[str, Any]
STAGES = TorqueAct.listed
"""The one list that is no list: stages of bolts, by torque line and member."""
NAMES = ("replaces", "of", "on")
"""Keys that only tie an act to others."""


def beside_step(job: Job, step: str) -> Json:
    """What was recorded in a step: stages of bolts, welds, parts, places, photos, notes, marks, surprises."""
    found = in_step(job, step)
    return {STAGES: _torques(job, step, found), **_lists(IN_STEP, found), "others": _others(job, found)}


def beside_job(job: Job) -> Json:
    """The same for the job as a whole, with buying and what was agreed."""
    found = of_job(job)
    return {**_lists(OF_JOB, found), **_lists(IN_STEP, found), "others": _others(job, found)}


def listed_kinds(under: str) -> list[type[Act]]:
    """The kinds of act with a list, in a step or for the job; their families in the order of the alphabet."""
    kinds = [kind for kind in KINDS.values() if kind.listed not in ("", STAGES) and kind.under == under]
    return sorted(kinds, key=lambda kind: kind.__module__)


def _lists(under: str, found: Sequence[Done]) -> Json:
    return {
        kind.listed: [_table(done) for done in found if isinstance(done.act, kind)]
        for kind in listed_kinds(under)
    }


def _table(done: Done) -> Json:
    """An act with all its keys, null where nothing was said, and who recorded it, when and where."""
    act = {
        name: getattr(done.act, key.attribute)
        for name, key in keys(type(done.act)).items()
        if name not in NAMES
    }
    return {"act": done.name, **act, "step": done.entry.step, **_by(done)}


def _by(done: Done) -> Json:
    return {"by": done.entry.by, "at": done.entry.at.isoformat()}


def _others(job: Job, found: Iterable[Done]) -> list[Json]:
    """What has no list of its own, in words: finished, swapped, worked, handed over and the like."""
    return [
        {"act": done.name, "kind": done.act.kind, "words": words(job, done), **_by(done)}
        for done in found
        if not done.act.listed
    ]


def _torques(job: Job, step: str, found: Iterable[Done]) -> Json:
    """The stage at which each bolt stands, by torque line and member."""
    stages: dict[str, Json] = {name: {} for name in job.steps[step].step.torque}
    for done in found:
        if isinstance(act := done.act, TorqueAct):
            table = {
                "stage": act.stage,
                "value": act.value,
                "unit": act.unit,
                "typed": act.typed,
                "with": act.with_,
            }
            stages.setdefault(act.torque, {})[act.member or ""] = {**table, **_by(done)}
    return stages


def gone_json(gone: Iterable[SeenEntry]) -> list[Json]:
    """The entries that this machine has seen and that the file doesn't hold, and where each was seen last."""
    return [{"id": one.id, "at": one.at, "by": one.by, "file": one.file} for one in gone]
