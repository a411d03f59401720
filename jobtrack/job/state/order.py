"""The order of steps: what stops one now, and what was out of order when something was recorded.

Nothing here stops anybody from recording. It says what comes next, and writes down what came too early.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Protocol

from msgspec import Struct

from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.view import View
from jobtrack.job.values.evaluation import Evaluation
from jobtrack.template.plan import Plan, PlannedStep


class Order(Protocol):
    """What is asked of the state of a job where its order is judged."""

    plan: Plan
    view: View
    judged: dict[tuple[str, int], tuple[tuple[Blocker, ...], str | None]]

    @property
    def now(self) -> Evaluation:
        """What follows from the values as they count now."""
        ...

    @property
    def steps(self) -> Mapping[str, PlannedStep]:
        """The expanded steps by id, in the order of the plan."""
        ...

    @property
    def open_conditions(self) -> Sequence[OpenCondition]:
        """What is recorded as open."""
        ...

    @property
    def ended(self) -> str | None:
        """Closed or stopped; None: it hasn't ended."""
        ...

    def settled(self, step: str) -> bool:
        """Whether a step is finished and stands so, or isn't needed."""
        ...

    def released(self, step: str) -> bool:
        """Whether nothing holds behind a step."""
        ...

    def seen_by(self, entry: Entry) -> Order:
        """The state that an entry follows: what whoever entered it could see."""
        ...


def wanted(job: Order, planned: PlannedStep) -> bool | None:
    """Whether a step's `only_when` is met, all its keys together; None while a given isn't known."""
    answer: bool | None = True
    for name, values in planned.only_when.items():
        ref = job.plan.resolve(name, planned)
        value = job.now.source.standing(ref).value if ref is not None else None
        if value is None:
            answer = None
        elif value not in values:
            return False
    return answer


class Blocker(Struct, frozen=True):
    """Something that should come first: a step, a hold, the other member's end, or an open condition."""

    kind: str
    """step, hold, member or condition."""
    what: str


def blockers(job: Order, planned: PlannedStep) -> Iterator[Blocker]:
    """What the order or an open condition puts before a step."""
    yield from _steps_before(job, planned)
    yield from _other_member(job, planned)
    yield from _conditions(job, planned)


def _steps_before(job: Order, planned: PlannedStep) -> Iterator[Blocker]:
    todo, seen = [planned], {planned.id}
    while todo:
        of = todo.pop()
        for before in of.after:
            if before in seen or before not in job.steps:
                continue
            seen.add(before)
            if not job.settled(before):
                yield Blocker("step", before)
            elif not job.released(before):
                yield Blocker("hold", before)
            elif _passes_on(job, of, job.steps[before]):
                todo.append(job.steps[before])


def _passes_on(job: Order, planned: PlannedStep, before: PlannedStep) -> bool:
    """Whether the step before in its stage is of a branch that isn't taken: what comes before that one counts.

    Else a step behind a branch would be next from the beginning. An `after` that is written down is taken as
    it stands.
    """
    in_line = planned.step.after is None and before.step.stage == planned.step.stage
    return in_line and not _worked(job, before) and wanted(job, before) is False


def _worked(job: Order, planned: PlannedStep) -> bool:
    return any(done.act.work for done in job.view.in_step(planned.id))


def _other_member(job: Order, planned: PlannedStep) -> Iterator[Blocker]:
    """In a stage done one by one, the member begun first is brought to its end first."""
    if not planned.stage.one_by_one or planned.member is None:
        return
    first = _begun_first(job, planned)
    for step in job.plan.in_stage(planned.step.stage) if first not in (None, planned.member) else ():
        if step.member == first and not (job.settled(step.id) and job.released(step.id)):
            yield Blocker("member", step.id)
            return


def _begun_first(job: Order, planned: PlannedStep) -> str | None:
    begun = [
        (done.order, step.member)
        for step in job.plan.in_stage(planned.step.stage)
        for done in job.view.in_step(step.id)
        if done.act.work
    ]
    return min(begun)[1] if begun else None


def _conditions(job: Order, planned: PlannedStep) -> Iterator[Blocker]:
    for named in planned.step.not_while:
        condition, _, member = named.partition(".")
        for id, of, words in _open_now(job):
            if id == condition and (not member or of == member):
                yield Blocker("condition", words)


def _open_now(job: Order) -> Iterator[tuple[str, str | None, str]]:
    """What is open, and what a damaged entry may have opened: id, member, words."""
    for one in job.open_conditions:
        yield one.id, one.member, one.words
        for each in one.perhaps:
            yield each.id, each.member, f"perhaps {each.words}"


class TooEarly(Struct, frozen=True):
    """Work in a step before what should have come first; of one kind, in the order in which it was found."""

    step: str
    kind: str
    """As a blocker's."""
    what: tuple[str, ...]


class AfterEnd(Struct, frozen=True):
    """Work in a step after the job was closed or stopped."""

    step: str
    ended: str


OutOfOrder = TooEarly | AfterEnd


def out_of_order(job: Order, planned: PlannedStep) -> list[OutOfOrder]:
    """What came too early, judged by what each entry in the step follows; it stays written afterwards."""
    found: dict[Blocker, None] = {}
    ended: str | None = None
    work = {done.entry.hash: done.entry for done in job.view.in_step(planned.id) if done.act.work}
    for entry in work.values():
        early, after = _judged(job, planned, entry)
        found.update(dict.fromkeys(early))
        ended = ended or after
    return [*too_early(planned.id, found), *([AfterEnd(planned.id, ended)] if ended else [])]


def _judged(job: Order, planned: PlannedStep, entry: Entry) -> tuple[tuple[Blocker, ...], str | None]:
    """What stood before a step when an entry was made, and whether the job had ended; kept for good."""
    key = (planned.id, job.view.ancestors[entry.hash])
    if key not in job.judged:
        before = job.seen_by(entry)
        job.judged[key] = tuple(blockers(before, planned)), before.ended
    return job.judged[key]


def too_early(step: str, found: Iterable[Blocker]) -> list[TooEarly]:
    """What should have come before a step, one of each kind."""
    by_kind: dict[str, list[str]] = {}
    for one in found:
        by_kind.setdefault(one.kind, []).append(one.what)
    return [TooEarly(step, kind, tuple(what)) for kind, what in by_kind.items()]
