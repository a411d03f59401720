"""The page of what is known of the vehicles and of the job: a line each, answered or not."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.checks import answer_words
from jobtrack.pages.step.entering import choices
from jobtrack.pages.step.items import Item, given_item, given_names
from jobtrack.pages.wording import counted, step_name
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def known_items(job: Job) -> list[Item]:
    """Everything that the template asks about the vehicles and the job, in its order."""
    return [given_item(job, name) for name in job.plan.givens]


def asked_in(job: Job) -> dict[str, str]:
    """The title of the first step that asks for each of them; those that no step asks for are left out."""
    found: dict[str, str] = {}
    for planned in job.steps.values():
        for name in given_names(job, planned):
            found.setdefault(name, step_name(planned))
    return found


def known_words(job: Job, item: Item, shown: Chosen = METRIC_FIRST) -> str:
    """One of them as it stands."""
    answer = answer_words(item, job.places.given(item.name), shown)
    return f"{item.label}: {answer.removeprefix('- ')}"


def head_words(job: Job) -> str:
    """How many of them are known."""
    every = list(job.plan.givens)
    known = sum(job.places.given(name).value is not None for name in every)
    return f"What is known: {known} of {counted(len(every), 'thing')}"


def takes_words(item: Item) -> str:
    """What can be typed for one of them."""
    if item.yes_or_no:
        return f"{named('y', 'answer-yes')} or {named('n', 'answer-no')} answers it."
    if item.choose:
        return f"Choose by number: {choices(item)}; ? is don't know yet."
    if item.unit is not None:
        return "A number; ? is don't know yet."
    return (
        "A date, as 2031-05-14; ? is don't know yet."
        if item.given_kind == "date"
        else "Words; ? is don't know yet."
    )
