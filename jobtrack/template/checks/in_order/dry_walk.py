"""A dry walk through the job: each step as soon as nothing stops it, as if every `only_when` were met."""

from __future__ import annotations

from collections import Counter
from heapq import heapify, heappop, heappush

from msgspec import Struct, field

from jobtrack.template.checks.in_order.sequence import Waiting
from jobtrack.template.kept import kept
from jobtrack.template.plan import Plan, PlannedStep

Waited = tuple[str, str]
"""What a step that could be begun waits for: a condition, or that a stage has no other member in hand."""


class Walk(Struct):
    """Each time the first step that nothing stops; one that is stopped is looked at again when that changes."""

    plan: Plan
    finished: dict[str, None] = field(default_factory=dict)
    open: dict[str, dict[str | None, None]] = field(default_factory=dict)
    """The open conditions, each with the members that it was opened for."""
    _stopped: dict[Waited, list[str]] = field(default_factory=dict)
    _done: Counter[tuple[str, str | None]] = field(default_factory=Counter)
    """How many steps of a stage are finished, by member."""
    _in_hand: dict[str, set[str | None]] = field(default_factory=dict)
    """The members begun and not brought to their end, by stage."""

    def run(self) -> Walk:
        """Go on until nothing can be begun; what isn't finished then can't be reached."""
        place = {name: number for number, name in enumerate(self.plan.steps)}
        waiting = Waiting(self.plan)
        turn = [(place[name], name) for name in waiting.first()]
        heapify(turn)
        while turn:
            planned = self.plan.steps[heappop(turn)[1]]
            if waited := self._waits_for(planned):
                self._stopped.setdefault(waited, []).append(planned.id)
                continue
            for name in (*self._finish(planned), *waiting.settle(planned.id)):
                heappush(turn, (place[name], name))
        return self

    def stopped_by(self, planned: PlannedStep) -> list[str]:
        """The open conditions that the step must not be begun with."""
        return [name for name in planned.step.not_while if self._is_open(name)]

    def _is_open(self, name: str) -> bool:
        condition, _, member = name.partition(".")
        opened = self.open.get(condition, {})
        return member in opened if member else bool(opened)

    def _waits_for(self, planned: PlannedStep) -> Waited | None:
        if stopping := self.stopped_by(planned):
            return "condition", stopping[0].partition(".")[0]
        if planned.stage.one_by_one and self._other_in_hand(planned):
            return "stage", planned.step.stage
        return None

    def _other_in_hand(self, planned: PlannedStep) -> bool:
        others = self._in_hand.get(planned.step.stage, set()) - {planned.member, None}
        return bool(others) and not others.isdisjoint(
            members_in_stages(self.plan)[planned.step.stage, planned.set]
        )

    def _finish(self, planned: PlannedStep) -> list[str]:
        """Steps to be looked at again, that had been stopped by what has come to an end here."""
        self.finished[planned.id] = None
        for name in planned.step.opens:
            self.open.setdefault(name, {})[planned.member] = None
        ended: list[Waited] = [
            ("condition", name) for name in planned.step.closes if self._close(planned, name)
        ]
        if self._brought_to_its_end(planned):
            ended.append(("stage", planned.step.stage))
        return [step for waited in ended for step in self._stopped.pop(waited, ())]

    def _close(self, planned: PlannedStep, condition: str) -> bool:
        """Whether the closing closed anything."""
        reached = self._reached(planned, condition)
        for member in reached:
            del self.open[condition][member]
        return bool(reached)

    def _reached(self, planned: PlannedStep, condition: str) -> list[str | None]:
        """A closing reaches the openings of its own member, over another set those of all members."""
        opened = self.open.get(condition, {})
        own = [planned.member] if planned.member in opened else []
        sets = openers(self.plan).get(condition, {})
        if set(sets) == {planned.set}:
            return own
        others = [member for member in opened if member not in sets.get(planned.set, ())]
        return list(dict.fromkeys([*own, *others]))

    def _brought_to_its_end(self, planned: PlannedStep) -> bool:
        """One step more of its member's in the stage: whether that is all of them."""
        stage, member = planned.step.stage, planned.member
        self._done[stage, member] += 1
        if self._done[stage, member] < steps_of_members(self.plan)[stage, member]:
            self._in_hand.setdefault(stage, set()).add(member)
            return False
        self._in_hand.get(stage, set()).discard(member)
        return True


@kept
def walked(plan: Plan) -> Walk:
    """The dry walk through a plan without loops."""
    return Walk(plan).run()


@kept
def openers(plan: Plan) -> dict[str, dict[str | None, set[str | None]]]:
    """The members of the steps that open a condition, by their set."""
    found: dict[str, dict[str | None, set[str | None]]] = {}
    for planned in plan.steps.values():
        for name in planned.step.opens:
            found.setdefault(name, {}).setdefault(planned.set, set()).add(planned.member)
    return found


@kept
def steps_of_members(plan: Plan) -> Counter[tuple[str, str | None]]:
    """How many steps a stage has for each member, of whatever set."""
    return Counter((planned.step.stage, planned.member) for planned in plan.steps.values())


@kept
def members_in_stages(plan: Plan) -> dict[tuple[str, str | None], set[str | None]]:
    """The members of a set that a stage has steps for."""
    found: dict[tuple[str, str | None], set[str | None]] = {}
    for planned in plan.steps.values():
        found.setdefault((planned.step.stage, planned.set), set()).add(planned.member)
    return found
