"""Decisions about a step: what a settlement, a finish, a release or a swap names and stands on; and its refusals."""

from __future__ import annotations

import itertools
import re
import unicodedata
from collections.abc import Collection, Sequence

from jobtrack import units
from jobtrack.job.acts.base import Plain, replace
from jobtrack.job.acts.conditions import ClosesAct
from jobtrack.job.acts.steps import (
    AddedStepAct,
    FinishedAct,
    NotNeededAct,
    ReleasedAct,
    SettledAct,
    StandsAct,
    SwappedAct,
)
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import NoReason, Refused, nearest
from jobtrack.job.compose.typed import given_value, yes_or_no
from jobtrack.job.compose.values import earlier, given_name
from jobtrack.job.state.conditions import openings
from jobtrack.job.state.history import Done, Place
from jobtrack.job.state.job import LOOK_AGAIN, person
from jobtrack.job.state.look_again import values_now
from jobtrack.job.state.standing import Standing
from jobtrack.template.plan import PlannedStep, members

LONGEST_ID = 40
"""Characters of an id that is made from a title."""


def settle(draft: Draft, name: str, text: str, whose: str | None = None) -> None:
    """Say which of the values in disagreement counts: a value, or whose."""
    place = draft.job.places.settled_place(name, draft.step)
    if place[0] == "given":
        place = ("given", "", given_name(draft, name))
    found = _standing(draft, place)
    if not found.acts:
        raise Refused(f"nothing is recorded for {name!r}; there is nothing to settle, record a value")
    act = SettledAct(place[2], of=earlier(draft, place))
    if whose is None:
        draft.add(_by_value(draft, act, place, text))
    else:
        theirs = [done for done in found.acts if person(done.entry.by) == person(whose)]
        draft.add(_by_person(act, whose, theirs))


def _standing(draft: Draft, place: Place) -> Standing:
    places, (kind, step, name) = draft.job.places, place
    if kind == "given":
        return places.given(name)
    return places.reading(step, name) if kind == "reading" else places.tick(step, name)


def _by_person(act: SettledAct, whose: str, theirs: Sequence[Done]) -> SettledAct:
    if not theirs:
        raise Refused(f"{whose} recorded none of the values in disagreement; say whose counts, or the value")
    theirs_last = theirs[-1].act
    if isinstance(theirs_last, TickAct):
        return replace(act, value=theirs_last.yes, whose=whose)
    if not isinstance(theirs_last, ReadingAct | GivenAct | SettledAct):
        return replace(act, whose=whose)
    return replace(act, value=theirs_last.value, unit=theirs_last.unit, typed=theirs_last.typed, whose=whose)


def _by_value(draft: Draft, act: SettledAct, place: Place, text: str) -> SettledAct:
    if place[0] == "tick":
        return replace(act, value=yes_or_no(act.settled, text))
    if place[0] == "given":
        given = draft.job.plan.givens[act.settled]
        value = given_value(act.settled, given, text)
        return replace(act, value=value, unit=given.unit, typed=text.strip())
    unit = draft.planned.step.reading[place[2]].unit
    read = units.read(text, unit)
    if read.value is None:
        raise Refused(f"{act.settled} is settled by a number, not by {text!r}")
    return replace(act, value=float(read.value), unit=unit, typed=read.typed)


def add_step(
    draft: Draft, step: str, title: str, after: str | None = None, before: str | None = None
) -> None:
    """A step that the template doesn't have, ahead of another or behind one, else behind the call's own."""
    if step in draft.job.steps or "." in step or not step.strip():
        raise Refused(f"{step!r} can't be a new step's id; choose one that isn't there yet, without a dot")
    if after and before:
        raise Refused(f"{step} stands after one step or before one; say which of the two")
    near = before or after
    if near and near not in draft.job.steps:
        raise Refused(f"no step {near!r} in this job{nearest(near, draft.job.steps)}")
    draft.add(AddedStepAct(step, title, None if before else after or draft.step, before))


def id_of(title: str, taken: Collection[str]) -> str:
    """An id for a step of this title that no other has: plain letters and digits with hyphens, no dot."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().casefold()
    words = re.findall(r"[a-z0-9]+", plain)
    stem = "-".join(words)[:LONGEST_ID].strip("-") or "step"
    numbers = (f"{stem}-{number}" for number in itertools.count(2))
    return next(one for one in itertools.chain([stem], numbers) if one not in taken)


def not_needed(draft: Draft, because: str | None = None) -> None:
    """The step isn't needed, with or without a reason."""
    acts = tuple(done.name for done in draft.job.view.in_step(draft.planned.id))
    draft.add(NotNeededAct(because=because or None, of=acts))


def stands(draft: Draft, because: str, steps: Sequence[str] = ()) -> None:
    """Looked at again, and still right: for the call's step, or for several at once."""
    if not because.strip():
        raise NoReason("a step that was looked at again stands with a reason; say why")
    names = tuple(steps) or (draft.planned.id,)
    on: dict[str, Plain] = {}
    for name in names:
        if (state := draft.job.state(name)) != LOOK_AGAIN:
            raise Refused(f"{name} is {state}, not to be looked at again; finish it or leave it")
        on.update(values_now(draft.job.plan, draft.job.steps[name], draft.job.now))
    draft.add(StandsAct(names, because, on))


def finished(draft: Draft) -> None:
    """Finish the step on the values as they count now, and close what it closes."""
    planned = draft.planned
    draft.add(FinishedAct(on=values_now(draft.job.plan, planned, draft.job.now)))
    for condition in planned.step.closes:
        if names := _openings(draft, condition, planned):
            draft.add(ClosesAct(names))


def _openings(draft: Draft, condition: str, planned: PlannedStep) -> tuple[str, ...]:
    """Every opening that can be seen of the step's own member; of all, where it is over another set."""
    others = {*members(draft.job.plan.template, planned.set)} - {planned.member}
    found = [
        one
        for one in openings(draft.job.plan, draft.job.view)
        if one.id == condition and one.member not in others
    ]
    return tuple(dict.fromkeys(one.done.name for one in found))


def release_hold(draft: Draft) -> None:
    """Release the hold behind the step, on the values as they count now."""
    planned = draft.planned
    if planned.hold is None:
        raise Refused(f"{planned.id} has no hold to release; finish it as it is")
    draft.add(ReleasedAct(planned.id, values_now(draft.job.plan, planned, draft.job.now)))


def swap(draft: Draft) -> None:
    """Left and right were confused: the readings of the step change places with the other member's."""
    planned = draft.planned
    both = draft.job.plan.by_base.get(planned.base, ())
    if len(both) != 2:
        raise Refused(f"{planned.base} isn't done on two sides; record the right values instead")
    acts = [
        done for one in both for done in draft.job.view.in_step(one.id) if isinstance(done.act, ReadingAct)
    ]
    draft.add(SwappedAct(planned.id, tuple(done.name for done in acts)))
