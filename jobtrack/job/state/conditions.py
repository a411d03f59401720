"""What is recorded as open: unsafe or unfinished things, and what can't be read.

Every opening counts, undone ones too; a closing reaches only the openings that it names. So nobody's
closing reaches a condition that they hadn't seen opened, and in doubt the open side wins.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from datetime import datetime

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import SetAsideAct, TakenInAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.state.damage import ENTRY_MISSING, UNKNOWN, Damage
from jobtrack.job.state.history import Done, closing
from jobtrack.job.state.history import opening as opening_of
from jobtrack.job.state.view import View
from jobtrack.template.plan import Plan, PlannedStep

ASK_FIRST, ASK_FIRST_TAG = "ask-first", "ASK FIRST"
MISSING = "an entry that others follow isn't in this file; what it opened isn't known"


Condition = tuple[str, str | None]
"""A condition's id, or the name of the opening where it is in somebody's own words; and its member."""


class Perhaps(Struct, frozen=True):
    """A condition that a damaged entry may have opened, and that nothing else shows as open."""

    id: str
    member: str | None
    text: str
    tag: str | None

    @property
    def name(self) -> str:
        """As somebody types it to close it: ID or ID.MEMBER."""
        return f"{self.id}.{self.member}" if self.member else self.id

    @property
    def words(self) -> str:
        """Its text, with the side or vehicle."""
        return of_member(self.text, self.member)


class OpenCondition(Struct, frozen=True):
    """Something open: one condition of one member. `openings` are the names that a closing must give."""

    id: str
    member: str | None
    step: str | None
    text: str
    since: datetime | None
    by: str | None
    tag: str | None
    openings: tuple[str, ...]
    passes_to: str | None = None
    remark: str | None = None
    """Why it is still open where somebody might think otherwise; what a damaged entry may have opened."""
    perhaps: tuple[Perhaps, ...] = ()
    last: tuple[int, str, str] | None = None
    """The order of the entry that opened it last: a fire watch begins anew with each weld."""

    @property
    def name(self) -> str:
        """As somebody types it to close it: ID or ID.MEMBER."""
        return f"{self.id}.{self.member}" if self.member else self.id

    @property
    def words(self) -> str:
        """Its text, with the side or vehicle."""
        return of_member(self.text, self.member)


def of_member(text: str, member: str | None) -> str:
    """A text with the side or vehicle that it is about."""
    return f"{text} ({member})" if member else text


class _Opening(Struct, frozen=True):
    done: Done
    id: str
    member: str | None
    implied: bool = False
    """The step's acts are there, its opening isn't: the first of them counts as one."""


def openings(plan: Plan, view: View) -> Iterator[_Opening]:
    """Every opening that was recorded, and those that a lost entry must have held."""
    for done in view.of_kind(OpensAct, undone=True):
        if isinstance(done.act, OpensAct):
            yield _Opening(done, *condition_of(plan, done))
    for planned in plan.steps.values():
        yield from _implied(planned, view)


def _openings_of(plan: Plan, view: View, condition: Condition) -> Iterator[_Opening]:
    """The openings of one condition, found without asking for all."""
    id, member = condition
    known = id in plan.template.condition or id == ASK_FIRST
    for done in view.acts(opening_of(id), undone=True) if known else view.named(id):
        if isinstance(done.act, OpensAct) and condition_of(plan, done) == condition:
            yield _Opening(done, id, member)
    for planned in plan.steps.values():
        if condition in of_step(planned):
            yield from (one for one in _implied(planned, view) if one.id == id)


def condition_of(plan: Plan, done: Done) -> Condition:
    """What an opening opens: the template's id; a text of somebody's own goes by the name of its opening."""
    opens = done.act.opens if isinstance(done.act, OpensAct) else ""
    member = done.act.member if isinstance(done.act, OpensAct) else None
    return (opens if opens in plan.template.condition or opens == ASK_FIRST else done.name), member


def of_step(planned: PlannedStep | None) -> list[Condition]:
    """The conditions that a step's first act opens, by the template."""
    return [(one, planned.member) for one in planned.step.opens] if planned is not None else []


def _implied(planned: PlannedStep, view: View) -> Iterator[_Opening]:
    if not planned.step.opens:
        return
    acts = [done for done in view.in_step(planned.id, undone=True) if done.act.work]
    opened = {done.act.opens for done in acts if isinstance(done.act, OpensAct)}
    for condition in planned.step.opens if acts else ():
        if condition not in opened:
            yield _Opening(acts[0], condition, planned.member, implied=True)


def closed_names(view: View, stands: Callable[[str], bool]) -> frozenset[str]:
    """The openings that a closing names and that stay closed: a step's own only while it stands finished."""
    names: set[str] = set()
    for done in view.of_kind(ClosesAct):
        if isinstance(done.act, ClosesAct) and _holds(done.entry, stands):
            names.update(done.act.closes)
    return frozenset(names)


def _closed_among(view: View, stands: Callable[[str], bool], names: Iterable[str]) -> frozenset[str]:
    """Those of some openings that stay closed."""
    return frozenset(
        name for name in names if any(_holds(done.entry, stands) for done in view.acts(closing(name)))
    )


