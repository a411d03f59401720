"""What nobody does at somebody else's half-finished job before both have looked at it."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.state.conditions import OpenCondition, of_member
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, RELEASED, RELEASED_BEFORE, Job
from jobtrack.sheets.words.sentences import step_name

BEFORE_THE_WALK_ROUND = (
    "Don't press the pedal, lower it, turn the key, move a jack or grind off a mark before you have walked "
    "round it together."
)
WALK_ROUND = (
    "Walk round the vehicle: what holds it up, and when was that shaken?",
    "Take one reading again, with the same instrument.",
    "Say back the two most dangerous things.",
)
"""What giver and taker do together at the vehicle."""


def donts(job: Job) -> list[str]:
    """What not to touch yet, where a hold isn't released, and the steps that a condition recorded as open stops."""
    return [BEFORE_THE_WALK_ROUND, *_holds(job), *_not_to_begin(job)]


def _holds(job: Job) -> Iterator[str]:
    """Steps begun, finished ones too, whose hold nobody has released as things are now."""
    for planned in job.steps.values():
        hold = job.hold(planned.id)
        if hold and hold.state != RELEASED and job.state(planned.id) in (IN_HAND, FINISHED, LOOK_AGAIN):
            why = "was released before a change" if hold.state == RELEASED_BEFORE else "isn't released"
            yield f"Don't go on past: {step_name(planned)}. Its hold {why}: {hold.ask}"


def _not_to_begin(job: Job) -> Iterator[str]:
    for planned in job.steps.values():
        open_here = [named for name in planned.step.not_while for one in job.open_conditions
                     for named in _by_tag(one, name)]  # fmt: skip
        if open_here and not job.settled(planned.id):
            yield f"Don't begin: {step_name(planned)}. Open: {', '.join(open_here)}."


def _by_tag(one: OpenCondition, name: str) -> Iterator[str]:
    """A condition by its tag, where it has this name; what a damaged entry may have opened, too."""
    if name in (one.id, one.name):
        yield of_member(one.tag or one.text, one.member)
    for each in one.perhaps:
        if name in (each.id, each.name):
            yield f"perhaps {of_member(each.tag or each.text, each.member)}"
