"""A template spread out over its members, and which step comes after which: `tack` over `side` is `tack.left` and more.

Names are resolved here and nowhere else (the order of look-up is the contract's): inside the step,
then `STEP[.MEMBER].ID`, then a given, in a step over `vehicle` that vehicle's own first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.template.model import Given, Hold, PerMember, Scalar, Stage, Step, Template

VEHICLE_SET = "vehicle"


class Ref(Struct, frozen=True):
    """What a name stands for. `name` is its canonical form, unique in the job."""

    kind: str
    """reading, tick, given or result."""
    name: str
    step: str | None = None
    """The expanded step; None for a given."""
    item: str = ""
    """The reading, the tick, or the working-out."""
    result: str = ""
    """The key of the working-out's result; empty otherwise."""


class PlannedStep(Struct, frozen=True):
    """One step for one member. `after` holds expanded step ids."""

    id: str
    base: str
    member: str | None
    set: str | None
    step: Step
    stage: Stage
    after: tuple[str, ...] = ()
    added: bool = False
    """Not in the template: somebody put it in while the job ran."""

    @property
    def hold(self) -> Hold | None:
        """The hold point behind it, by either of its keys."""
        return self.step.hold or self.step.go_or_stop

    @property
    def only_when(self) -> dict[str, tuple[str | bool, ...]]:
        """The givens and answers under which it is wanted: its stage's and its own; its own win."""
        return {**self.stage.only_when, **self.step.only_when}

    def limit(self, limit: Scalar | PerMember | None) -> Scalar | None:
        """This member's share of a limit that may differ from member to member."""
        if isinstance(limit, dict):
            return limit.get(self.member) if self.member else None
        return limit


@dataclass(frozen=True)
class Plan:
    """The expanded steps of a template, in the order of the file, and the way from a name to its thing."""

    template: Template
    steps: dict[str, PlannedStep] = field(default_factory=dict)
    stands_on: dict[str, dict[str, Ref]] = field(default_factory=dict, compare=False, repr=False)
    """What each step stands on, kept once it has been asked (`job/state/look_again.py`)."""
    looking_at: dict[str, frozenset[str]] = field(default_factory=dict, compare=False, repr=False)
    """The other way round: which steps look at a typed value, kept there too."""

    units: dict[str, str | None] = field(default_factory=dict, compare=False, repr=False)
    """The units of results, kept once they have been asked for (`one_unit.py`)."""

    @cached_property
    def givens(self) -> dict[str, Given]:
        """All givens, each vehicle's `name` among them."""
        names = {
            f"{vehicle}.name": Given(ask=f"Name of the {vehicle}", kind="text")
            for vehicle in self.template.vehicle
        }
        return {**names, **self.template.given}

    @cached_property
    def by_base(self) -> dict[str, tuple[PlannedStep, ...]]:
        """The expanded steps by the step of the template that they come from."""
        found: dict[str, list[PlannedStep]] = {}
        for planned in self.steps.values():
            found.setdefault(planned.base, []).append(planned)
        return {base: tuple(steps) for base, steps in found.items()}

    @cached_property
    def by_stage(self) -> dict[str, tuple[PlannedStep, ...]]:
        """The expanded steps by their stage."""
        found: dict[str, list[PlannedStep]] = {}
        for planned in self.steps.values():
            found.setdefault(planned.step.stage, []).append(planned)
        return {stage: tuple(steps) for stage, steps in found.items()}

    def in_stage(self, stage: str) -> tuple[PlannedStep, ...]:
        """The expanded steps of a stage, in the order of the plan."""
        return self.by_stage.get(stage, ())

    def named(self, name: str, near: PlannedStep | None = None) -> tuple[PlannedStep, ...]:
        """The steps that `STEP` or `STEP.MEMBER` means, seen from `near`: its own member of the same set."""
        if name in self.steps:
            return (self.steps[name],)
        steps = self.by_base.get(name, ())
        if near is not None and near.member is not None and steps and steps[0].set == near.set:
            own = self.steps.get(f"{name}.{near.member}")
            return (own,) if own is not None else ()
        return steps

    def resolve(self, name: str, near: PlannedStep | None = None) -> Ref | None:
        """What `name` stands for, written in `near`; None where it stands for nothing, or for several."""
        parts = name.split(".")
        return (
            (self._inside(parts, near) if near else None)
            or self._elsewhere(parts, near)
            or self._given(name, near)
        )

    def _inside(self, parts: list[str], near: PlannedStep) -> Ref | None:
        return _item(near, parts) or (_item(near, parts[1:]) if parts[0] == near.base else None)

    def _elsewhere(self, parts: list[str], near: PlannedStep | None) -> Ref | None:
        for take in (2, 1):
            steps = self.named(".".join(parts[:take]), near) if len(parts) > take else ()
            if len(steps) == 1 and (found := _item(steps[0], parts[take:])):
                return found
        return None

    def _given(self, name: str, near: PlannedStep | None) -> Ref | None:
        own = f"{near.member}.{name}" if near and near.set == VEHICLE_SET else name
        for candidate in (own, name):
            if candidate in self.givens:
                return Ref("given", candidate, item=candidate)
        return None

    def with_added(
        self, step_id: str, title: str, after: str | None = None, before: str | None = None
    ) -> Plan:
        """The plan with one more step that somebody put in: ahead of `before`, else behind `after`.

        Where neither is a step it stands last and waits for nothing.
        """
        if step_id in self.steps:
            return self
        if before in self.steps and before:
            return self._with(
                self._added(step_id, title, self.steps[before], self.steps[before].after), before
            )
        behind = (after,) if after in self.steps and after else ()
        near = self.steps.get(after or "") or next(reversed(self.steps.values()), None)
        return self._with(self._added(step_id, title, near, behind), after=near.id if near else None)

    @staticmethod
    def _added(step_id: str, title: str, near: PlannedStep | None, behind: tuple[str, ...]) -> PlannedStep:
        """A step in the stage of the one it stands near."""
        stage, stage_id = (near.stage, near.step.stage) if near else (Stage("Added"), "")
        step = Step(stage=stage_id, title=title, after=behind)
        return PlannedStep(step_id, step_id, None, None, step, stage, behind, added=True)

    def _with(self, added: PlannedStep, before: str | None = None, after: str | None = None) -> Plan:
        """The plan with a step ahead of another, which then waits for it, or behind one."""
        steps: dict[str, PlannedStep] = {}
        for planned in self.steps.values():
            if planned.id == before:
                steps[added.id] = added
                planned = replace(planned, after=(*planned.after, added.id))
            steps[planned.id] = planned
            if planned.id == after:
                steps[added.id] = added
        return Plan(self.template, steps or {added.id: added})