def _holds(entry: Entry, stands: Callable[[str], bool]) -> bool:
    finished = any(isinstance(act, FinishedAct) for act in entry.did)
    return not finished or entry.step is None or stands(entry.step)


def open_conditions(
    plan: Plan, view: View, damage: tuple[Damage, ...], stands: Callable[[str], bool]
) -> list[OpenCondition]:
    """Everything recorded as open, in the order in which it was opened; what can't be read comes first."""
    closed = closed_names(view, stands)
    found = list(openings(plan, view))
    known = {(opening.id, opening.member) for opening in found}
    groups = _groups(found, closed)
    unreadable = [
        _may_have_opened(plan, one, damaged, known, groups.keys())
        for one, damaged in _unreadable(view, damage, closed)
    ]
    return [*unreadable, *(_condition(plan, view, group) for group in groups.values())]


def open_among(
    plan: Plan, view: View, stands: Callable[[str], bool], those: Iterable[Condition]
) -> list[OpenCondition]:
    """Those of some conditions that are open, in the same order, where nothing of the record is lost."""
    found = [one for condition in those for one in _openings_of(plan, view, condition)]
    closed = _closed_among(view, stands, {one.done.name for one in found})
    return [_condition(plan, view, group) for group in _groups(found, closed).values()]


def _groups(found: Iterable[_Opening], closed: Collection[str]) -> dict[Condition, list[_Opening]]:
    """The openings that aren't closed, by condition, both in the order in which they were opened."""
    groups: dict[Condition, list[_Opening]] = {}
    for opening in sorted(found, key=lambda opening: opening.done.order):
        if opening.done.name not in closed:
            groups.setdefault((opening.id, opening.member), []).append(opening)
    return groups


def _condition(plan: Plan, view: View, group: list[_Opening]) -> OpenCondition:
    """One open condition from its openings, the earliest first."""
    first = group[0]
    known = plan.template.condition.get(first.id)
    text, tag = known.text if known else _own_words(first), known.tag if known else _own_tag(first.done.entry)
    if first.id == ASK_FIRST:
        text, tag = plan.template.ask_first or text, ASK_FIRST_TAG
    return OpenCondition(
        first.id,
        first.member,
        first.done.entry.step,
        text,
        first.done.entry.at,
        first.done.entry.by,
        tag,
        tuple(opening.done.name for opening in group),
        known.passes_to if known else None,
        _remark(view, group),
        last=max(opening.done.entry.order for opening in group),
    )


def _own_tag(entry: Entry) -> str | None:
    """The tag of a condition that no template has: only where an entry was set aside that may have opened some."""
    aside = any(isinstance(act, SetAsideAct) for act in entry.did)
    return f"{UNKNOWN} ENTRY SET ASIDE" if aside else None


def _own_words(opening: _Opening) -> str:
    act = opening.done.act
    return act.opens if isinstance(act, OpensAct) else opening.id


def _remark(view: View, group: list[_Opening]) -> str | None:
    if any(opening.implied for opening in group):
        return "the entry that opened it is lost; the step's first act counts as its opening"
    if all(view.undone(opening.done.entry) for opening in group):
        return "the entry that opened it was undone; it stays open until it is closed by name"
    return None


def _unreadable(
    view: View, damage: tuple[Damage, ...], closed: frozenset[str]
) -> Iterator[tuple[OpenCondition, Damage | None]]:
    """What can't be read and isn't accounted for, each with its remains where there are any."""
    accounted = closed | {
        name
        for kind in (TakenInAct, SetAsideAct)
        for done in view.of_kind(kind)
        for name in (done.act.of if isinstance(done.act, TakenInAct | SetAsideAct) else ())
    }
    for one in damage:
        if one.header or not one.names & accounted:
            yield _lost(one.hash, one.words, one.tag), one
    altered = {name for one in damage for name in one.names}
    for name in view.missing:
        if name not in accounted and name not in altered:
            yield _lost(name, MISSING, ENTRY_MISSING), None


def _lost(name: str, text: str, tag: str) -> OpenCondition:
    return OpenCondition(name, None, None, text, None, None, tag, (name,))


def _may_have_opened(
    plan: Plan,
    one: OpenCondition,
    damage: Damage | None,
    known: Collection[Condition],
    listed: Collection[Condition],
) -> OpenCondition:
    """The same with what the damaged entry names, and what its step opens and nobody else has opened."""
    if damage is None:
        return one
    planned = plan.steps.get(damage.legible.step or "")
    own = of_step(planned)
    opened = dict.fromkeys([*damage.legible.opens, *(each for each in own if each not in known)])
    perhaps = tuple(_perhaps(plan, *each) for each in opened if each not in listed)
    if not perhaps:
        return one
    named = ", ".join(f"{each.words} (tag {each.tag})" if each.tag else each.words for each in perhaps)
    return replace(one, remark=f"by what is left of it, it may have opened: {named}", perhaps=perhaps)


def _perhaps(plan: Plan, name: str, member: str | None) -> Perhaps:
    condition = plan.template.condition.get(name)
    return Perhaps(name, member, condition.text if condition else name, condition.tag if condition else None)
