"""A step of two sides or two vehicles on one card: what both share is said once, what differs by whose it is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

from jobtrack.job.state.conditions import of_member
from jobtrack.sheets.words.sentences import joined
from jobtrack.template.plan import PlannedStep

Them: TypeAlias = tuple[PlannedStep, ...]
"""One step, or one step of the template for each of its two members."""
PAIR = 2
"""Members that have room beside each other."""


def together(steps: Iterable[PlannedStep]) -> Iterator[Them]:
    """The steps in order, the two members of one step as one, unless one of them waits for the other."""
    waiting: list[PlannedStep] = []
    for planned in steps:
        if waiting and not _alike(waiting[-1], planned):
            yield from _grouped(waiting)
            waiting = []
        waiting.append(planned)
    yield from _grouped(waiting)


def _alike(one: PlannedStep, other: PlannedStep) -> bool:
    return one.member is not None and one.base == other.base


def _grouped(them: list[PlannedStep]) -> Iterator[Them]:
    first_to_last = any(one.id in other.after for one in them for other in them)
    yield from ((one,) for one in them) if first_to_last or len(them) != PAIR else (tuple(them),)


def titled(them: Them) -> str:
    """The title of the step with its side or vehicle, or with both."""
    return of_member(them[0].step.title, members(them))


def members(them: Them) -> str | None:
    """ "left", "left and right"; None where a step has no members."""
    return joined([one.member for one in them if one.member]) or None


def whose(them: Them, one: PlannedStep) -> str:
    """In front of what belongs to one of two: "left: "; nothing where there is but one."""
    return f"{one.member}: " if len(them) > 1 else ""


def named(them: Them, kind: str, name: str, one: PlannedStep) -> str:
    """What stands above the table of a torque line or a weld: "Torque, hub nut: ", "Torque, hub nut, left: "."""
    return f"{kind}, {name}, {whose(them, one)}" if len(them) > 1 else f"{kind}, {name}: "


def columns(them: Them, heads: Iterable[str]) -> tuple[str, ...]:
    """The heads of what is written down, for each of them."""
    named = tuple(heads)
    return tuple(f"{whose(them, one)}{head}" for one in them for head in named)


def of_each(them: Them, say: Callable[[PlannedStep], Iterable[str]]) -> Iterator[str]:
    """What is said of each: once where it is said of all, else behind whose it is."""
    said = {one.id: tuple(dict.fromkeys(say(one))) for one in them}
    texts = dict.fromkeys((text, one.id) for one in them for text in said[one.id])
    of_all = {text for text, _ in texts if all(text in each for each in said.values())}
    by_id = {one.id: one for one in them}
    yield from dict.fromkeys(
        text if text in of_all else f"{whose(them, by_id[id])}{text}" for text, id in texts
    )


def of_any(them: Them, say: Callable[[PlannedStep], Iterable[str]]) -> list[str]:
    """What is said of any of them, each once: for words that say themselves whose they are."""
    return list(dict.fromkeys(text for one in them for text in say(one)))
