"""The order of a template's steps found the plain way, which takes long: what the checks' own way is held against."""

from __future__ import annotations

from dataclasses import dataclass, field

from jobtrack.template.plan import Plan, PlannedStep

Opening = tuple[str, str | None]


def goes_round(plan: Plan) -> bool:
    """Whether some step comes before itself: taking away steps that wait for nothing leaves some."""
    left = {name: set(planned.after) for name, planned in plan.steps.items()}
    while free := [name for name, after in left.items() if not after & set(left)]:
        left = {name: after for name, after in left.items() if name not in free}
    return bool(left)


def comes_before(plan: Plan) -> dict[str, set[str]]:
    """For each step of a plan without loops all the steps that come before it: grown until nothing is added."""
    before = {name: set(planned.after) for name, planned in plan.steps.items()}
    grown = True
    while grown:
        more = {name: those.union(*(before[each] for each in those)) for name, those in before.items()}
        grown, before = more != before, more
    return before


@dataclass
class PlainWalk:
    """Each time the first step of all that nothing stops, every one asked anew."""

    plan: Plan
    finished: list[str] = field(default_factory=list)
    open: set[Opening] = field(default_factory=set)

    def run(self) -> PlainWalk:
        """Until nothing can be begun."""
        while step := next((one for one in self.plan.steps.values() if self._can_begin(one)), None):
            self._finish(step)
        return self

    def _can_begin(self, planned: PlannedStep) -> bool:
        if planned.id in self.finished or not set(planned.after) <= set(self.finished):
            return False
        if any(self._is_open(name) for name in planned.step.not_while):
            return False
        return not planned.stage.one_by_one or not self._other_in_hand(planned)

    def _is_open(self, name: str) -> bool:
        condition, _, member = name.partition(".")
        return any(each == condition and member in {"", of} for each, of in self.open)

    def _other_in_hand(self, planned: PlannedStep) -> bool:
        stage = [one for one in self.plan.steps.values() if one.step.stage == planned.step.stage]
        for member in {step.member for step in stage if step.set == planned.set} - {planned.member, None}:
            those = [step.id in self.finished for step in stage if step.member == member]
            if any(those) and not all(those):
                return True
        return False

    def _finish(self, planned: PlannedStep) -> None:
        self.open |= {(name, planned.member) for name in planned.step.opens}
        closes = {each for each in self.open if each[0] in planned.step.closes}
        self.open -= {each for each in closes if self._reaches(planned, each)}
        self.finished.append(planned.id)

    def _reaches(self, planned: PlannedStep, opening: Opening) -> bool:
        openers = [step for step in self.plan.steps.values() if opening[0] in step.step.opens]
        same_set = any(step.set == planned.set and step.member == opening[1] for step in openers)
        return not same_set or planned.member == opening[1]
