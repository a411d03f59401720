"""The welds of a step: a row a run, with its current, its rod, and what is asked before the next one."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack import units
from jobtrack.job.acts.base import commas
from jobtrack.job.acts.doing import WeldAct
from jobtrack.job.doing.welding import welding
from jobtrack.job.state.history import Done
from jobtrack.sheets.job_card.card import WHO, Card, frame
from jobtrack.sheets.job_card.together import Them, named
from jobtrack.sheets.paper.blocks import Block, Box, Paragraph, Strong, Table, Text
from jobtrack.sheets.words.doing.welds import weld_words
from jobtrack.template.model import Weld
from jobtrack.template.plan import PlannedStep

HEAD = ("run", "current", "rod", "before the next run", "who, when")


def weld_lines(card: Card, them: Them) -> Iterator[Block]:
    """Each weld as it is to be made, once of two, then the runs of each."""
    for name, weld in them[0].step.weld.items():
        for planned in them:
            label = Strong(named(them, "Weld", name, planned))
            yield Paragraph((label, f"{weld_words(weld)}.") if planned is them[0] else (label,))
            yield Table(HEAD, tuple(_rows(card, planned, name, weld)))


def _rows(card: Card, planned: PlannedStep, name: str, weld: Weld) -> Iterator[tuple[Text, ...]]:
    runs = welding(card.job.view, planned, name).runs
    last = list(runs)[-1]
    for run, done in runs.items():
        yield _row(card, run, done, weld.before_next if run != last else None)


def _row(card: Card, run: str, done: Done | None, rule: str | None) -> tuple[Text, ...]:
    asked: Text = (Box(rule),) if rule else ""
    act = done.act if done is not None else None
    if done is None or not isinstance(act, WeldAct):
        return run, (frame("A"),), (frame(None, WHO),), asked, ""
    figures = ((act.amps, "A"), (act.volts, "V"), (act.minutes, "min"))
    said = commas(*(units.show(value, unit) for value, unit in figures if value is not None))
    rod: Text = (Strong(act.rod),) if act.rod else (frame(None, WHO),)
    return run, (Strong(said or "yes"),), rod, asked, card.whose([done])
