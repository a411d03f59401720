"""The bolts of a torque line as a table: a row a stage, a column a bolt."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jobtrack import units
from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.doing.tightening import EARLY, MOST, Bolt, Tightening
from jobtrack.job.state.job import Job
from jobtrack.job.values.stage_torque import UNIT, FigureKnown, known_figure, setting, share
from jobtrack.pages.doing.bolts import now
from jobtrack.pages.typeset import Cell, Line, line, ruled, wrap
from jobtrack.template.model import Torque
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import as_given, as_typed, figure

_VALUE, _NAME, _STAGE = 4, 12, 24
"""Cells of a bolt, the most of its name, and the most of a stage."""
HEAD = "bolts in turn"


def bolt_table(
    job: Job, planned: PlannedStep, name: str, width: int, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """A row a stage, a column a bolt in the order of turning; more bolts than fit stand in a table below."""
    found = now(job, planned, name)
    if not found.every:
        return []
    stages = list(_rows(job, planned, name, found, shown))
    column = max(_VALUE, *(min(len(bolt.name), _NAME) for bolt in found.every))
    if _wide(stages) + len(found.every) * (column + 2) > width:
        stages = [(stage, words.partition(" N·m")[0].removesuffix(" lbf ft")) for stage, words in stages]
    many = max(1, (width - _wide(stages)) // (column + 2))
    lines = [
        row
        for at in range(0, len(found.every), many)
        for row in _table(stages, found.every[at : at + many], _wide(stages), column, shown)
    ]
    apart = [bolt.name for bolt in found.every if bolt.apart]
    said = (
        f"Bolt {', '.join(apart)}: different stages were recorded apart; the lower counts." if apart else ""
    )
    return lines + (wrap(said, width) if said else [])


def _wide(stages: Sequence[tuple[int, str]]) -> int:
    return min(1 + max(len(words) for words in (HEAD, *(words for _, words in stages))), _STAGE)


def _rows(
    job: Job, planned: PlannedStep, name: str, found: Tightening, shown: Chosen
) -> Iterator[tuple[int, str]]:
    """The stages that have a row: finger and snug where they are recorded, then those of the template."""
    for word, reached in EARLY.items():
        if any(reached in bolt.done for bolt in found.every):
            yield reached, word
    known = known_figure(job.now, planned, name)
    for stage in range(1, min(found.stages, MOST) + 1):
        torque = (
            setting(found.line, stage, known.value).words() if known else f"{share(found.line, stage):g} %"
        )
        yield stage, f"stage {stage}, {torque}" if found.stages > 1 else torque


def _torque(line: Torque, stage: int, known: FigureKnown, shown: Chosen) -> str:
    """The torque of a stage in the unit system that is shown."""
    own = setting(line, stage, known.value)
    return setting(line, stage, known.value, shown.unit(own.unit, own.value) or UNIT).words()


def _table(
    stages: Sequence[tuple[int, str]], bolts: Sequence[Bolt], first: int, column: int, shown: Chosen
) -> list[Line]:
    widths = [first, *(column for _ in bolts)]
    head = ruled([Cell(HEAD, "small"), *(Cell(bolt.name, "small") for bolt in bolts)], widths)
    rows = [
        row
        for stage, words in stages
        for row in ruled(
            [Cell(words), *(Cell(_cell(bolt, stage, shown), "strong") for bolt in bolts)], widths
        )
    ]
    return [*head, line("┼─".join("─" * wide for wide in widths)), *rows]


def _cell(bolt: Bolt, stage: int, shown: Chosen) -> str:
    """What is recorded of a bolt at a stage, without its unit; "yes" where no torque is, "-" where nothing is."""
    act = bolt.done[stage].act if stage in bolt.done else None
    if not isinstance(act, TorqueAct):
        return "-"
    torque = act.newton_metres()
    return "yes" if torque is None else _number(torque, shown)


def _number(value: float, shown: Chosen) -> str:
    here = shown.unit(UNIT, value)
    there = units.convert(value, UNIT, here)
    return (as_typed if as_given(there) else figure)(there, here).words().partition(" ")[0]
