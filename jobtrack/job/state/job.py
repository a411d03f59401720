"""The state of a job: where each step stands, whether its hold is released or was before a change, what is open.

The outcome is a function of the set: `apply` may take the entries one by one in any order and gives what
`fold` gives. Everything is derived on demand and nothing is patched; what an entry can't have changed is kept.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import cached_property
from typing import TypeVar

from msgspec import Struct

from jobtrack.job.about import About
from jobtrack.job.acts.base import On
from jobtrack.job.acts.ending import JobClosedAct, JobStoppedAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import AddedStepAct, FinishedAct, NotNeededAct, ReleasedAct, StandsAct
from jobtrack.job.state import order
from jobtrack.job.state.changed import touched
from jobtrack.job.state.conditions import Condition, OpenCondition, open_among, open_conditions
from jobtrack.job.state.damage import Damage
from jobtrack.job.state.history import Done, History
from jobtrack.job.state.look_again import Reason, doubts_of, stands_on, unsettled
from jobtrack.job.state.standing import Places
from jobtrack.job.state.view import View
from jobtrack.job.values.evaluation import Evaluation
from jobtrack.job.values.sources import Now
from jobtrack.template.plan import Plan, PlannedStep

Known = TypeVar("Known")
TO_COME, NEXT, IN_HAND, FINISHED, NOT_NEEDED, LOOK_AGAIN = (
    "to come",
    "next",
    "in hand",
    "finished",
    "not needed",
    "look again",
)
RELEASED, RELEASED_BEFORE = "released", "released before a change"
Judged = dict[tuple[str, int], tuple[tuple[order.Blocker, ...], str | None]]
"""By step and by what an entry could see, as a mask: what stood before the step, and whether the job had ended."""


class HoldState(Struct, frozen=True):
    """The hold point behind a step: what is asked, whether it is released, and the release that says so."""

    ask: str
    state: str
    """to come, released, or released before a change."""
    release: Done | None


class Job:
    """The state of a job as a set of entries gives it."""

    def __init__(
        self, about: About, view: View, damage: tuple[Damage, ...] = (), like: Job | None = None
    ) -> None:
        """`like` is a job that this one comes from: where it has the same steps they are spread out only once."""
        self.about = about
        self.view = view
        self.damage = damage
        self._added = tuple(done.act for done in view.of_kind(AddedStepAct))
        same = like is not None and like._added == self._added
        self.plan: Plan = like.plan if like is not None and same else self._with_added_steps()
        self.places = Places(self.plan, self.view)
        self.now = Evaluation(self.plan, Now(self.places))
        self._states: dict[str, str] = {}
        self._own_states: dict[str, str | None] = {}
        self._stands: dict[str, bool] = {}
        self._holds: dict[str, HoldState | None] = {}
        self._reasons: dict[object, list[Reason]] = {}
        shared = like is not None and like.plan is self.plan and like.view.history is view.history
        self.judged: Judged = like.judged if like is not None and shared else {}
        """What came too early in a step, by what its entry could see: that never changes."""

    @classmethod
    def fold(cls, about: About, entries: Iterable[Entry], damage: tuple[Damage, ...] = ()) -> Job:
        """The state that a set of entries gives, whatever their order."""
        return cls(about, View(History(header=about.hash), 0)).with_more(entries, damage)

    def with_more(self, entries: Iterable[Entry], damage: tuple[Damage, ...]) -> Job:
        """The state with more entries, and what can't be read of the file by now."""
        return Job(self.about, self.view.with_more(entries), damage, self)._take_over(self)

    def apply(self, entry: Entry) -> Job:
        """The state with one more entry, which is recorded."""
        return self.with_more((entry,), self.damage)

    def as_if(self, *entries: Entry) -> Job:
        """The state as it would be with entries that aren't recorded: nothing of them stays behind."""
        return Job(self.about, self.view.with_more(entries, aside=True), self.damage, self)._take_over(self)

    def _take_over(self, before: Job) -> Job:
        """Keep what an earlier state has found out of the steps and places that nothing has touched since."""
        found = touched(before, self)
        if found is not None:
            self._own_states.update(_but(before._own_states, found.steps))
            self._stands.update(_but(before._stands, found.steps))
            self._holds.update(_but(before._holds, found.steps))
            self.places.take_over(before.places, found.places)
        return self

    def seen_by(self, entry: Entry) -> Job:
        """The state that an entry follows: what whoever entered it could see, before anything was damaged."""
        return Job(self.about, self.view.part(self.view.ancestors[entry.hash]), like=self)

    def _with_added_steps(self) -> Plan:
        planned = self.about.plan
        for act in self._added:
            if isinstance(act, AddedStepAct):
                planned = planned.with_added(act.step, act.title, act.after, act.before)
        return planned

    # Steps

    @property
    def steps(self) -> dict[str, PlannedStep]:
        """The expanded steps by id, in the order of the plan, those that somebody added among them."""
        return self.plan.steps

    def state(self, step: str) -> str:
        """Where a step stands: to come, next, in hand, finished, not needed or look again."""
        if step not in self._states:
            planned = self.steps[step]
            own = self._own_state(step)
            waits = own is None and (self.ended is not None or any(order.blockers(self, planned)))
            self._states[step] = own or (TO_COME if waits else NEXT)
        return self._states[step]

    def _own_state(self, step: str) -> str | None:
        """A step's state where no other step decides it; None: to come or next, as the order has it.

        What others ask of a step needs no more than this, so that no row of steps, however long, and no
        ring of them is gone round.
        """
        if step not in self._own_states:
            self._own_states[step] = self._by_itself(self.steps[step])
        return self._own_states[step]

    def _by_itself(self, planned: PlannedStep) -> str | None:
        acts = self.view.in_step(planned.id)
        not_needed = self._not_needed(acts)
        if not_needed is True:
            return NOT_NEEDED
        if any(isinstance(done.act, FinishedAct) for done in acts):
            return FINISHED if self.stands(planned.id) else LOOK_AGAIN
        if not_needed is False or any(done.act.work for done in acts):
            return IN_HAND
        if (wanted := order.wanted(self, planned)) is not True:
            return NOT_NEEDED if wanted is False else TO_COME
        return None

    @staticmethod
    def _not_needed(acts: list[Done]) -> bool | None:
        """True: somebody marked the step not needed, having seen all its acts; False: not having seen them."""
        marks = [done for done in acts if isinstance(done.act, NotNeededAct)]
        work = {done.name for done in acts if done.act.work}
        if not marks:
            return None
        return any(isinstance(done.act, NotNeededAct) and work <= set(done.act.of) for done in marks)

    def settled(self, step: str) -> bool:
        """Finished or not needed."""
        return self._own_state(step) in (FINISHED, NOT_NEEDED)

    def stands(self, step: str) -> bool:
        """Whether a *finished* of the step, or somebody's *stands*, still answers both questions right."""
        if step not in self._stands:
            planned = self.steps.get(step)
            self._stands[step] = planned is not None and any(
                not self._unsettled(planned, done) for done in reversed(self.finishes(step))
            )
        return self._stands[step]

    def finishes(self, step: str) -> list[Done]:
        """Every *finished* of a step and every *stands* that names it; stands alone finish nothing."""
        finished = [done for done in self.view.in_step(step) if isinstance(done.act, FinishedAct)]
        stands = [
            done
            for done in self.view.of_kind(StandsAct)
            if isinstance(done.act, StandsAct) and step in done.act.stands
        ]
        return finished + stands if finished else []

    def why_look_again(self, step: str) -> list[Reason]:
        """The reasons of the last *finished* or *stands*; empty while the step stands."""
        finishes = sorted(self.finishes(step), key=lambda done: done.order)
        if not finishes or self.stands(step):
            return []
        return self._unsettled(self.steps[step], finishes[-1])

    def _unsettled(self, planned: PlannedStep, done: Done) -> list[Reason]:
        """Why a *finished*, *stands* or release of a step stands no more; those on the same values are judged once."""
        on = done_on(done)
        below = stands_on(self.plan, planned)
        strict = any(reading.strict for reading in planned.step.reading.values())
        seen = Now(Places(self.plan, self._view_with(done.entry))) if strict else None
        doubts = doubts_of(self.plan, below, seen) if seen else ()
        key = (planned.id, doubts, frozenset((name, type(value), value) for name, value in on.items()))
        if key not in self._reasons:
            self._reasons[key] = unsettled(self.plan, planned, self.now, on, seen)
        return self._reasons[key]

    def _view_with(self, entry: Entry) -> View:
        """What an entry follows, and itself."""
        return self.view.part(self.view.ancestors[entry.hash] | 1 << self.view.bit(entry))

    def hold(self, step: str) -> HoldState | None:
        """The hold point after a step and whether it is released."""
        if step not in self._holds:
            self._holds[step] = self._hold(self.steps[step])
        return self._holds[step]

    def _hold(self, planned: PlannedStep) -> HoldState | None:
        if planned.hold is None:
            return None
        releases = [
            done
            for done in self.view.of_kind(ReleasedAct)
            if isinstance(done.act, ReleasedAct) and done.act.released == planned.id
        ]
        good = next((done for done in reversed(releases) if not self._unsettled(planned, done)), None)
        if good is not None:
            return HoldState(planned.hold.ask, RELEASED, good)
        return HoldState(
            planned.hold.ask, RELEASED_BEFORE if releases else TO_COME, releases[-1] if releases else None
        )

    def released(self, step: str) -> bool:
        """Whether nothing holds behind a step: no hold, or one that is released, or the step isn't needed."""
        hold = self.hold(step)
        return hold is None or hold.state == RELEASED or self._own_state(step) == NOT_NEEDED

    @cached_property
    def next_steps(self) -> list[str]:
        """The steps that neither the order nor anything recorded as open stops."""
        return [step for step in self.steps if self.state(step) == NEXT]

    # Conditions

    @cached_property
    def all_open(self) -> list[OpenCondition]:
        """Everything recorded as open, what passes to the due-afterwards list too."""
        return open_conditions(self.plan, self.view, self.damage, self.stands)

    @cached_property
    def open_conditions(self) -> list[OpenCondition]:
        """What is recorded as open. Once the job is closed, what was to be done afterwards stands on that list."""
        if self.ended == "closed":
            return [one for one in self.all_open if one.passes_to is None]
        return self.all_open

    def open_among(self, those: Collection[Condition] | None) -> list[OpenCondition]:
        """Those of some conditions that are recorded as open, where nothing of the record is lost; None: all."""
        if those is None:
            return self.open_conditions
        found = open_among(self.plan, self.view, self.stands, those)
        return [one for one in found if one.passes_to is None or self.ended != "closed"]

    # The end

    @cached_property
    def ended(self) -> str | None:
        """None, closed or stopped. Stopped wins."""
        if self.view.of_kind(JobStoppedAct):
            return "stopped"
        return "closed" if self.view.of_kind(JobClosedAct) else None

    def entries_of(self, by: str) -> list[Entry]:
        """A person's own entries that count and that undo takes back one by one; itself it is none of them."""
        return [
            entry
            for entry in self.view.counting_entries()
            if person(entry.by) == person(by) and not any(isinstance(act, UndoesAct) for act in entry.did)
        ]


def done_on(done: Done) -> On:
    """The values that an act stood on."""
    act = done.act
    return act.on if isinstance(act, FinishedAct | StandsAct | ReleasedAct) else {}


def person(name: str) -> str:
    """A person's name as it is compared: trimmed and case-folded."""
    return " ".join(name.split()).casefold()


def _but(known: Mapping[str, Known], steps: Collection[str]) -> dict[str, Known]:
    """What is known of all steps but some."""
    return {step: one for step, one in known.items() if step not in steps}
