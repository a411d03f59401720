"""A template as it is begun from a few answers: what is known of it, what is usual, and dots for what is to come."""

from __future__ import annotations

from typing import Any

from jobtrack.authoring.dangers import FIRE, MOVES, fire_watch, open_and_close
from jobtrack.authoring.layout import template_text
from jobtrack.authoring.questions import SIDES, VEHICLES, Answers, StageAnswer, StepAnswer, others_are_asked
from jobtrack.authoring.teaching import comments
from jobtrack.job.compose.steps import id_of
from jobtrack.template.checks.meaning.kinds import HOT
from jobtrack.template.usual import USUAL

Data = dict[str, Any]
TO_WRITE = "…"
EXAMPLE: Data = {
    "reading": {
        "example": {
            "unit": "mm", "with": "steel rule", "doubt": 0.6, "target": 100, "off_by": 2, "say": TO_WRITE,
        }
    },
    "tick": {"example-check": {"ask": TO_WRITE}},
}  # fmt: skip
"""A reading and a check, to be made into real ones."""


def begun_text(answers: Answers) -> str:
    """The file of the template that these answers begin."""
    data = begun(answers)
    return template_text(data, comments(data))


def begun(answers: Answers) -> Data:
    """Its data."""
    stages, steps = _stages_and_steps(answers)
    asks = others_are_asked(answers.asks, answers.stages)
    data: Data = {"format": 1, "id": answers.id, "title": answers.title, "version": "1"}
    data |= {"for": answers.for_} if answers.for_ else {}
    data |= {"ask_first": answers.ask_first or True} if asks else {}
    data |= {"vehicle": dict.fromkeys(VEHICLES, TO_WRITE)} if answers.two else {}
    data |= {"set": {"side": list(SIDES)}} if answers.sides else {}
    conditions = open_and_close(steps, asks)
    data |= {"condition": conditions} if conditions else {}
    if answers.example:
        next(iter(steps.values())).update(EXAMPLE)
    return {**data, "stage": stages, "step": steps}


def _stages_and_steps(answers: Answers) -> tuple[Data, Data]:
    stages: Data = {}
    steps: Data = {}
    for stage in answers.stages:
        id = id_of(stage.title, stages)
        stages[id] = {"title": stage.title} | ({"for_each": stage.over} if stage.over else {})
        _add_steps(id, stage, steps)
    return stages, steps


def _add_steps(stage_id: str, stage: StageAnswer, steps: Data) -> None:
    """The steps of a stage; behind hot work, before anything moves, a look where the sparks went."""
    hot = ""
    for step in stage.steps:
        if hot and MOVES & set(step.does):
            steps[_free(FIRE, steps)] = fire_watch(stage_id, hot)
            hot = ""
        id = _free(step.title, steps)
        steps[id] = _step(stage_id, step)
        hot = id if set(HOT) & set(step.does) else hot
    if hot:
        steps[_free(FIRE, steps)] = fire_watch(stage_id, hot)


def _free(title: str, steps: Data) -> str:
    return id_of(title, {*steps, *SIDES, *VEHICLES})


def _step(stage_id: str, step: StepAnswer) -> Data:
    found: Data = {"stage": stage_id, "title": step.title, "do": TO_WRITE}
    rows = dict.fromkeys(row for kind in step.does for row in USUAL[kind].rows)
    beside = dict.fromkeys(
        kind for one in step.does for kind in USUAL[one].not_beside if kind not in step.does
    )
    if step.does:
        found["does"] = list(step.does)
        found["hazard"] = [[row.signal, row.hazard, row.does, row.avoid] for row in rows]
    return found | ({"not_beside": list(beside)} if beside else {})
