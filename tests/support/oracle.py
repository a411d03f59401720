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
        """What `mark` of a side stands on."""
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

    def openings(self) -> list[Event]:
        """Every event that opened marks not yet read back; the undone count too."""
        return [self.events[name] for name in sorted(self.held) if self.events[name].act(OpensAct)]

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


def _answers(then: dict[str, Value], now: dict[str, Value]) -> bool:
    """The two questions, for `moved` against half of the change of spacing."""
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
