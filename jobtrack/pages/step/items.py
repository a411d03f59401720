"""What can be answered in a step, what of it is, and what finishing now would leave open."""

from __future__ import annotations

from msgspec import Struct

from jobtrack.job.remarks.of_step import left_open
from jobtrack.job.state.job import Job
from jobtrack.job.state.look_again import stands_on
from jobtrack.job.state.standing import Standing
from jobtrack.pages.doing import bolts, runs
from jobtrack.sheets.words.problems import with_names
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen

READING, TICK, GIVEN = "reading", "tick", "given"
TORQUE, WELD = "torque", "weld"
CLOSING = -1
"""The number of what is asked when every line has an answer: the hold, and finishing."""


class Item(Struct, frozen=True):
    """One thing that wants an answer."""

    kind: str
    name: str
    """The id of a reading, a check, a torque line or a weld in its step; a given's full name."""
    label: str
    unit: str | None = None
    choose: tuple[str, ...] = ()
    given_kind: str | None = None

    @property
    def yes_or_no(self) -> bool:
        """Whether one key answers it."""
        return self.kind == TICK or self.given_kind == "yes/no"

    @property
    def one_by_one(self) -> bool:
        """Whether it is answered bolt by bolt or run by run."""
        return self.kind in (TORQUE, WELD)


def items(job: Job, planned: PlannedStep) -> list[Item]:
    """Readings, then checks, in the template's order; the givens that the step stands on; bolts and welds."""
    readings = [Item(READING, name, one.say or name, one.unit)
                for name, one in planned.step.reading.items() if one.from_ is None]  # fmt: skip
    ticks = [Item(TICK, name, one.ask) for name, one in planned.step.tick.items()]
    givens = [given_item(job, name) for name in given_names(job, planned)]
    torques = [
        Item(TORQUE, name, bolts.asked_words(job, planned, name), "N*m") for name in planned.step.torque
    ]
    welds = [Item(WELD, name, runs.asked_words(job, planned, name), "A") for name in planned.step.weld]
    return [*readings, *ticks, *givens, *torques, *welds]


def given_names(job: Job, planned: PlannedStep) -> list[str]:
    """The givens that say what follows, those that feed limits, workings-out and torques."""
    follows = [row.then for row in planned.step.compare.values() if row.then]
    feeding = [name for name, ref in stands_on(job.plan, planned).items() if ref.kind == GIVEN]
    names = [ref.name for name in follows if (ref := job.plan.resolve(name, planned)) is not None]
    return list(dict.fromkeys((*names, *feeding)))


def given_item(job: Job, name: str) -> Item:
    """Something known of a vehicle or of the job, by its full name, as a line that is answered."""
    given = job.plan.givens[name]
    owner = name.rpartition(".")[0]
    label = f"{given.ask} ({owner})" if owner and owner not in given.ask else given.ask
    return Item(GIVEN, name, label, given.unit, given.choose, given.kind)


def standing(job: Job, planned: PlannedStep, item: Item) -> Standing:
    """What is recorded for an item."""
    if item.kind == READING:
        return job.places.reading(planned.id, item.name)
    if item.kind == TICK:
        return job.places.tick(planned.id, item.name)
    return job.places.given(item.name)


def answered(job: Job, planned: PlannedStep, item: Item) -> bool:
    """Whether an item has an answer that counts; *don't know yet* is none, nor is a bolt or a run too few."""
    if item.kind == TORQUE:
        line = bolts.now(job, planned, item.name)
        return line.counted and line.next is None
    if item.kind == WELD:
        return runs.now(job, planned, item.name).next is None
    found = standing(job, planned, item)
    return bool(found.acts) and found.agreed and (item.kind != GIVEN or found.value is not None)


def by_one(chosen: int | None, by: int, count: int) -> int | None:
    """The line above (-1) or below (1); beyond both ends the end of the step, and from there round."""
    if chosen is None:
        return 0 if by > 0 else count - 1
    return chosen + by if 0 <= chosen + by < count else None


def first_open(job: Job, planned: PlannedStep, after: int = -1) -> int | None:
    """The first item without an answer behind `after`, then from the top; None where all have one."""
    numbered = list(enumerate(items(job, planned)))
    for number, item in numbered[after + 1 :] + numbered[: after + 1]:
        if not answered(job, planned, item):
            return number
    return None


def left_lines(job: Job, planned: PlannedStep, shown: Chosen = METRIC_FIRST) -> list[str]:
    """What finishing now would leave open, a line each under its heading; none where nothing is left."""
    found = with_names(job, left_open(job, planned.id), shown)
    return ["Finishing it now leaves this open:", *(f"- {text}" for text in found)] if found else []


def parts(planned: PlannedStep | None, item: Item, text: str) -> list[str]:
    """The repeats of a reading that is asked for several times, with `;` between; else the text as it is."""
    repeats = item.kind == READING and planned is not None and planned.step.reading[item.name].times
    return [part for part in text.split(";") if part.strip()] if repeats else [text]
