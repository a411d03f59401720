"""Histories of two and three copies that collide often: a script, and how it is played."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import timedelta
from itertools import count

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import Job
from jobtrack.job.state.standing import Standing
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    START,
    Copy,
    Do,
    close,
    entry_id,
    finish,
    read,
    release,
    settle,
    stands,
    tick,
    undo,
)  # fmt: skip
from tests.support.oracle import Event, Ids, Oracle
from tests.support.said import job_problems, step_problems

PEOPLE = ("Wim", "Ada", "Jo")
SIDES = ("mark.left", "mark.right")
MOVED = ("22.8", "23.5", "23.5", "23.5", "24.4")
SPACINGS = ("1012", "1013", "1015")
Move = tuple[int, str, str | None, tuple[Do, ...]]
"""In which copy, by whom, in which step, what; no acts: that copy takes in the others."""


def _measure(side: str) -> st.SearchStrategy[tuple[str | None, tuple[Do, ...]]]:
    moved = st.sampled_from(MOVED)
    spacing = st.sampled_from(SPACINGS)
    return st.one_of(
        moved.map(lambda text: (side, (read("moved", text),))),
        moved.map(lambda text: (side, (read("moved", text), finish))),
        spacing.map(lambda text: (DONOR, (read("spacing", text), finish))),
        st.booleans().map(lambda yes: (side, (tick("scribed", yes),))),
    )


def _say(side: str) -> st.SearchStrategy[tuple[str | None, tuple[Do, ...]]]:
    by_name: tuple[str | None, tuple[Do, ...]] = (None, (close("unread"),))
    merging: tuple[str | None, tuple[Do, ...]] = (None, ())
    finishing: tuple[str | None, tuple[Do, ...]] = (side, (finish,))
    undoing: tuple[str | None, tuple[Do, ...]] = (None, (undo,))
    others: list[tuple[str | None, tuple[Do, ...]]] = [
        (side, (release,)),
        (side, (stands(),)),
        (side, (settle("moved", "23.5"),)),
    ]
    return st.sampled_from([*[by_name, merging, finishing, undoing] * 2, by_name, by_name, *others])


# One side most of the time, so that the copies meet there.
sides = st.sampled_from((SIDES[0], SIDES[0], SIDES[0], SIDES[1]))


@st.composite
def moves(draw: st.DrawFn, copies: int) -> Move:
    side = draw(sides)
    step, do = draw(st.one_of(_measure(side), _say(side)))
    copy = draw(st.integers(0, copies - 1))
    return copy, PEOPLE[draw(st.sampled_from((copy, copy, 0)))], step, do


@dataclass(frozen=True)
class Script:
    copies: int
    moves: list[Move]
    clocks: list[int]
    """Minutes by which each entry's clock is off."""


@st.composite
def scripts(draw: st.DrawFn) -> Script:
    copies = draw(st.integers(2, 3))
    those = draw(st.lists(moves(copies), min_size=5, max_size=13))
    return Script(copies, those, draw(st.lists(st.integers(-9000, 9000), min_size=4, max_size=4)))


@dataclass
class Played:
    """What a script came to: each copy, all of them merged, and who had seen what."""

    copies: list[Copy]
    events: dict[str, Event] = field(default_factory=dict)

    @property
    def merged(self) -> Job:
        return self.copies[0].split("merged").take(*self.copies).job

    def oracle(self, held: Ids | None = None) -> Oracle:
        return Oracle(self.events, frozenset(self.events) if held is None else held)

    def move(self, number: int, by: str, step: str | None, do: tuple[Do, ...]) -> None:
        copy = self.copies[number]
        if not do:
            copy.take(*self.copies)
            return
        seen = frozenset(entry.id for entry in copy.entries)
        try:
            entry = copy.call(step, *do, by=by)
        except Refused:
            return
        self.events[entry.id] = Event(entry, seen)


def play(script: Script, clocks: Iterable[int] = ()) -> Played:
    """Play a script: both vehicles measured in all copies, then each move in its copy."""
    wrong = list(clocks) or [0]
    first = Copy(clock=(START + timedelta(minutes=turn + wrong[turn % len(wrong)]) for turn in count()))
    played = Played([first])
    played.move(0, "Wim", DONOR, (read("spacing", "1012"), finish))
    played.move(0, "Ada", RECIPIENT, (read("spacing", "965"), finish))
    for number in range(1, script.copies):
        copy = first.split(f"copy {number}")
        copy.clock = first.clock
        played.copies.append(copy)
    first.ids = (entry_id(number, "copy 0") for number in count())
    for move in script.moves:
        played.move(*move)
    return played


def shares(played: Played) -> Counter[str]:
    """What the copies ran into, for the count of how often they collide."""
    oracle = played.oracle()
    places = [(step, item) for step in SIDES for item in ("moved", "scribed")] + [(DONOR, "spacing")]
    unseen = any(
        opening.entry.id not in closing.seen | {closing.entry.id} and closing.entry.id not in opening.seen
        and closing.entry.step in (None, opening.entry.step)
        for closing in oracle.closings() for opening in oracle.openings()
    )  # fmt: skip
    changed = any(oracle.then(event).stood_on(step) != oracle.stood_on(step)
                  for step in SIDES for event in oracle.finished(step))  # fmt: skip
    disagree = any(len({value for _, value in oracle.live(*place)}) > 1 for place in places)
    return Counter({"unseen opening": unseen, "disagreement": disagree, "finish on a changed value": changed})


def over_histories(check: Callable[[Script], None], examples: int = 100) -> Counter[str]:
    """Check a property over scripts, the same ones in every run. Gives how many reach what; the whole under `all`."""
    met: Counter[str] = Counter()

    @settings(max_examples=examples, derandomize=True, database=None, deadline=None, report_multiple_bugs=False,
             phases=(Phase.generate, Phase.shrink),
              suppress_health_check=[HealthCheck.too_slow])  # fmt: skip
    @given(scripts())
    def run(script: Script) -> None:
        met.update(shares(play(script)))
        met["all"] += 1
        check(script)

    run()
    return met


Snapshot = dict[str, object]


def snapshot(job: Job) -> Snapshot:
    """All of a job's outcome that can be observed, times left out."""
    return {
        "steps": {step: (job.state(step), step_problems(job, step), _hold(job, step)) for step in job.steps},
        "readings": {f"{step}.{name}": (job.now.verdict(step, name), _standing(job.places.reading(step, name)))
                     for step, planned in job.steps.items() for name in planned.step.reading},
        "ticks": {f"{step}.{name}": _standing(job.places.tick(step, name))
                  for step, planned in job.steps.items() for name in planned.step.tick},
        "givens": {name: _standing(job.places.given(name)) for name in job.plan.givens},
        "open": [(one.name, one.text, one.by, one.openings, one.remark) for one in job.all_open],
        "next": job.next_steps, "problems": job_problems(job), "ended": job.ended,
        "last": [[entry.id for entry in job.entries_of(person)][-1:] for person in PEOPLE],
        "order": [entry.id for entry in job.view.entries],
    }  # fmt: skip


def _hold(job: Job, step: str) -> object:
    hold = job.hold(step)
    return hold and (hold.ask, hold.state, hold.release and hold.release.name)


def _standing(standing: Standing) -> object:
    typed = [done.act.typed for done in standing.acts if isinstance(done.act, ReadingAct)]
    return standing.value, standing.agreed, [done.name for done in standing.acts], typed
