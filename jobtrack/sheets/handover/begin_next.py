"""What can be begun next: by one, by two together, what goes side by side, and what nobody does alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.job.doing.can_be_done import CanBeDone, can_be_done
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.donts import not_within
from jobtrack.sheets.handover.handing import Handing, points
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section
from jobtrack.sheets.words.doing.what_now import RINGS, apart_words, takes, wants_somebody, with_helper
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import CLOSED, NEXT, step_name

TITLE = "What can be begun next"
NONE_NEXT = "No step is next: the order of steps or what is recorded as open stops each that isn't begun."
STOPPED = "This job was stopped, not finished; what is recorded as open stays open."
AGAINST = "Begun already; a reading in it stands among the don'ts"
NOTHING_BESIDE = "Nothing that is in hand or next goes side by side."
NOT_BESIDE = "Nothing else of what is in hand or next goes side by side."


def next_section(giving: Handing) -> Section:
    """By the order of steps and what is recorded as open, which promises nothing."""
    job = giving.job
    if job.ended is not None:
        ended = Paragraph(CLOSED if job.ended == "closed" else STOPPED)
        return Section(TITLE, (ended, *points(_not_known(job))))
    found = can_be_done(job)
    return Section(TITLE, (*_sentence(found), *points((*_rows(job, found), *_not_known(job)))))


def _not_known(job: Job) -> Iterator[str]:
    """What was answered with not known: somebody may be asked for it before it is wanted."""
    asked = (name for name in job.plan.givens if job.places.given(name).acts)
    if names := [given_name(job, name) for name in asked if job.places.given(name).value is None]:
        yield f"Not known yet: {'; '.join(names)}."


def _sentence(found: CanBeDone) -> list[Block]:
    return [Paragraph(NEXT if found.by_one or found.by_more else NONE_NEXT)]


def _rows(job: Job, found: CanBeDone) -> Iterator[str]:
    begun = (*found.in_hand, *found.look_again)
    against = [step for step in begun if not_within(job, job.steps[step])]
    yield from _named(job, AGAINST, against)
    yield from _named(job, "Begun already, to go on with", (step for step in begun if step not in against))
    yield from _named(job, "By one person", found.by_one)
    yield from _named(job, "Not alone, by two people or more together", found.by_more)
    if wants_somebody(job, (*begun, *found.by_one)):
        yield RINGS
    yield from _beside(job, found)


def _named(job: Job, head: str, steps: Iterable[str]) -> Iterator[str]:
    if said := [_with_what_it_takes(job, step) for step in steps]:
        yield f"{head}: {'; '.join(said)}."


def _with_what_it_takes(job: Job, step: str) -> str:
    name, more = step_name(job.steps[step]), takes(job, step)
    return f"{name} ({more})" if more else name


def _beside(job: Job, found: CanBeDone) -> Iterator[str]:
    """Each step once, with those behind it in the plan that go beside it; that nothing else does."""
    if len({*found.in_hand, *found.by_one}) < 2:
        return
    for step in dict.fromkeys(pair.one for pair in found.side_by_side):
        others = [with_helper(job, pair.other) for pair in found.side_by_side if pair.one == step]
        yield f"By two people side by side: {with_helper(job, step)} beside {', '.join(others)}."
    yield f"{apart_words(found.side_by_side)} {NOT_BESIDE}" if found.side_by_side else NOTHING_BESIDE
