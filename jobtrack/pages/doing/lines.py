"""The torque lines and welds of a step on its page: as they are to be, and what is recorded of each."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.state.job import Job
from jobtrack.pages.doing import bolts, runs
from jobtrack.pages.doing.bolt_table import bolt_table
from jobtrack.pages.step.items import TORQUE, WELD, Item, items
from jobtrack.pages.step.table import CHOSEN, OTHER
from jobtrack.pages.typeset import Line, item, wrap
from jobtrack.sheets.words.doing.torques import torque_words
from jobtrack.sheets.words.doing.welds import weld_words
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def doing_lines(
    job: Job, planned: PlannedStep, width: int, chosen: Item | None, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """Each torque line and weld; its table or its runs where something is recorded of it or it is chosen."""
    lines: list[Line] = []
    for number, one in enumerate(items(job, planned)):
        if one.one_by_one:
            here = chosen is not None and (chosen.kind, chosen.name) == (one.kind, one.name)
            lines += item([*_lines(job, planned, width, one, here, shown)], number)
    return lines


def _lines(
    job: Job, planned: PlannedStep, width: int, one: Item, here: bool, shown: Chosen
) -> Iterator[Line]:
    mark, look = (CHOSEN, "strong") if here else (OTHER, "")
    if one.kind == TORQUE:
        words = torque_words(job, planned, one.name, shown)
        yield from wrap(f"{mark}Torque, {one.name}: {words}", width, look, 4)
        if here or bolts.now(job, planned, one.name).last is not None:
            yield from bolt_table(job, planned, one.name, width, shown)
    if one.kind == WELD:
        yield from wrap(f"{mark}Weld, {one.name}: {weld_words(planned.step.weld[one.name])}", width, look, 4)
        if here or runs.now(job, planned, one.name).last is not None:
            yield from runs.run_lines(job, planned, one.name, width)
