"""The whole clock rule held against a model that goes through the day minute by minute. Arithmetic only."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.hours.labour import labour
from jobtrack.job.about import About
from jobtrack.job.state.job import Job
from jobtrack.job.time.clock import times, without_overlap
from tests.support.builders import DONOR, RECIPIENT, Copy, about, clock, minutes, note, undo

PEOPLE = ("Wim", "Ada")
STEPS = (None, DONOR, RECIPIENT, "nuts")
LINES = ("trunk", "here", "there", "other job")
RESIDUE = {"trunk": 0, "here": 0, "there": 1, "other job": 2}
"""So that no two lines have an entry in the same minute."""

Op = tuple[int, str, str, int, bool]
"""Minutes waited (times four), who, what, in which step, whether it is taken back at once."""


@dataclass(eq=False)
class Event:
    """One entry as the model sees it."""

    minute: int
    line: str
    who: str
    what: str
    step: str | None
    names: Event | None = None
    """The *on* that an off or a break means."""


@dataclass
class Model:
    """The events that count, and whose clock is on in which line."""

    events: list[Event] = field(default_factory=list)

    def clock_minutes(self, on: Event) -> tuple[dict[int, str], int]:
        """The step of each minute that counts on one clock, and when it ends."""
        seen = {
            one.minute: one
            for one in self.events
            if one.who == on.who and one.minute > on.minute and self._knows(on, one)
        }
        owner: dict[int, str | None] = {}
        waiting: list[int] = []
        step, awake = on.step, True
        end = on.minute
        for minute in range(on.minute, max(seen, default=on.minute) + 1):
            event = seen.get(minute)
            if event is not None:
                end = minute
                if event.step is not None:
                    step = event.step
                if event.step is not None or self._stops(event, on):
                    owner.update(dict.fromkeys(waiting, step))
                    waiting = []
                if event.what == "on" or (event.what == "off" and event.names is on):
                    break
                awake = not (event.what == "break" and event.names is on)
            if awake:
                waiting.append(minute)
        owner.update({minute: step for minute in waiting if minute < end})
        steps = [step for step in [on.step, *(owner[one] for one in sorted(owner))] if step is not None]
        first = steps[0] if steps else step or "(no step)"
        return {minute: mine or first for minute, mine in owner.items()}, end

    def _stops(self, event: Event, on: Event) -> bool:
        return event.what == "on" or event.names is on

    def _knows(self, on: Event, one: Event) -> bool:
        if "other job" in (on.line, one.line):
            return on.line == one.line
        return on.line in ("trunk", one.line)

    def worked(self) -> Counter[tuple[str, str, str]]:
        """Minutes by line's job, person and step: a later *on* has the minutes from its on to its end."""
        day: dict[tuple[str, int], tuple[str, str] | None] = {}
        for on in sorted((one for one in self.events if one.what == "on"), key=lambda one: one.minute):
            owner, end = self.clock_minutes(on)
            if owner:
                day.update({(on.who, minute): None for minute in range(on.minute, end)})
            job = "job-2" if on.line == "other job" else "job-1"
            day.update({(on.who, minute): (job, step) for minute, step in owner.items()})
        return Counter((mine[0], who, mine[1]) for (who, _), mine in day.items() if mine)


class Both:
    """The same ops on real entries and on the model."""

    def __init__(self) -> None:
        self.model = Model()
        self.copies = {
            "trunk": Copy(),
            "other job": Copy(Job.fold(About("job-2", "Second", about().plan, about().hash), ())),
        }
        self.at = {"trunk": 0, "other job": 0}
        self.on: dict[tuple[str, str], Event | None] = {}

    def split(self) -> None:
        trunk = self.copies["trunk"]
        for line in ("here", "there"):
            self.copies[line] = trunk.split(line)
            self.at[line] = self.at["trunk"]
            self.on.update({(line, who): self.on.get(("trunk", who)) for who in PEOPLE})

    def do(self, line: str, op: Op) -> None:
        wait, who, what, step, taken_back = op
        names = self.on.get((line, who))
        if what in ("off", "break") and names is None:
            return
        event = Event(self._later(line, wait), line, who, what, STEPS[step], names if what != "on" else None)
        act = note() if what == "entry" else clock(what)
        copy = self.copies[line]
        copy.call(event.step, act, by=who, at=minutes(event.minute))
        if taken_back:
            event = Event(self._later(line, 1), line, who, "entry", None)
            copy.call(None, undo, by=who, at=minutes(event.minute))
        elif what in ("on", "off"):
            self.on[line, who] = event if what == "on" else None
        if event.what == "entry":
            event.names = None
        self.model.events.append(event)

    def _later(self, line: str, wait: int) -> int:
        self.at[line] += wait
        return 4 * self.at[line] + RESIDUE[line]

    def merged(self) -> list[Job]:
        return [self.copies["here"].take(self.copies["there"]).job, self.copies["other job"].job]


