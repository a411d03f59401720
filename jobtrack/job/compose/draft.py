"""From the state and what a person put in to the acts of one entry, or a refusal.

An act names what it acts on, so that its outcome follows from the set of entries. A `Draft` holds the
acts of one call; each sees those before it, so that one call can measure again and finish anew.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Sequence
from datetime import datetime
from difflib import get_close_matches

from jobtrack import units
from jobtrack.job.acts.base import Act, Plain, replace
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct, JobStoppedAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import TakenInAct, UndoesAct
from jobtrack.job.acts.people import ClockAct, HandoverAct, TakenOverAct
from jobtrack.job.acts.said import MET, MetAct, NoteAct
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
from jobtrack.job.compose.refusal import Refused, SaidAlready
from jobtrack.job.compose.typed import given_value, reading_act, yes_or_no
from jobtrack.job.state.conditions import openings
from jobtrack.job.state.history import Done, Place
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, Job, person
from jobtrack.job.state.look_again import values_now
from jobtrack.job.time.runs import clocks
from jobtrack.template.plan import VEHICLE_SET, PlannedStep, members

ALPHABET = "abcdefghijklmnopqrstuvwxyz234567"
NOTE_LIMIT = 8 * 1024
"""Bytes of the longest note."""
NAME_LIMIT = 200


def new_id() -> str:
    """A random name for an entry, made before the first try and kept through retries."""
    return "".join(secrets.choice(ALPHABET) for _ in range(16))


class Draft:
    """The acts of one call of one person, in one step or in none."""

    def __init__(
        self, job: Job, by: str, at: datetime, step: str | None = None, id: str | None = None
    ) -> None:
        self.before = job
        self.job = job
        self.by = " ".join(by.split())
        if not self.by or len(self.by) > NAME_LIMIT:
            raise Refused(f"a name is wanted, at most {NAME_LIMIT} characters; say who records this")
        if step is not None and step not in job.steps:
            raise Refused(f"no step {step!r} in this job{_nearest(step, job.steps)}")
        self.step = step
        self.at = at
        self.id = id or new_id()
        self.did: list[Act] = []

    @property
    def planned(self) -> PlannedStep:
        """The step of the call. Raises Refused where it names none."""
        if self.step is None:
            raise Refused("this belongs to a step; name it behind the job file, as STEP or STEP.MEMBER")
        return self.job.steps[self.step]

    def add(self, act: Act) -> None:
        """Put an act behind the others; what comes after sees it. A step's first act brings its openings."""
        if act.work:
            self.did += self._opened_at_first(act)
        self.did.append(act)
        self.job = self.before.as_if(self._entry())

    def _opened_at_first(self, first: Act) -> list[Act]:
        """What the step opens, where nothing in what this call follows has begun it yet."""
        if self.step is None or any(done.act.work for done in self.before.view.in_step(self.step)):
            return []
        opened = {act.opens for act in (*self.did, first) if isinstance(act, OpensAct)}
        return [OpensAct(one, self.planned.member) for one in self.planned.step.opens if one not in opened]

    def _entry(self) -> Entry:
        ends = self.before.view.loose_ends
        n = 1 + max((entry.n for entry in self.before.view.entries), default=0)
        return Entry(self.id, n, self.at, self.by, tuple(self.did), ends, f"draft {new_id()}", self.step)

    def amend(self, act: Act) -> None:
        """Put an act in the place of the last one."""
        self.did.pop()
        self.add(act)

    def earlier(self, kind: type[Act], **keys: str) -> tuple[str, ...]:
        """Every act of a kind that can be seen and has these values."""
        return tuple(
            done.name
            for done in self.job.view.of_kind(kind)
            if all(getattr(done.act, key) == value for key, value in keys.items())
        )

    # Values

    def reading(self, name: str, texts: Sequence[str], mistyped: bool = False) -> None:
        """A measured value as typed, or several where the template asks for repeats.

        `mistyped`: it corrects a slip in typing, the measuring is the same.
        """
        template = self.planned.step.reading.get(name)
        if template is None:
            raise Refused(f"no reading {name!r} in {self.step}{_known(self.planned.step.reading)}")
        if template.from_ is not None:
            raise Refused(f"{name} is worked out, not typed; record what it comes from")
        read = [units.read(text, template.unit) for text in texts]
        replaces = self._earlier(("reading", self.planned.id, name))
        if mistyped and not replaces:
            raise Refused(f"{name} has no value yet that could be mistyped; record it as a reading")
        self.add(replace(reading_act(name, template.unit, read, replaces), mistyped=mistyped))

    def tick(self, name: str, yes: bool) -> None:
        if name not in self.planned.step.tick:
            raise Refused(f"no check {name!r} in {self.step}{_known(self.planned.step.tick)}")
        self.add(TickAct(name, yes, self._earlier(("tick", self.planned.id, name))))

    def given(self, name: str, text: str) -> None:
        """Something known, or `?` for don't know yet."""
        full = self._given_name(name)
        replaces = self._earlier(("given", "", full))
        if text.strip() == "?":
            self.add(GivenAct(full, unknown=True, replaces=replaces))
            return
        given = self.job.plan.givens[full]
        value = given_value(full, given, text)
        self.add(GivenAct(full, value, given.unit, text.strip(), replaces=replaces))

    def _given_name(self, name: str) -> str:
        givens = self.job.plan.givens
        planned = self.job.steps.get(self.step or "")
        own = f"{planned.member}.{name}" if planned and planned.set == VEHICLE_SET else name
        for candidate in (own, name):
            if candidate in givens:
                return candidate
        raise Refused(f"no given {name!r} in this job{_known(givens)}")

    def settle(self, name: str, text: str, whose: str | None = None) -> None:
        """Say which of the values in disagreement counts: a value, or whose."""
        place = self.job.places.settled_place(name, self.step)
        if place[0] == "given":
            place = ("given", "", self._given_name(name))
        standing = {"reading": self.job.places.reading, "tick": self.job.places.tick}.get(place[0])
        found = standing(place[1], place[2]) if standing else self.job.places.given(place[2])
        if not found.acts:
            raise Refused(f"nothing is recorded for {name!r}; there is nothing to settle")
        act = SettledAct(place[2], of=self._earlier(place))
        if whose is not None:
            theirs = [done for done in found.acts if person(done.entry.by) == person(whose)]
            self.add(self._settled_by(act, whose, theirs))
            return
        self.add(self._settled_as(act, place, text))

    @staticmethod
    def _settled_by(act: SettledAct, whose: str, theirs: Sequence[Done]) -> SettledAct:
        if not theirs:
            raise Refused(f"{whose} recorded none of the values in disagreement")
        plain = theirs[-1].act.as_dict()
        value = plain.get("value", plain.get("yes"))
        mean = sum(value) / len(value) if isinstance(value, tuple | list) else value
        typed = plain.get("typed")
        return replace(
            act,
            value=mean,
            unit=plain.get("unit"),
            typed=typed if isinstance(typed, str) else None,
            whose=whose,
        )

    def _settled_as(self, act: SettledAct, place: Place, text: str) -> SettledAct:
        if place[0] == "tick":
            return replace(act, value=yes_or_no(act.settled, text))
        if place[0] == "given":
            given = self.job.plan.givens[act.settled]
            return replace(
                act, value=given_value(act.settled, given, text), unit=given.unit, typed=text.strip()
            )
        unit = self.planned.step.reading[place[2]].unit
        read = units.read(text, unit)
        if read.value is None:
            raise Refused(f"{act.settled} is settled by a number, not by {text!r}")
        return replace(act, value=float(read.value), unit=unit, typed=read.typed)

    def _earlier(self, place: Place) -> tuple[str, ...]:
        """Every earlier act of a place that can be seen, replaced ones too."""
        return tuple(done.name for done in self.job.places.acts(place))

    # Steps

    def finish(self) -> None:
        """Finish the step on the values as they count now, and close what it closes."""
        planned = self.planned
        self.add(FinishedAct(on=values_now(self.job.plan, planned, self.job.now)))
        for condition in planned.step.closes:
            names = self._openings(condition, planned)
            if names:
                self.add(ClosesAct(names))

    def _openings(self, condition: str, planned: PlannedStep) -> tuple[str, ...]:
        """Every opening that can be seen of the step's own member; of all, where it is over another set."""
        others = {*members(self.job.plan.template, planned.set)} - {planned.member}
        found = [
            one
            for one in openings(self.job.plan, self.job.view)
            if one.id == condition and one.member not in others
        ]
        return tuple(dict.fromkeys(one.done.name for one in found))

    def not_needed(self, because: str | None) -> None:
        acts = tuple(done.name for done in self.job.view.in_step(self.planned.id))
        self.add(NotNeededAct(because=because, of=acts))

    def stands(self, because: str, steps: Sequence[str] = ()) -> None:
        """Looked at again, and still right: for the call's step, or for several at once."""
        names = tuple(steps) or (self.planned.id,)
        on: dict[str, Plain] = {}
        for name in names:
            if self.job.state(name) != LOOK_AGAIN:
                raise Refused(
                    f"{name} is {self.job.state(name)}, not to be looked at again; finish it or leave it"
                )
            on.update(values_now(self.job.plan, self.job.steps[name], self.job.now))
        self.add(StandsAct(names, because, on))

    def release(self) -> None:
        planned = self.planned
        if planned.hold is None:
            raise Refused(f"{planned.id} has no hold to release")
        self.add(ReleasedAct(planned.id, values_now(self.job.plan, planned, self.job.now)))

    def add_step(self, step: str, title: str, after: str | None, before: str | None = None) -> None:
        """A step that the template doesn't have, ahead of another or behind one, else behind the call's own."""
        if step in self.job.steps or "." in step or not step.strip():
            raise Refused(
                f"{step!r} can't be a new step's id; choose one that isn't there yet, without a dot"
            )
        if after and before:
            raise Refused(f"{step} stands after one step or before one; say which of the two")
        near = before or after
        if near and near not in self.job.steps:
            raise Refused(f"no step {near!r} in this job{_nearest(near, self.job.steps)}")
        self.add(AddedStepAct(step, title, None if before else after or self.step, before))

    def met(self, what: str, part: str | None = None, text: str | None = None) -> None:
        """Something met on the way that endangers nobody: what, on which part, and more in words."""
        if what not in MET:
            raise Refused(f"what was met is one of {', '.join(MET)}; not {what!r}")
        self.add(MetAct(what, part, text))

    def swap(self) -> None:
        """Left and right were confused: the readings of the step change places with the other member's."""
        planned = self.planned
        both = self.job.plan.by_base.get(planned.base, ())
        if len(both) != 2:
            raise Refused(f"{planned.base} isn't done on two sides; there is nothing to swap")
        acts = [
            done for one in both for done in self.job.view.in_step(one.id) if isinstance(done.act, ReadingAct)
        ]
        self.add(SwappedAct(planned.id, tuple(done.name for done in acts)))

    def torque(self, act: TorqueAct) -> None:
        """A fastener's stage; its unit is the newton metre where a value is typed without one."""
        if act.torque not in self.planned.step.torque:
            raise Refused(f"no torque {act.torque!r} in {self.step}{_known(self.planned.step.torque)}")
        self.add(act)

    # Conditions

    def open(self, text: str) -> None:
        """Open a condition of the template by its id, or one in somebody's own words."""
        member = self.planned.member if self.step and text in self.job.plan.template.condition else None
        self.add(OpensAct(text, member))

    def close(self, name: str) -> None:
        """Close by name what can be seen open: an id, ID.MEMBER, an opening's name or a lost entry's hash."""
        found = [one for one in self.job.all_open if name in (one.id, one.name, *one.openings)]
        if not found:
            known = _known([one.name for one in self.job.all_open])
            raise Refused(f"no open condition {name!r}{known}")
        self.add(ClosesAct(tuple(opening for one in found for opening in one.openings)))

    # People, time and the end

    def clock(self, what: str) -> None:
        if what not in ("on", "off", "break"):
            raise Refused(f"the clock goes on, off or break, not {what!r}")
        if what == "on":
            self.add(ClockAct(what))
            return
        self.add(ClockAct(what, self._clocks_on()))

    def _clocks_on(self) -> tuple[str, ...]:
        """The person's clocks that were on at the time of the call; where none was, the last one."""
        mine = [one for one in clocks(self.job) if person(one.person) == person(self.by)]
        if not mine:
            raise Refused(f"{self.by} has no clock on in this job")
        return tuple(one.span.on for one in mine if one.is_on(self.at)) or (mine[-1].span.on,)

    def hand_over(self, to: str) -> None:
        if not to.strip():
            raise Refused("a handover is given to somebody; say to whom")
        self.add(HandoverAct(" ".join(to.split())))

    def take_over(self) -> None:
        """Take over from the last handover, having seen all that is open."""
        given = self.job.view.of_kind(HandoverAct)
        if not given:
            raise Refused("no handover is recorded in this job; there is nothing to take over")
        again = [act.reading for act in self.did if isinstance(act, ReadingAct)]
        seen = tuple(one.name for one in self.job.open_conditions)
        names = tuple(done.name for done in given)
        self.add(TakenOverAct(seen=seen, reading=again[-1] if again else None, of=names))

    def due_done(self, due: str) -> None:
        known = self.job.plan.template.due_afterwards
        if due not in known:
            raise Refused(f"nothing due afterwards is called {due!r}{_known(known)}")
        self.add(DueDoneAct(due))

    def undo(self, entry: str | None = None) -> Entry:
        """Take back one's own last entry that still counts and is no undo itself; again goes one further back.

        With an entry's id, that one: any of one's own, an undo too, which brings back what it took. Gives
        the entry that is undone (`sheets.deeds.entry_words` says it in words). Raises Refused.
        """
        undone = self._last_of_mine() if entry is None else self._mine_by_name(entry)
        self.add(UndoesAct(undone.id))
        return undone

    def _last_of_mine(self) -> Entry:
        mine = [one for one in self.job.entries_of(self.by) if one.id != self.id]
        if not mine:
            raise Refused(f"{self.by} has recorded nothing that could be undone")
        return mine[-1]

    def _mine_by_name(self, id: str) -> Entry:
        named = [one for one in self.before.view.entries if one.id == id]
        if not named:
            raise Refused(f"no entry {id!r} in this job; undo without a name takes back your own last one")
        if person(named[0].by) != person(self.by):
            raise Refused(f"{id} is {named[0].by}'s entry; each undoes only their own")
        counting = [one for one in self.job.view.counting_entries() if one.id == id]
        if not counting:
            raise Refused(f"{id} is undone already; undo the entry that undid it to bring it back")
        return counting[0]

    def close_job(self) -> None:
        left = self.left_to_do()
        if left:
            raise Refused("the job can't be closed yet: " + "; ".join(left))
        self.add(JobClosedAct(of=self.before.view.loose_ends))

    def left_to_do(self) -> list[str]:
        """What keeps the job from being closed."""
        conditions = [f"open: {one.words}" for one in self.job.all_open if one.passes_to is None]
        steps = [f"{step} is {self.job.state(step)}" for step in self.job.steps if not self.job.settled(step)]
        return conditions + steps

    def stop_job(self, because: str) -> None:
        if not because.strip():
            raise Refused("a job is stopped with a reason; say why")
        self.add(JobStoppedAct(because=because, of=self.before.view.loose_ends))

    def take_in(self, hash: str) -> None:
        """Take in the content of a block that can't be read, its acts typed again in the same call."""
        if hash not in {name for one in self.job.damage for name in one.names}:
            raise Refused(f"no altered entry with the hash {hash!r}; `intact` lists them")
        self.add(TakenInAct(of=(hash,)))

    # The whole

    def done(self) -> tuple[Act, ...]:
        """The acts of the call.

        Raises Refused where there is none, or a note is too long; SaidAlready where they only finish a step
        that the same person has finished on the same values, with nothing recorded in it since.
        """
        if not self.did:
            raise Refused("nothing to record; give a reading, a tick, a note or another act")
        for act in self.did:
            if isinstance(act, NoteAct) and len(act.note.encode()) > NOTE_LIMIT:
                raise Refused(f"a note is at most {NOTE_LIMIT} bytes; write the rest into another")
        if (earlier := self._finished_already()) is not None:
            raise SaidAlready(
                f"{self.step} is finished already, by {earlier.by} at {earlier.at:%Y-%m-%d %H:%M}; nothing was written"
            )
        return tuple(self.did)

    def _finished_already(self) -> Entry | None:
        """One's own last entry in the step, where it holds all that this call would add by finishing."""
        if self.step is None or not self._only_finishes() or self.before.state(self.step) != FINISHED:
            return None
        last = self.before.view.in_step(self.step)[-1].entry
        mine = person(last.by) == person(self.by)
        return last if mine and all(act in last.did for act in self.did) else None

    def _only_finishes(self) -> bool:
        first, *more = self.did
        return isinstance(first, FinishedAct) and all(isinstance(act, ClosesAct) for act in more)


def _nearest(step: str, steps: Iterable[str]) -> str:
    """The members of a step that was named without one, else the nearest spelling."""
    members = [one for one in steps if one.startswith(f"{step}.")]
    near = members or get_close_matches(step, list(steps), 3)
    return f"; did you mean {' or '.join(near)}?" if near else "; `show` lists them"


def _known(names: object) -> str:
    some = [str(name) for name in names][:12] if isinstance(names, dict | list) else []
    return f"; there are: {', '.join(some)}" if some else ""
