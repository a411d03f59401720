"""The index of a job: what can be done, gone to or looked up in it, an entry each, in the order of letters."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from jobtrack.job.doing.parts import part_names
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import LOOK_AGAIN, Job
from jobtrack.job.values.limits import OUTSIDE, TOO_CLOSE
from jobtrack.pages.look_up.matching import plain
from jobtrack.pages.step.items import GIVEN, READING, TICK
from jobtrack.pages.wording import NO_CONDITION, lowered
from jobtrack.sheets.words.sentences import worst_first
from jobtrack.template.plan import PlannedStep

OPEN, NOT_WITHIN, AGAIN = "open", "not within", "again"
"""The lists that stand first."""
LISTS = {
    OPEN: "What is open",
    NOT_WITHIN: "Readings outside, or too close to call",
    AGAIN: "Steps to look at again",
}
NONE_OF_IT = {
    OPEN: NO_CONDITION,
    NOT_WITHIN: "No reading is recorded as outside its limits or too close to call. What wasn't measured isn't known.",
    AGAIN: "No step is to be looked at again.",
}
"""What an empty list says, and what it doesn't."""
ARTICLE = re.compile("(?:an?|the) ")


class Offer(Struct, frozen=True):
    """Something that the screen does."""

    action: str
    name: str
    """Its short name, by which it is filed."""
    more: str
    """All of it in a sentence."""
    key: str = ""
    """Its key, if it has one."""
    word: str = ""
    """Its word in the row of keys, by which it is found too."""


class Do(Struct, frozen=True):
    """Enter does what a key of the screen does."""

    action: str


class Turn(Struct, frozen=True):
    """Enter goes to a step, and to one of its lines where it names one."""

    step: str
    kind: str = ""
    name: str = ""


class Only(Struct, frozen=True):
    """Enter leaves one list alone."""

    list: str


class Row(Struct, frozen=True):
    """One thing that can be found."""

    what: str
    """What it is: do, list, step, reading, check, known, part, torque, weld, open."""
    name: str
    side: str
    to: Do | Turn | Only
    title: str
    words: str
    key: str = ""
    more: str = ""
    """What the screen does, in a sentence."""
    many: int = 0
    """How many a list has."""


def _row(what: str, name: str, side: str, to: Turn | Only, also: str = "", many: int = 0) -> Row:
    title = plain(name)
    return Row(what, name, side, to, title, title + plain(f"{side} {what} {also}"), many=many)


# All rows


def all_rows(job: Job, here: PlannedStep | None, offers: Sequence[Offer]) -> list[Row]:
    """The three lists; then all else in the order of letters: what the screen does, what is open, steps, lines, parts.

    Of two sides that of the step at hand comes first.
    """
    lines = [row for one in job.steps.values() for row in _lines(one)]
    steps = [_step(one) for one in job.steps.values()]
    opened = open_rows(job)
    filed = [*map(_offered, offers), *opened, *steps, *lines, *_known(job), *_parts_of_job(job)]
    many = {OPEN: len(opened), NOT_WITHIN: len(_outside(job, lines)), AGAIN: len(_again(job))}
    member = here.member if here is not None else None
    return [*_see(many), *sorted(filed, key=lambda one: (filed_under(one), one.side != member))]


def _see(many: dict[str, int]) -> list[Row]:
    """The lists of what wants somebody's eye, with how many each has."""
    return [
        _row("list", f"See {lowered(name)}", "", Only(list), "", many[list]) for list, name in LISTS.items()
    ]


def filed_under(row: Row) -> str:
    """The words by which an entry has its place: its name without *a* or *the* in front."""
    return ARTICLE.sub("", row.title.strip())


def _offered(one: Offer) -> Row:
    """What the screen does, filed by its short name, found by its word and its sentence too."""
    title = plain(one.name)
    return Row(
        "do", one.name, "", Do(one.action), title, title + plain(f"{one.word} {one.more}"), one.key, one.more
    )


def _step(planned: PlannedStep) -> Row:
    also = f"{planned.stage.title} {planned.id}"
    return _row("step", planned.step.title, planned.member or "", Turn(planned.id), also)


def _lines(planned: PlannedStep) -> Iterator[Row]:
    """The readings, checks, parts, torque lines and welds of a step."""
    step, id, side = planned.step, planned.id, planned.member or ""
    also = f"{step.title} {planned.stage.title}"
    for name, reading in step.reading.items():
        yield _row("reading", reading.say or name, side, Turn(id, READING, name), f"{name} {also}")
    for name, tick in step.tick.items():
        yield _row("check", tick.ask, side, Turn(id, TICK, name), f"{name} {also}")
    for name, part in step.part.items():
        yield _row("part", part.say or name, side, Turn(id, "part", name), f"{name} {also}")
    for name, torque in step.torque.items():
        size = " ".join(filter(None, (torque.thread, torque.grade)))
        yield _row("torque", name.replace("-", " "), side, Turn(id, "torque", name), f"{size} {also}")
    for name, weld in step.weld.items():
        yield _row("weld", name.replace("-", " "), side, Turn(id, "weld", name), f"{weld.rod or ''} {also}")


def _known(job: Job) -> Iterator[Row]:
    """What is known of the vehicles and the job, or not yet."""
    for name, given in job.plan.givens.items():
        owner = name.rpartition(".")[0]
        yield _row("known", given.ask, owner, Turn("", GIVEN, name), name)


def _parts_of_job(job: Job) -> Iterator[Row]:
    """The parts that are no step's own, those too that nobody planned."""
    of_steps = {name for planned in job.steps.values() for name in planned.step.part}
    for name in part_names(job):
        if name not in of_steps:
            part = job.plan.template.part.get(name)
            yield _row("part", (part.say if part else None) or name, "", Turn("", "part", name), name)


# The lists


def list_rows(job: Job, list: str) -> Sequence[Row]:
    """The rows of one of the lists: what is open the worst first, the others in the order of the work."""
    return {OPEN: open_rows, NOT_WITHIN: _not_within, AGAIN: _again}[list](job)


def open_rows(job: Job) -> list[Row]:
    """What is recorded as open, the worst first; each goes to the step that left it open."""
    return [_open(one) for one in worst_first(job)]


def _open(one: OpenCondition) -> Row:
    name = f"{one.tag}: {one.text}" if one.tag else one.text
    return _row("open", name, one.member or "", Turn(one.step or "", "open", one.name), one.remark or "")


def _not_within(job: Job) -> list[Row]:
    return _outside(job, (row for planned in job.steps.values() for row in _lines(planned)))


def _outside(job: Job, rows: Iterable[Row]) -> list[Row]:
    """Every reading that lies outside its limits or too close to one to call."""
    return [row for row in rows if isinstance(row.to, Turn) and row.to.kind == READING
            and job.now.verdict(row.to.step, row.to.name) in (OUTSIDE, TOO_CLOSE)]  # fmt: skip


def _again(job: Job) -> list[Row]:
    return [_step(one) for one in job.steps.values() if job.state(one.id) == LOOK_AGAIN]