kinds = st.sampled_from(["on", "entry", "entry", "off", "break", "entry"])
taken_back = st.sampled_from([False, False, False, False, False, True])
ops = st.lists(
    st.tuples(
        st.integers(1, 9), st.sampled_from(["Wim", "Wim", "Wim", "Ada"]), kinds, st.integers(0, 3), taken_back
    ),
    max_size=9,
)
few = settings(max_examples=120, derandomize=True, database=None, deadline=None)


def both_of(days: tuple[list[Op], ...]) -> Both:
    both = Both()
    for line, day in zip(LINES, days, strict=True):
        if line == "here":
            both.split()
        for op in day:
            both.do(line, op)
    return both


def counted(jobs: list[Job]) -> Counter[tuple[str, str, str]]:
    """Minutes as the program counts them."""
    found: Counter[tuple[str, str, str]] = Counter()
    for one in without_overlap(one for job in jobs for one in times(job).stretches):
        whole = one.exact * 60
        assert whole.denominator == 1
        found[one.job, one.person, one.step] += int(whole)
    return found


@few
@given(st.tuples(ops, ops, ops, ops))
def test_as_minute_by_minute(days: tuple[list[Op], ...]) -> None:
    """Clocks, breaks, undo, two copies merged and a second job give the hours that each minute gives."""
    both = both_of(days)
    assert counted(both.merged()) == both.model.worked()


@few
@given(st.tuples(ops, ops, ops, ops), st.randoms(use_true_random=False))
def test_groups_add_up_and_the_order_in_the_file_is_nothing(
    days: tuple[list[Op], ...], random: Random
) -> None:
    """Steps and "(no step)" together are the total, and so are people; entries may stand in any order."""
    jobs = both_of(days).merged()
    for per in ("step", "person", "job"):
        found = labour(jobs, per)
        assert sum(group.hours for group in found.groups) == pytest.approx(found.total_hours)
    shuffled = []
    for job in jobs:
        entries = list(job.view.entries)
        random.shuffle(entries)
        shuffled.append(Job.fold(job.about, entries))
    assert counted(shuffled) == counted(jobs)
    assert labour(shuffled, "step").total_hours == labour(jobs, "step").total_hours


def test_the_model_counts_what_it_should() -> None:
    """The model itself: on, an entry in a step 4 minutes later, a break of 8, 4 more minutes, off."""
    both = Both()
    for op in [(1, "on", 0), (1, "entry", 1), (1, "break", 0), (2, "entry", 0), (1, "off", 0)]:
        both.do("trunk", (op[0], "Wim", op[1], op[2], False))
    assert both.model.worked() == {("job-1", "Wim", DONOR): 12}


@pytest.mark.parametrize("day", [
    [("on", 0), ("break", 0), ("entry", 0), ("entry", 1), ("off", 0)],
    [("on", 0), ("entry", 1), ("entry", 2), ("break", 0), ("entry", 0), ("off", 0)],
    [("on", 0), ("on", 0), ("entry", 1), ("off", 0), ("entry", 2)],
])  # fmt: skip
def test_rare_days_too(day: list[tuple[str, int]]) -> None:
    """No step before a break, none after it, and a clock on twice give the model's minutes as well."""
    both = Both()
    for what, step in day:
        both.do("trunk", (2, "Wim", what, step, False))
    assert counted([both.copies["trunk"].job]) == both.model.worked()
