"""One more entry in a job of 100, 1,500 and 15,000: `python tests/bench/applying.py [ENTRIES ...]`.

What an entry costs, each as a ratio to parsing the same entry's bytes with tomli, compiled, in the same run: taken
in, drafted before that, its effects looked for, and what a screen asks next. A cost that goes with what changed
stays the same ratio however many entries are there. The entries go round the steps of the shipped template: each
round opens, measures, answers, finishes and releases again what the round before did, and here and there somebody
takes one back.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import count, islice
from statistics import median
from time import perf_counter

import tomli

from jobtrack.job.about import About
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import FinishedAct, ReleasedAct
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.remarks.effects import effects
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.job import Job
from jobtrack.job.state.look_again import stands_on
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.store.text.writing import write_entry
from jobtrack.template.load import load
from jobtrack.template.plan import Plan, PlannedStep, plan

SIZES = (100, 1500, 15000)
TIMES = 12
"""So many entries are timed at each size; the median counts."""
START = datetime(2031, 4, 1, 8, 0, tzinfo=UTC)
FIRST = "asked by a screen that shows its step for the first time, at most"
UNDONE = 37
"""Every so many entries one is taken back."""


class Maker:
    """Entries one behind the other, as one person on one laptop would make them, without asking a job."""

    def __init__(self, planned: Plan) -> None:
        self.plan = planned
        self.values: dict[str, float | bool] = {}
        self.named: dict[str, list[str]] = defaultdict(list)
        self.last = Entry("none", 0, START, "Wim", (), (), "header")

    def entries(self) -> Iterator[Entry]:
        """Round after round over all steps."""
        for turn in count():
            for planned in self.plan.steps.values():
                for acts in self._of_step(planned, turn):
                    yield self._entry(planned.id, acts)
                    if self.last.n % UNDONE == 0:
                        yield self._entry(None, [UndoesAct(self.last.id)])

    def _of_step(self, planned: PlannedStep, turn: int) -> Iterator[list[Act]]:
        opening: list[Act] = [OpensAct(one, planned.member) for one in planned.step.opens]
        for name, reading in planned.step.reading.items():
            if reading.from_ is None:
                value = 20.0 + turn % 3
                replaces = self._at(f"{planned.id}.{name}", value)
                yield [*opening, ReadingAct(name, value, reading.unit, str(value), replaces=replaces)]
                opening = []
        for name in planned.step.tick:
            yield [*opening, TickAct(name, True, self._at(f"{planned.id}.{name}", True))]
            opening = []
        on = {name: self.values[name] for name in stands_on(self.plan, planned) if name in self.values}
        yield [FinishedAct(on=on)]
        if planned.hold is not None:
            yield [ReleasedAct(planned.id, on)]

    def _at(self, place: str, value: float | bool) -> tuple[str, ...]:
        """The acts that stood at a place, which the next one names."""
        self.values[place] = value
        earlier = tuple(self.named[place])
        self.named[place].append(f"entry{self.last.n + 1:011}/0")
        return earlier

    def _entry(self, step: str | None, acts: list[Act]) -> Entry:
        n = self.last.n + 1
        at = START + timedelta(minutes=n)
        self.last = Entry(f"entry{n:011}", n, at, "Wim", tuple(acts), (self.last.hash,), f"hash{n:08}", step)
        return self.last


def timed(work: Callable[[], object]) -> float:
    """Seconds."""
    begun = perf_counter()
    work()
    return perf_counter() - begun


def drafted(job: Job, entry: Entry) -> None:
    """The same acts composed once more, each seen by the next, as a preview does."""
    draft = Draft(job, entry.by, entry.at, entry.step)
    for act in entry.did:
        draft.add(act)
    draft.done()


def asked(job: Job, entry: Entry) -> None:
    """What a screen asks next: the states of all steps, what is open, what stands against the entry's step."""
    _ = job.next_steps, job.open_conditions
    if entry.step is not None:
        step_problems(job, entry.step)


def costs(job: Job, entry: Entry) -> tuple[Job, dict[str, float]]:
    """The job with one more entry, and the seconds of each thing done with it, its step being on the screen."""
    data = write_entry(entry)[0].decode()
    measure = min(timed(lambda: tomli.loads(data)) for _ in range(5))
    first = timed(lambda: asked(job, entry))
    found = {"tomli": measure, "drafted": timed(lambda: drafted(job, entry))}
    begun = perf_counter()
    after = job.apply(entry)
    found["applied"] = perf_counter() - begun
    found["its effects"] = timed(lambda: list(effects(job, after)))
    found["asked by a screen"] = timed(lambda: asked(after, entry))
    found[FIRST] = first
    return after, found


def main(sizes: list[int]) -> None:
    """Print the ratios."""
    template, _ = load(max(shipped("job_templates").glob("*.toml"), key=lambda one: one.stat().st_size))
    planned = plan(template)
    about = About("bench", "Bench", planned, "header")
    for size in sizes:
        made = Maker(planned).entries()
        job = Job.fold(about, islice(made, size))
        asked(job, next(iter(job.view.entries)))
        rows = []
        for entry in islice(made, TIMES):
            job, found = costs(job, entry)
            rows.append(found)
        measure = median(row["tomli"] for row in rows)
        print(f"{size} entries; one entry parsed by tomli: {measure * 1e6:.0f} µs")
        for what in list(rows[0])[1:]:
            took = (max if what == FIRST else median)(row[what] for row in rows)
            print(f"  {what}: {took * 1000:.2f} ms, {took / measure:.0f} times as long")


if __name__ == "__main__":
    main([int(one) for one in sys.argv[1:]] or list(SIZES))
