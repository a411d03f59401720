"""What is typed for a bolt or a run, whichever the line is: shown back, put into a call, said once it is recorded."""

from __future__ import annotations

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.doing import TorqueAct, WeldAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.pages.doing import bolts, runs, typed_bolts
from jobtrack.pages.step.items import WELD, Item
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def echo_words(job: Job, planned: PlannedStep, item: Item, text: str) -> str:
    """How a text would be read. Raises UnitError, Refused."""
    words = runs.echo_words if item.kind == WELD else typed_bolts.echo_words
    return words(job, planned, item.name, text)


def enter(made: Draft, item: Item, text: str) -> None:
    """Put a click or a run into a call; an empty text is the key alone. Raises UnitError, Refused."""
    (runs.welded if item.kind == WELD else typed_bolts.turned)(made, item.name, text)


def recorded_words(job: Job, planned: PlannedStep, act: Act, shown: Chosen = METRIC_FIRST) -> str:
    """What an act has recorded, and where it ends a stage or a weld, that too."""
    if isinstance(act, TorqueAct):
        return bolts.turned_words(job, planned, act, shown)
    return runs.welded_words(job, planned, act) if isinstance(act, WeldAct) else act.page_words()
