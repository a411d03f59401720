"""The job card: the whole template stage by stage for the bench, with frames, or filled in so far."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from jobtrack.job.state.job import Job
from jobtrack.sheets.job_card.card import Card, nothing_recorded
from jobtrack.sheets.job_card.front import back, front, head
from jobtrack.sheets.job_card.step import not_needed, step_section
from jobtrack.sheets.job_card.together import together
from jobtrack.sheets.paper.blocks import Block, Point, Points, Section, Sheet
from jobtrack.sheets.words.zones import Times
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen


def job_card(job: Job, shown: Chosen, at: datetime, empty: bool) -> Sheet:
    """The card as of a time: with what is recorded in its place; `empty`: with nothing of it, givens neither."""
    card = Card(nothing_recorded(job) if empty else job, shown, Times(job), empty)
    printed = f"Printed {card.times.said(at, year=True)}. {card.times.head}"
    sections = (*front(card), *_stages(card), *back(card))
    return Sheet("job-card", f"Job card: {job.about.title}", (*head(card), printed), sections)


def _stages(card: Card) -> Iterator[Section]:
    """Each stage with its steps, then the steps that belong to none."""
    stages = dict.fromkeys(planned.step.stage for planned in card.job.steps.values())
    for number, stage in enumerate(stages, start=1):
        steps = card.job.plan.in_stage(stage)
        yield _stage(card, f"Stage {number} of {len(stages)}: {steps[0].stage.title}", steps)


def _stage(card: Card, title: str, steps: tuple[PlannedStep, ...]) -> Section:
    """A stage: what isn't needed of it in a row each, then the steps written out."""
    spared = {planned.id: why for planned in steps if (why := not_needed(card, planned)) is not None}
    rows: tuple[Block, ...] = (Points(tuple(map(Point, spared.values()))),) if spared else ()
    written = together(one for one in steps if one.id not in spared)
    return Section(title, rows, tuple(step_section(card, them) for them in written))
