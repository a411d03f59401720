"""The torque of a line in words: at a stage, whose figure it is, and whom to ask for one that isn't known."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.doing.tightening import Tightening, tightening
from jobtrack.job.state.job import Job
from jobtrack.job.values.bolt_count import bolt_count
from jobtrack.job.values.stage_torque import FigureKnown, known_figure, setting, share
from jobtrack.literal import visible
from jobtrack.sheets.words.doing.bolts import bolts_words, uncounted_words
from jobtrack.sheets.words.named import Names, given_name
from jobtrack.sheets.words.sentences import counted, day_and_clock
from jobtrack.sheets.words.values.whose import When
from jobtrack.template.model import Torque
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def setting_words(job: Job, planned: PlannedStep, name: str, stage: int, shown: Chosen = METRIC_FIRST) -> str:
    """The torque of a stage in both units; where the figure isn't known the share of it, and whom to ask."""
    line, known = planned.step.torque[name], known_figure(job.now, planned, name)
    if known is not None:
        return _both(line, stage, known, shown)
    whole = share(line, stage)
    return f"{f'{whole:g} % of the figure' if whole != 100 else 'the whole figure'}: {_ask(line)}"


def _both(line: Torque, stage: int, known: FigureKnown, shown: Chosen) -> str:
    """A stage as a wrench can be set to it, "33 N·m = 24 lbf ft"; each rounded by itself."""
    own = setting(line, stage, known.value)
    other = units.showing.other_unit(own.value, units.names.find(own.unit))
    there = setting(line, stage, known.value, other.name) if other else None
    if there is None:
        return own.words()
    first, second = (there, own) if shown.unit(own.unit, own.value) == there.unit else (own, there)
    return f"{first.words()} = {second.words()}"


def _ask(line: Torque) -> str:
    """Whom to ask for a figure that isn't known; as it stands, where what the template writes is no torque."""
    return visible(line.figure["value"] if isinstance(line.figure, dict) else line.figure)


def figure_words(
    job: Job, planned: PlannedStep, name: str, shown: Chosen = METRIC_FIRST, when: When = day_and_clock
) -> str:
    """The figure and whose it is; or whom to ask for it."""
    line, known = planned.step.torque[name], known_figure(job.now, planned, name)
    if known is None:
        return f"{_ask(line)} ({line.figure['source']})" if isinstance(line.figure, dict) else line.figure
    said = _both(Torque(), 1, known, shown)
    if known.given is None:
        return f"{said} ({known.source})"
    last = job.places.given(known.given.name).last
    whose = f"typed by {last.entry.by}, {when(last.entry.at)}, " if last else ""
    return f"{said} ({whose}from “{given_name(job, known.given.name)}”)"


def torque_words(
    job: Job, planned: PlannedStep, name: str, shown: Chosen = METRIC_FIRST, when: When = day_and_clock
) -> str:
    """A torque line in plain words: the figure with its source, or whom to ask, and how many bolts in which stages."""
    torque = planned.step.torque[name]
    size = " ".join(part for part in (torque.thread, torque.grade) if part)
    stages = f"stages {', '.join(f'{stage} %' for stage in torque.stages)}" if torque.stages else ""
    again = f"again after {torque.again}" if torque.again else ""
    parts = (
        figure_words(job, planned, name, shown, when),
        _count_words(job, planned, name),
        size,
        torque.finish or "",
        stages,
        again,
    )
    return "; ".join(part for part in parts if part)


def _count_words(job: Job, planned: PlannedStep, name: str) -> str:
    """How many bolts there are, "5 bolts"; where a given says it, by its name too."""
    bolts, found = planned.step.torque[name].bolts, tightening(job, planned, name)
    if isinstance(bolts, int):
        return counted(bolts, "bolt")
    if not found.counted or not found.given:
        return unknown_words(job, found)
    many = bolt_count(job.now, planned, name) or 0
    said = f"{counted(many, 'bolt')} (“{given_name(job, found.given)}”)"
    besides = f"besides these {bolts_words((bolt.name, bolt.reached) for bolt in found.beyond)}"
    return f"{said}; {besides}" if found.beyond else said


def unknown_words(job: Job, found: Tightening) -> str:
    """That nobody knows how many bolts there are, and what is wanted: "how many bolts isn't known yet: …"."""
    return uncounted_words(job, found.given or "", Names(job))
