"""What can be done now, a line a step: by one, by two, side by side; and what waits, and for what."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from jobtrack.job.doing.can_be_done import PART, UNKNOWN, SideBySide, Waiting, can_be_done
from jobtrack.job.state.job import Job
from jobtrack.job.state.order import Blocker
from jobtrack.pages.job.last_line import next_words
from jobtrack.pages.wording import counted, headed, of_member, step_name
from jobtrack.sheets.words.doing.what_now import (
    HELPER,
    RINGS,
    apart_words,
    takes,
    wants_somebody,
    with_helper,
)
from jobtrack.sheets.words.named import ref_name
from jobtrack.sheets.words.sentences import NEXT

WAITING = {
    "hold": "Waiting for a hold to be released",
    "condition": "Waiting for an open condition to be closed",
    PART: "Waiting for a part",
    UNKNOWN: "Waiting for something not known yet",
    "step": "Waiting for a step before",
}
"""The heading over what waits, by the kind of what it waits for, in the order of the page."""
REASONS = 3
"""So many of the things that a step waits for, besides steps, are named."""


class Entry(Struct, frozen=True):
    """A step on the page, what more there is to say of it, and what stands above it where a part begins."""

    step: str
    more: str = ""
    head: str = ""
    below: str = ""
    """A sentence under the heading."""


def sentence(job: Job) -> str:
    """What being on this page means, and what it doesn't; or that nothing is next."""
    found = can_be_done(job)
    return NEXT if found.by_one or found.by_more else next_words(job, None)


def entries(job: Job) -> list[Entry]:
    """Every step that can be done now or waits, under its heading."""
    found = can_be_done(job)
    return [
        *_part(job, "In hand", found.in_hand),
        *_part(job, "To be looked at again", found.look_again),
        *_part(job, "Next, by one person", found.by_one, RINGS if wants_somebody(job, found.by_one) else ""),
        *_part(job, "Next, by two people or more together", found.by_more),
        *_beside(job, found.side_by_side),
        *_waiting(job, found.waiting),
    ]


def what_now_text(job: Job) -> Iterator[str]:
    """The same as plain rows, for those who read no pages."""
    yield sentence(job)
    for one in entries(job):
        yield from ("", one.head) if one.head else ()
        yield from (one.below,) if one.below else ()
        yield f"  {headed(step_name(job.steps[one.step]), one.more) if one.more else step_name(job.steps[one.step])}"


def _part(job: Job, head: str, steps: Iterable[str], below: str = "") -> Iterator[Entry]:
    for number, step in enumerate(steps):
        first = (head, below) if not number else ("", "")
        yield Entry(step, takes(job, step), *first)


# Side by side


def _beside(job: Job, pairs: Sequence[SideBySide]) -> Iterator[Entry]:
    """Each step once, with those behind it in the plan that go beside it."""
    for number, step in enumerate(dict.fromkeys(pair.one for pair in pairs)):
        others = [with_helper(job, pair.other) for pair in pairs if pair.one == step]
        alone = HELPER if job.steps[step].step.helper_alone else ""
        more = "; ".join(filter(None, (alone, f"beside it: {', '.join(others)}")))
        yield Entry(
            step, more, *(("By two people side by side", apart_words(pairs)) if not number else ("", ""))
        )


# Waiting


def _waiting(job: Job, waiting: Sequence[Waiting]) -> Iterator[Entry]:
    """What only one thing stops comes first; what waits for a step before stands last, whatever else it waits for."""
    for kind, head in WAITING.items():
        mine = [one for one in waiting if _kind(one) == kind]
        for number, one in enumerate(mine):
            yield Entry(one.step, _reasons(job, one), head if not number else "")


def _kind(one: Waiting) -> str:
    kinds = [each.kind for each in one.for_]
    return "step" if {"step", "member"} & set(kinds) else kinds[0]


def _reasons(job: Job, one: Waiting) -> str:
    """What it waits for: of several steps before it the first, and how many more."""
    steps = [each for each in one.for_ if each.kind == "step"]
    others = [each for each in one.for_ if each.kind != "step"]
    more = f" and {counted(len(steps) - 1, 'more step')}" if steps[1:] else ""
    said = [f"{reason_words(job, steps[0], one.step)}{more}"] if steps else []
    said += [reason_words(job, each, one.step) for each in others[:REASONS]]
    left = len(others) - REASONS
    return "; ".join([*said, f"and {left} more"] if left > 0 else said)


def reason_words(job: Job, one: Blocker, step: str) -> str:
    """What a step waits for, in words."""
    if one.kind == "condition":
        return f"open: {_tag(job, one.what)}"
    if one.kind == PART:
        part = job.steps[step].step.part.get(one.what) or job.plan.template.part[one.what]
        return f"not recorded as here: {part.say or one.what}"
    if one.kind == UNKNOWN:
        ref = job.plan.resolve(one.what)
        return f"not known yet: {ref_name(job, ref) if ref is not None else one.what}"
    name = step_name(job.steps[one.what])
    said = {"step": "after “{}”", "hold": "hold not released after “{}”",
            "member": "the side begun first comes to its end first: “{}”"}  # fmt: skip
    return said[one.kind].format(name)


def _tag(job: Job, words: str) -> str:
    """An open condition by its tag, as on top of the page; by its words where it has none."""
    tags = [of_member(one.tag, one.member) for one in job.open_conditions if one.words == words and one.tag]
    return tags[0] if tags else words
