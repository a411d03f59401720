"""The wait of a check on its step's page: from when on it is asked for, and that it came too soon."""

from __future__ import annotations

from datetime import datetime

from jobtrack.job.remarks.waits import since, too_soon
from jobtrack.job.state.job import Job
from jobtrack.pages.step.items import TICK, WELD, Item
from jobtrack.pages.wording import raised
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import minutes_words, too_soon_words
from jobtrack.sheets.words.sentences import day_and_clock
from jobtrack.template.plan import PlannedStep


def grows_older(planned: PlannedStep, item: Item) -> bool:
    """Whether what is said of a line changes while nothing is recorded: a run's pause, a check's wait."""
    return item.kind == WELD or (item.kind == TICK and planned.step.tick[item.name].wait is not None)


def not_before(job: Job, planned: PlannedStep, item: Item, now: datetime) -> str:
    """ "Not before 16:40, by the entries."; empty where nothing is waited for, or the time is over."""
    found = since(job, planned, item.name) if item.kind == TICK else None
    if found is None:
        return ""
    if found.not_before is None:
        of = Names(job).steps(found.steps)
        return f"{minutes_words(found.asked)} after {of}, of which nothing is recorded yet."
    there = found.not_before.astimezone(now.tzinfo)
    if there <= now:
        return ""
    when = f"{there:%H:%M}" if there.date() == now.date() else day_and_clock(there)
    return f"Not before {when}, by the entries."


def waited_words(job: Job, planned: PlannedStep, item: Item, now: datetime) -> str:
    """The same, and behind it from which step the template counts."""
    words = not_before(job, planned, item, now)
    found = since(job, planned, item.name) if words else None
    if found is None or found.last is None:
        return words
    of = Names(job).steps(found.steps)
    return f"{words} The template asks for {minutes_words(found.asked)} after the last entry of {of}."


def soon_words(job: Job, planned: PlannedStep, item: Item) -> str:
    """That a yes came sooner than the template asks; empty where it didn't."""
    found = too_soon(job, planned, item.name) if item.kind == TICK else None
    return f"{raised(too_soon_words(found, Names(job)))}." if found is not None else ""
