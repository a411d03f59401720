"""A job as `show --json` gives it. Names and shapes are relied on by scripts: add, never rename."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from jobtrack.job.acts.ending import DueDoneAct
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct, ReadingAct
from jobtrack.job.remarks.of_job import job_problems
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.remarks.of_time import time_problems
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import RELEASED, RELEASED_BEFORE, Job
from jobtrack.job.state.standing import Standing
from jobtrack.job.time.clock import Stretch, hours_by, times, total_hours, without_overlap
from jobtrack.job.time.typed_hours import TypedHours
from jobtrack.job.values.limits import Number
from jobtrack.sheets.as_json.beside import beside_job, beside_step, gone_json
from jobtrack.sheets.words.hours import time_words
from jobtrack.sheets.words.named import Ids
from jobtrack.sheets.words.problems import with_ids
from jobtrack.sheets.words.sentences import tags
from jobtrack.store.machine.last_seen import SeenEntry
from jobtrack.template.one_unit import in_one_unit
from jobtrack.template.plan import PlannedStep, Ref

Json = dict[str, Any]
PLAIN = ("text", "yes/no", "date", "count", "ratio", "number")
"""What stands in the catalogue in the place of a unit."""


def job_json(job: Job, gone: Iterable[SeenEntry] = ()) -> Json:
    """The whole state of a job; `gone`: what this machine has seen of it that its file doesn't hold."""
    return {
        "job": _about(job),
        "steps": [_step(job, planned) for planned in job.steps.values()],
        "workings_out": workings_out(job),
        "open_conditions": [condition_json(one) for one in job.open_conditions],
        "tags": tags(job),
        "next_steps": job.next_steps,
        "due_afterwards": due_json(job),
        "hours": hours_json(job),
        "problems": _problems(job),
        **beside_job(job),
        "gone": gone_json(gone),
    }


def _problems(job: Job) -> list[str]:
    return with_ids(job, job_problems(job)) + [time_words(one, Ids()) for one in time_problems(job)]


def _about(job: Job) -> Json:
    givens = {name: _given(job, name) for name in job.plan.givens}
    return {
        "id": job.about.id,
        "title": job.about.title,
        "template": job.plan.template.id,
        "ended": job.ended,
        "givens": givens,
    }


def _given(job: Job, name: str) -> Json:
    standing = job.places.given(name)
    act = standing.last.act if standing.last else None
    typed = act.typed if isinstance(act, GivenAct | SettledAct) else None
    value = None if standing.value is None else standing.written
    return {"value": value, "unit": job.plan.givens[name].unit, "typed": typed}


def _step(job: Job, planned: PlannedStep) -> Json:
    step = planned.step
    return {
        "id": planned.id,
        "stage": step.stage,
        "title": step.title,
        "state": job.state(planned.id),
        "problems": with_ids(job, step_problems(job, planned.id)),
        "hazard": [[one.signal, one.hazard, one.does, one.avoid] for one in step.hazard],
        "hold": _hold(job, planned),
        "readings": {name: reading_json(job, planned, name) for name in step.reading},
        "ticks": {name: _tick(job.places.tick(planned.id, name)) for name in step.tick},
        **_bolts_and_more(job, planned.id),
    }


def _hold(job: Job, planned: PlannedStep) -> Json | None:
    hold = job.hold(planned.id)
    if hold is None:
        return None
    entry = hold.release.entry if hold.release and hold.state in (RELEASED, RELEASED_BEFORE) else None
    return {
        "ask": hold.ask,
        "state": hold.state,
        "by": entry.by if entry else None,
        "at": entry.at.isoformat() if entry else None,
    }


