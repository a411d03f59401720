"""How far each bolt is tightened, bolt by bolt, and which of them nothing is recorded for."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.doing.tightening import NOTHING, tightening
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, Job
from jobtrack.sheets.words.bolts import counted, uncounted_words
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.recorded import in_step
from jobtrack.sheets.words.sentences import day_and_clock, step_name
from jobtrack.template.plan import PlannedStep


def fastener_rows(job: Job) -> Iterator[tuple[str, list[str]]]:
    """Each torque line of the steps that were begun, and a row for each bolt."""
    for planned in job.steps.values():
        done = [one for one in in_step(job, planned.id) if isinstance(one.act, TorqueAct)]
        if done or job.state(planned.id) in (IN_HAND, FINISHED, LOOK_AGAIN):
            names = dict.fromkeys([*planned.step.torque, *(_line(one) for one in done)])
            for name in names:
                mine = [one for one in done if _line(one) == name]
                yield f"{step_name(planned)}, {name}", [*map(_row, mine), *_untouched(job, planned, name)]


def _line(done: Done) -> str:
    return done.act.torque if isinstance(done.act, TorqueAct) else ""


def _row(done: Done) -> str:
    said = done.act.tightened() if isinstance(done.act, TorqueAct) else ""
    return f"{said} ({done.entry.by}, {day_and_clock(done.entry.at)})"


def _untouched(job: Job, planned: PlannedStep, name: str) -> Iterator[str]:
    """The bolts of a line that nothing is recorded for; where nobody knows how many there are, that."""
    if name not in planned.step.torque:
        return
    found = tightening(job, planned, name)
    if left := [bolt.name for bolt in found.bolts if bolt.reached == NOTHING]:
        yield f"nothing recorded: {counted('bolt', left)}"
    if not found.counted and found.given:
        yield uncounted_words(job, found.given, Names(job))
