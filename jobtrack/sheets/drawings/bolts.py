"""The bolts of a torque line as a drawing, as far as they are recorded."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.figures.drawing import Drawing
from jobtrack.job.doing.tightening import Tightening, tightening
from jobtrack.job.state.job import Job
from jobtrack.job.values.stage_torque import UNIT, known_figure, setting, share
from jobtrack.pictures import tightening as picture
from jobtrack.sheets.words.doing.bolts import counted, uncounted_words
from jobtrack.sheets.words.doing.torques import setting_words
from jobtrack.sheets.words.named import Names
from jobtrack.template.plan import PlannedStep
from jobtrack.units import show
from jobtrack.units.chosen import Chosen

BY_NAME = "Bolts that go by names of their own have no place that is known."
ONE_CIRCLE = "Drawn as on one circle: nuts of two wheels go round each wheel by itself."
MANY = 8
"""Bolts from which on they may well belong to two wheels."""


def bolts(job: Job, planned: PlannedStep, name: str, shown: Chosen) -> tuple[Drawing | None, str]:
    """The bolts with those that have reached the stage that is going on; and what isn't known of them."""
    found = tightening(job, planned, name)
    if not found.counted and found.given:
        return None, f"Not drawn yet: {uncounted_words(job, found.given, Names(job))}."
    names = {bolt.name for bolt in found.bolts}
    if names != {str(number) for number in range(1, len(names) + 1)}:
        return None, BY_NAME
    stage = found.stage or found.stages
    done = {int(bolt.name) for bolt in found.bolts if bolt.reached >= stage}
    said = _stage_words(job, planned, name, found, shown)
    return picture.tightening(len(names), done, said), " ".join(_notes(job, planned, name, found, shown))


def _stage_words(job: Job, planned: PlannedStep, name: str, found: Tightening, shown: Chosen) -> str:
    """ "Stage 2 of 3, 60 %, 66 N·m"; the torque where the figure is known."""
    stage, known = found.stage or found.stages, known_figure(job.now, planned, name)
    part = f", {show(share(found.line, stage), '%')}" if found.stages > 1 else ""
    if known is None:
        return f"Stage {stage} of {found.stages}{part}"
    unit = shown.unit(UNIT, known.value) or UNIT
    return f"Stage {stage} of {found.stages}{part}, {setting(found.line, stage, known.value, unit).words()}"


def _notes(job: Job, planned: PlannedStep, name: str, found: Tightening, shown: Chosen) -> Iterator[str]:
    """Which share of whose figure it is, where that isn't known yet; and what the drawing doesn't say."""
    if known_figure(job.now, planned, name) is None:
        yield f"{setting_words(job, planned, name, found.stage or found.stages, shown).rstrip('.')}."
    if found.beyond:
        yield f"Not drawn, but recorded: {counted('bolt', [bolt.name for bolt in found.beyond])}."
    if len(found.bolts) >= MANY:
        yield ONE_CIRCLE