def reading_json(job: Job, planned: PlannedStep, name: str) -> Json:
    """One reading with its limits, verdict, and what else was measured for it."""
    reading = planned.step.reading[name]
    standing = Standing() if reading.from_ else job.places.reading(planned.id, name)
    limits = job.now.limits(planned.id, name)
    act, last = standing.reading if standing.agreed else None, standing.last if standing.agreed else None
    return {
        "value": number(job.now.reading_value(planned.id, name)),
        "unit": reading.unit,
        "typed": _typed(last),
        "bound": standing.bound if last else None,
        "low": act.low if act else None,
        "high": act.high if act else None,
        "word": act.word if act else None,
        "target": number(limits.target),
        "off_by": number(limits.off_by),
        "at_least": number(limits.at_least),
        "at_most": number(limits.at_most),
        "doubt": job.now.doubt(Ref("reading", f"{planned.id}.{name}", planned.id, name)),
        "with": (act.with_ if act else None) or reading.with_,
        "verdict": job.now.verdict(planned.id, name),
        "by": last.entry.by if last else None,
        "at": last.entry.at.isoformat() if last else None,
        "others": [_other(done) for done in _others(job, planned, name, standing)],
    }


def _others(job: Job, planned: PlannedStep, name: str, standing: Standing) -> Iterator[Done]:
    """Every other act of the place: those replaced, and both sides of a disagreement."""
    shown = standing.last if standing.agreed else None
    for done in job.places.acts(("reading", planned.id, name)):
        if shown is None or done.name != shown.name:
            yield done


def _other(done: Done) -> Json:
    plain = done.act.as_dict()
    return {
        "act": done.name,
        "value": plain.get("value"),
        "unit": plain.get("unit"),
        "typed": plain.get("typed"),
        "by": done.entry.by,
        "at": done.entry.at.isoformat(),
    }


def _typed(done: Done | None) -> object:
    act = done.act if done else None
    if not isinstance(act, ReadingAct | SettledAct):
        return None
    return list(act.typed) if isinstance(act.typed, tuple) else act.typed


def _tick(standing: Standing) -> bool | None:
    return standing.value is True if standing.acts else None


def _bolts_and_more(job: Job, step: str) -> Json:
    beside = beside_step(job, step)
    stages = {name: {bolt: one["stage"] for bolt, one in bolts.items()}
              for name, bolts in beside["torque_stages"].items()}  # fmt: skip
    return {"torques": stages, **beside}


def number(value: Number | None) -> float | None:
    """A JSON number at full precision."""
    return None if value is None else float(value)


def workings_out(job: Job) -> dict[str, Json]:
    """Every result of the steps' workings-out, with its unit and doubt."""
    found = {planned.id: _results(job, planned) for planned in job.steps.values() if planned.step.work_out}
    return {step: results for step, results in found.items() if results}


def _results(job: Job, planned: PlannedStep) -> Json:
    found: Json = {}
    for name, work in planned.step.work_out.items():
        outcome = job.now.outcome(planned.id, name)
        for result in in_one_unit(job.plan, planned, work).results if outcome is not None else ():
            ref = Ref("result", f"{planned.id}.{name}.{result.key}", planned.id, name, result.key)
            found[f"{name}.{result.key}"] = {
                "value": _plain(outcome.values.get(result.key) if outcome else None),
                "unit": None if result.unit in PLAIN else result.unit,
                "doubt": job.now.doubt(ref),
            }
    return found


def _plain(value: Any) -> Any:
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    return value if isinstance(value, str | bool | int | None) else float(value)


def condition_json(one: OpenCondition) -> Json:
    """One open condition; its text has the remark behind it, where there is one."""
    text = f"{one.text}; {one.remark}" if one.remark else one.text
    return {
        "id": one.id,
        "member": one.member,
        "step": one.step,
        "text": text,
        "since": one.since.isoformat() if one.since else None,
        "by": one.by,
        "tag": one.tag,
    }


def due_json(job: Job) -> list[Json]:
    """What is to be done after the job is closed, and what of it is recorded as done."""
    done = {act.due for one in job.view.of_kind(DueDoneAct) if isinstance(act := one.act, DueDoneAct)}
    return [
        {"id": name, "text": " ".join(part for part in (due.after, due.say) if part), "done": name in done}
        for name, due in job.plan.template.due_afterwards.items()
    ]


def hours_json(job: Job) -> Json:
    """Labour hours of this job alone, by person and by step."""
    found = times(job)
    worked: list[Stretch | TypedHours] = [*without_overlap(found.stretches), *found.typed]
    return {
        "total_hours": total_hours(worked),
        "by_person": hours_by(worked, "person"),
        "by_step": hours_by(worked, "step"),
        "running": list(found.running),
    }
