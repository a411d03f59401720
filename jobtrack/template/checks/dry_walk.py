"""The order of the expanded steps: what comes before what, round loops, and a dry walk through the job."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct, field

from jobtrack.template.plan import Plan, PlannedStep

Opening = tuple[str, str | None]
"""A condition and the member that it was opened for."""


def loop(links: Mapping[str, Iterable[str]]) -> list[str]:
    """The names of one loop, in its order, the first again at the end; empty if there is none."""
    done: set[str] = set()
    for start in links:
        if start in done:
            continue
        path: list[str] = [start]
        todo = [iter(links.get(start, ()))]
        while todo:
            name = next(todo[-1], None)
            if name is None:
                todo.pop()
                done.add(path.pop())
            elif name in path:
                return [*path[path.index(name) :], name]
            elif name not in done:
                path.append(name)
                todo.append(iter(links.get(name, ())))
    return []


def comes_before(plan: Plan) -> dict[str, set[str]]:
    """For each step all the steps that come before it; a plan without loops."""
    before: dict[str, set[str]] = {}
    for start in plan.steps:
        todo = [start]
        while todo:
            open_ends = [step for step in plan.steps[todo[-1]].after if step not in before]
            if open_ends:
                todo += open_ends
                continue
            step = todo.pop()
            before[step] = set(plan.steps[step].after).union(
                *(before[each] for each in plan.steps[step].after)
            )
    return before


class Walk(Struct):
    """A dry walk: each time the first step that nothing stops, as if every `only_when` were met."""

    plan: Plan
    finished: dict[str, None] = field(default_factory=dict)
    open: set[Opening] = field(default_factory=set)

    def run(self) -> Walk:
        """Go on until nothing can be begun; what isn't finished then can't be reached."""
        left = dict.fromkeys(self.plan.steps)
        while (
            step := next((name for name in left if self._can_begin(self.plan.steps[name])), None)
        ) is not None:
            self._finish(self.plan.steps[step])
            del left[step]
        return self

    def stopped_by(self, planned: PlannedStep) -> list[str]:
        """The open conditions that the step must not be begun with."""
        return [name for name in planned.step.not_while if self._is_open(name)]

    def _is_open(self, name: str) -> bool:
        condition, _, member = name.partition(".")
        return any(each == condition and member in {"", of} for each, of in self.open)

    def _can_begin(self, planned: PlannedStep) -> bool:
        if not all(step in self.finished for step in planned.after) or self.stopped_by(planned):
            return False
        return not planned.stage.one_by_one or not self._other_in_hand(planned)

    def _other_in_hand(self, planned: PlannedStep) -> bool:
        stage = self.plan.in_stage(planned.step.stage)
        for member in {step.member for step in stage if step.set == planned.set} - {planned.member, None}:
            those = [step.id in self.finished for step in stage if step.member == member]
            if any(those) and not all(those):
                return True
        return False

    def _finish(self, planned: PlannedStep) -> None:
        self.open |= {(name, planned.member) for name in planned.step.opens}
        self.open -= {
            each for each in self.open if each[0] in planned.step.closes and self._reaches(planned, each)
        }
        self.finished[planned.id] = None

    def _reaches(self, planned: PlannedStep, opening: Opening) -> bool:
        """A closing reaches the openings of its own member, over another set those of all members."""
        openers = [step for step in self.plan.steps.values() if opening[0] in step.step.opens]
        same_set = any(step.set == planned.set and step.member == opening[1] for step in openers)
        return not same_set or planned.member == opening[1]
