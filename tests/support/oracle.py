"""What a history must come to, reckoned from who had seen what, without the names that acts carry.

Each `Event` knows which entries its copy held when it was made. That is known only here, in the tests;
the record has to get to the same answers from what the entries name.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TypeVar

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import FinishedAct, SettledAct, StandsAct
from jobtrack.job.acts.values import ReadingAct, TickAct
from tests.support.builders import DONOR, RECIPIENT

Some = TypeVar("Some", bound=Act)
Ids = frozenset[str]
Value = float | bool | None
DOUBT = {"moved": 0.6, "spacing": 1.0}
"""As the template has them, mm."""
OFF_BY = 1.0
"""As the template has it for `moved`, mm."""
NUTS, NUT_NAMES = "nuts", ("1", "2")
"""The step with a torque line in the template, and the nuts that it counts."""
NO_STAGE, FINAL = -2, 2
FAR = {"finger": -1, "snug": 0, "1": 1, "2": FINAL, "final": FINAL}
"""How far a nut is at each stage; the template has two."""


@dataclass(frozen=True)
class Event:
    """An entry, and the names of all that its copy held before it."""

    entry: Entry
    seen: Ids

    def act(self, kind: type[Some]) -> Some | None:
        return next((act for act in self.entry.did if isinstance(act, kind)), None)


class Oracle:
    """The outcome of some of the events."""

    def __init__(self, events: dict[str, Event], held: Ids) -> None:
        self.events = events
        self.held = held
        self.counts = cache(self._counts)

    def at(self, held: Ids) -> Oracle:
        return Oracle(self.events, held)

    def _counts(self, name: str) -> bool:
        undoers = [
            one for one in self.held if (undo := self.events[one].act(UndoesAct)) and undo.undoes == name
        ]
        return not any(self.counts(one) for one in undoers)

    @property
    def counting(self) -> list[Event]:
        return [self.events[name] for name in sorted(self.held) if self.counts(name)]

    def live(self, step: str, item: str) -> list[tuple[Event, Value]]:
        """The values of a place that nobody who recorded there later had seen."""
        mine = [(event, value) for event in self.counting
                if event.entry.step == step and (value := _value(event, item)) is not None]  # fmt: skip
        seen = {one for event, _ in mine for one in event.seen if self.at(event.seen).counts(one)}
        return [(event, value) for event, value in mine if event.entry.id not in seen]

    def value(self, step: str, item: str) -> Value:
        """The one value of a place; None where there is none, or several that differ."""
        values = {value for _, value in self.live(step, item)}
        return values.pop() if len(values) == 1 else None

    def stood_on(self, step: str) -> dict[str, Value]:
        """What `mark` of a side, the spacing of a vehicle or the step of the nuts stands on."""
        if step in (DONOR, RECIPIENT):
            return {"spacing": self.value(step, "spacing")}
        if step == NUTS:
            return {"painted": self.value(step, "painted")}
        return {"moved": self.value(step, "moved"), "scribed": self.value(step, "scribed"),
                "donor": self.value(DONOR, "spacing"), "recipient": self.value(RECIPIENT, "spacing")}  # fmt: skip

    def finished(self, step: str) -> list[Event]:
        """Every *finished* of the step that counts, and every *stands* beside one."""
        those = [event for event in self.counting if event.act(FinishedAct) and event.entry.step == step]
        stands = [event for event in self.counting if (act := event.act(StandsAct)) and step in act.stands]
        return those + stands if those else []

    def then(self, event: Event) -> Oracle:
        """What was so when an event was made, itself included."""
        return self.at(event.seen | {event.entry.id})

    def stands(self, step: str) -> bool:
        """Whether a *finished* of `mark` of a side still answers both questions right."""
        now = self.stood_on(step)
        return any(_answers(self.then(event).stood_on(step), now) for event in self.finished(step))

    # What whoever takes over must know

    def in_hand(self) -> set[str]:
        """The steps that somebody began and that aren't finished, or no longer stand so."""
        begun = {event.entry.step for event in self.counting if any(act.work for act in event.entry.did)}
        return {
            step for step in begun if step is not None and not (self.finished(step) and self.stands(step))
        }

    def outside(self, step: str) -> bool:
        """Whether `moved` of a side lies outside half of the change of spacing, give or take OFF_BY."""
        values = self.stood_on(step)
        return None not in (values["moved"], values["donor"], values["recipient"]) and not _within(values)

    def bolts(self) -> dict[str, int]:
        """How far each nut is tightened, by its name, as FAR has it; empty while the step isn't begun.

        Of what several recorded, not having seen each other's, the lower counts; who saw a higher one slackened it.
        """
        mine = [(event, act) for event in self.counting if event.entry.step == NUTS
                for act in event.entry.did if isinstance(act, TorqueAct)]  # fmt: skip
        names = [*NUT_NAMES, *(act.member for _, act in mine if act.member not in (None, *NUT_NAMES))]
        return {name: _reached([(event, FAR[act.stage]) for event, act in mine if act.member in (None, name)])
                for name in names if name is not None}  # fmt: skip

    def openings(self, what: str = "unread") -> list[Event]:
        """Every event that opened marks not yet read back, or something else; the undone count too."""
        held = (self.events[name] for name in sorted(self.held))
        return [one for one in held if (act := one.act(OpensAct)) and act.opens == what]

    def closings(self) -> list[Event]:
        return [event for event in self.counting if event.act(ClosesAct)]

    def open_marks(self) -> set[str]:
        """The events whose opening is still open, from what each closing could see."""
        left = {event.entry.id for event in self.openings()}
        for closing in self.closings():
            step = closing.entry.step
            if step is not None and self.stands(step):
                left -= {one.entry.id for one in self.then(closing).openings() if one.entry.step == step}
            elif step is None:
                left -= self.at(closing.seen).open_marks()
        return left


def _value(event: Event, item: str) -> Value:
    for act in event.entry.did:
        if isinstance(act, ReadingAct) and act.reading == item and isinstance(act.value, float):
            return act.value
        if isinstance(act, SettledAct) and act.settled == item and isinstance(act.value, float | bool):
            return act.value
        if isinstance(act, TickAct) and act.tick == item:
            return act.yes
    return None


def _reached(acts: list[tuple[Event, int]]) -> int:
    """How far a bolt is by the acts about it: the lowest of those that nobody who recorded there later had seen."""
    seen = {one for event, _ in acts for one in event.seen}
    return min((far for event, far in acts if event.entry.id not in seen), default=NO_STAGE)


def _answers(then: dict[str, Value], now: dict[str, Value]) -> bool:
    """The two questions, for `moved` against half of the change of spacing; a spacing or a check has no limits."""
    if "spacing" in then:
        return not _changed(then, now, "spacing", DOUBT["spacing"])
    if "painted" in then:
        return then == now
    if _changed(then, now, "moved", DOUBT["moved"]) or then["scribed"] != now["scribed"]:
        return False
    if _within(then):
        return _within(now)
    return not any(_changed(then, now, one, DOUBT["spacing"]) for one in ("donor", "recipient"))


def _within(values: dict[str, Value]) -> bool:
    moved, donor, recipient = (values[one] for one in ("moved", "donor", "recipient"))
    if moved is None or donor is None or recipient is None:
        return False
    return abs(moved - (donor - recipient) / 2) <= OFF_BY


def _changed(then: dict[str, Value], now: dict[str, Value], name: str, doubt: float) -> bool:
    before, after = then[name], now[name]
    if before is None or after is None:
        return before != after
    return abs(after - before) > doubt + 1e-9
