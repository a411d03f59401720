"""What is asked of bolts or of runs, whichever the line is, and which keys answer it."""

from __future__ import annotations

from datetime import datetime

from jobtrack.job.state.job import Job
from jobtrack.pages.doing import bolts, runs
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.items import WELD, Item
from jobtrack.pages.typeset import Line
from jobtrack.sheets.words.doing import torques
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def asked_lines(
    job: Job, planned: PlannedStep, item: Item, room: int, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """The bolt with its stage and torque, or the run, in spaced capitals."""
    if item.kind == WELD:
        return runs.asked_lines(job, planned, item.name, room)
    return bolts.asked_lines(job, planned, item.name, room, shown)


def far(
    job: Job, planned: PlannedStep, item: Item, at: datetime, shown: Chosen = METRIC_FIRST
) -> tuple[str, str, list[str]]:
    """For the far view: the bolt or the run, its torque or what is asked of it, and what a run waits for."""
    if item.kind == WELD:
        words = runs.asked_words(job, planned, item.name)
        found = runs.now(job, planned, item.name)
        return words, "amps?" if found.next else "", [runs.pause_words(job, planned, item.name, at)]
    who, what = bolts.asked_apart(job, planned, item.name, shown)
    return who, what, [torques.figure_words(job, planned, item.name, shown)]


def about(job: Job, planned: PlannedStep, item: Item, shown: Chosen = METRIC_FIRST) -> list[str]:
    """Whose figure a torque is a share of; the rod that goes with a run by itself."""
    if item.kind == WELD:
        rod = runs.now(job, planned, item.name).rod
        return [f"Rod as before: {rod}."] if rod else []
    return [f"Figure: {torques.figure_words(job, planned, item.name, shown)}."]


def hint(job: Job, planned: PlannedStep, item: Item, at: datetime) -> str:
    """The keys; of a weld behind what the template asks before the next run, and how long ago the last one was."""
    yes, words = named("y", "answer-yes"), named("w", "words")
    if item.kind == WELD:
        if runs.now(job, planned, item.name).next is None:
            return f"Enter goes on; one run more: {words}, then its number."
        keys = f"Type the current; {yes} the run without it; {words} its rod too."
        return " ".join(filter(None, (runs.pause_words(job, planned, item.name, at), keys)))
    found = bolts.now(job, planned, item.name)
    if not found.counted:
        return f"{words} records a bolt by its number: 3 snug, 3 final, all finger."
    if found.next is None:
        return f"Enter goes on; {words} records a bolt anew."
    return f"{yes} it clicked, or type what it shows; {words} finger, snug, final, another bolt."
