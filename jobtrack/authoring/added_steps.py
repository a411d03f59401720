"""The steps that somebody put into a job, put into its template, in their place."""

from __future__ import annotations

import re
from typing import Any

from jobtrack.authoring.change import STEP, Making
from jobtrack.job.acts.steps import AddedStepAct
from jobtrack.job.compose.steps import id_of
from jobtrack.job.state.job import NOT_NEEDED, Job
from jobtrack.schema.values import ID

Tables = dict[str, Any]


def add_steps(job: Job, making: Making) -> None:
    """Each added step into the stage of the step that it was put beside, which then waits for it as in the job."""
    for done in job.view.of_kind(AddedStepAct):
        act = done.act
        planned = job.steps.get(act.step) if isinstance(act, AddedStepAct) else None
        if not isinstance(act, AddedStepAct) or planned is None or not planned.added:
            continue
        if job.state(act.step) == NOT_NEEDED:
            making.left_out.append(f"the step “{act.title}”: it was put in, then marked not needed")
        elif act.step not in making.steps:
            _add(act, making)


def _add(act: AddedStepAct, making: Making) -> None:
    steps: Tables = making.data.setdefault("step", {})
    members = (one for those in making.data.get("set", {}).values() for one in those)
    taken = {*steps, *making.data.get("vehicle", ()), *members}
    id = act.step if re.fullmatch(ID, act.step) and act.step not in taken else id_of(act.step, taken)
    before, after = making.steps.get(act.before or ""), making.steps.get(act.after or "")
    near = before or after or next(reversed(steps), None)
    if near is None:
        making.left_out.append(
            f"the step “{act.title}”: the template has no step beside which it could stand"
        )
        return
    step: Tables = {"stage": steps[near]["stage"], "title": act.title}
    if before is not None:
        step |= _waits_as(steps[before], id)
    elif after is None:
        step["after"] = []
    making.data["step"] = _put(steps, id, step, before, near)
    making.steps[act.step] = id
    where = f"before “{steps[near]['title']}”" if before else f"after “{steps[near]['title']}”"
    making.did(STEP, f"Step added {where}: “{act.title}”{_each(making.data, step)}.")


def _waits_as(next_one: Tables, id: str) -> Tables:
    """The `after` of a step put ahead of one that says what it waits for; that one then waits for it too."""
    if "after" not in next_one:
        return {}
    waits = next_one["after"]
    those = [waits] if isinstance(waits, str) else list(waits)
    next_one["after"] = [*those, id]
    return {"after": those}


def _put(steps: Tables, id: str, step: Tables, before: str | None, near: str) -> Tables:
    """The steps with one more, ahead of one or behind one."""
    found: Tables = {}
    for name, table in steps.items():
        if name == before:
            found[id] = step
        found[name] = table
        if name == near and before is None:
            found[id] = step
    return found


def _each(data: Tables, step: Tables) -> str:
    """That it stands there more often than it was done."""
    over = data.get("stage", {}).get(step["stage"], {}).get("for_each")
    return f" (once for each {over}, as its stage; it was put in for one)" if over else ""