def _item(planned: PlannedStep, parts: list[str]) -> Ref | None:
    """The reading, tick or result that the rest of a name means inside one step."""
    step = planned.step
    if len(parts) == 1:
        kind = "reading" if parts[0] in step.reading else "tick" if parts[0] in step.tick else ""
        return Ref(kind, f"{planned.id}.{parts[0]}", planned.id, parts[0]) if kind else None
    if len(parts) == 2 and parts[0] in step.work_out:
        return Ref("result", f"{planned.id}.{parts[0]}.{parts[1]}", planned.id, parts[0], parts[1])
    return None


def members(template: Template, set_name: str | None) -> tuple[str, ...]:
    """The members of a set; those of `vehicle` are the vehicles. Unknown: empty."""
    if set_name == VEHICLE_SET:
        return tuple(template.vehicle)
    return template.set.get(set_name or "", ())


def plan(template: Template) -> Plan:
    """Spread a template out over its members.

    A step names its set itself or has its stage's; an unknown set leaves the step single
    (`proofread` finds it), so that a damaged template can still be shown.
    """
    bare = Plan(template, dict(_expanded(template)))
    found = links(bare)
    groups = _members_of_groups(template, found)
    steps = {
        planned.id: replace(planned, after=_flat(found[planned.id], groups))
        for planned in bare.steps.values()
    }
    return Plan(template, steps)


def _expanded(template: Template) -> Iterator[tuple[str, PlannedStep]]:
    for base, step in template.step.items():
        stage = template.stage.get(step.stage, Stage(title=step.stage))
        set_name = step.for_each or stage.for_each
        those = members(template, set_name)
        if not those:
            yield base, PlannedStep(base, base, None, None, step, stage)
        for member in those:
            planned = PlannedStep(f"{base}.{member}", base, member, set_name, step, stage)
            yield planned.id, planned


STEPS_OF, STAGES_BEFORE, EACH = "in:", "before:", "each:"
"""How the names of groups of steps begin: a stage's steps, all of the stages before it, a step's for each member."""
GROUPS = (STEPS_OF, STAGES_BEFORE, EACH)


def links(plan: Plan) -> dict[str, tuple[str, ...]]:
    """What each step waits for, and what each group of steps consists of, so that there are no more links than
    there are words in the template: one link to a group in the place of one to each step of it."""
    found: dict[str, tuple[str, ...]] = {}
    before: tuple[str, ...] = ()
    for stage in plan.template.stage:
        found[STAGES_BEFORE + stage] = before
        found[STEPS_OF + stage] = tuple(planned.id for planned in plan.in_stage(stage))
        before = (STAGES_BEFORE + stage, STEPS_OF + stage)
    last: dict[str, str] = {}
    for base, steps in plan.by_base.items():
        found[EACH + base] = tuple(planned.id for planned in steps)
        found |= {planned.id: _waits_for(plan, planned, last.get(planned.step.stage)) for planned in steps}
        last[steps[0].step.stage] = base
    return found


def _waits_for(plan: Plan, planned: PlannedStep, last: str | None) -> tuple[str, ...]:
    """What should come first: `after`, else the step before in the stage, else the stages before."""
    if planned.step.after is not None:
        return tuple(link for name in planned.step.after for link in _linked(plan, name, planned))
    if last is not None:
        return _linked(plan, last, planned)
    if planned.stage.after:
        return tuple(STEPS_OF + stage for stage in planned.stage.after if stage in plan.template.stage)
    return (STAGES_BEFORE + planned.step.stage,) if planned.step.stage in plan.template.stage else ()


def _linked(plan: Plan, name: str, near: PlannedStep) -> tuple[str, ...]:
    steps = plan.named(name, near)
    return (EACH + name,) if len(steps) > 1 else tuple(step.id for step in steps)


def _members_of_groups(template: Template, found: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """The steps of each group, those of the groups in it too."""
    groups = {name: steps for name, steps in found.items() if name.startswith((STEPS_OF, EACH))}
    before: tuple[str, ...] = ()
    for stage in template.stage:
        groups[STAGES_BEFORE + stage] = before
        before += groups[STEPS_OF + stage]
    return groups


def _flat(waits_for: tuple[str, ...], groups: dict[str, tuple[str, ...]]) -> tuple[str, ...]:
    if len(waits_for) == 1:
        return groups.get(waits_for[0], waits_for)
    return tuple(step for name in waits_for for step in groups.get(name, (name,)))
