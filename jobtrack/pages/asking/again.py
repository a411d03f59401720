"""A number over one that stands there already: measured again, or the one before was typed wrong."""

from __future__ import annotations

from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.state.job import Job
from jobtrack.pages.step.items import READING, Item, standing
from jobtrack.pages.wording import day_and_time
from jobtrack.sheets.words.values.in_units import measured_in
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen

WHICH = "Measured again, or was the number before typed wrong?"


def has_number(job: Job, planned: PlannedStep, item: Item) -> bool:
    """Whether a number that somebody typed stands there, not words alone."""
    if item.kind != READING:
        return False
    acts = standing(job, planned, item).acts
    return any(not isinstance(done.act, ReadingAct) or done.act.word is None for done in acts)


def before_words(job: Job, planned: PlannedStep, item: Item, text: str, shown: Chosen = METRIC_FIRST) -> str:
    """What stands there, whose it is, and what is typed now: "23.2 mm, by Wim, 14 May 2031, 09:10. Now: 24 mm."."""
    last = standing(job, planned, item).last
    whose = f", by {last.entry.by}, {day_and_time(last.entry.at)}" if last is not None else ""
    unit = f" {item.unit}" if item.unit and text.strip()[-1:].isdecimal() else ""
    return f"It has {measured_in(job, planned, item.name, shown)}{whose}. Now: {text.strip()}{unit}."
