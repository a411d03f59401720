"""The set of entries, indexed: which acts count, and which stand at a place.

A `History` only grows. A `View` looks at a part of it, a bit an entry, so that "as it was when this
was entered" is the same code as "as it is now", and an older view stays right while entries arrive.
Nothing here depends on the order of arrival: what shows an order sorts by (n, id, hash).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import SettledAct, SwappedAct
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct


@dataclass(frozen=True, slots=True)
class Done:
    """One act in its entry. `name` is ENTRYID/INDEX."""

    act: Act
    entry: Entry
    index: int

    @property
    def name(self) -> str:
        return f"{self.entry.id}/{self.index}"

    @property
    def order(self) -> tuple[int, str, str, int]:
        return (*self.entry.order, self.index)


Place = tuple[str, str, str]
"""What kind of thing, in which expanded step (none for a given), its id."""


def possible_places(done: Done) -> tuple[Place, ...]:
    """Where an act of a reading, tick or given may belong. A settlement doesn't say which of them it settles."""
    step = done.entry.step or ""
    match done.act:
        case ReadingAct():
            return (("reading", step, done.act.reading),)
        case TickAct():
            return (("tick", step, done.act.tick),)
        case GivenAct():
            return (("given", "", done.act.given),)
        case SettledAct():
            name = done.act.settled
            return (("reading", step, name), ("tick", step, name), ("given", "", name))
        case _:
            return ()


@dataclass
class History:
    """Every entry known so far, by hash, with what the questions of a job look up."""

    header: str = ""
    """The header's hash, which the first entry follows."""
    bits: dict[str, int] = field(default_factory=dict)
    entries: list[Entry] = field(default_factory=list)
    by_id: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    undoers: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    by_kind: dict[type[Act], list[tuple[int, Done]]] = field(default_factory=lambda: defaultdict(list))
    by_step: dict[str, list[tuple[int, Done]]] = field(default_factory=lambda: defaultdict(list))
    by_place: dict[Place, list[tuple[int, Done]]] = field(default_factory=lambda: defaultdict(list))

    def add(self, entry: Entry) -> int:
        """Take an entry in and give its bit. The same entry twice is one."""
        if entry.hash in self.bits:
            return self.bits[entry.hash]
        bit = len(self.entries)
        self.bits[entry.hash] = bit
        self.entries.append(entry)
        self.by_id[entry.id].append(bit)
        for index, act in enumerate(entry.did):
            done = Done(act, entry, index)
            self.by_kind[type(act)].append((bit, done))
            if entry.step is not None:
                self.by_step[entry.step].append((bit, done))
            for place in possible_places(done):
                self.by_place[place].append((bit, done))
            if isinstance(act, UndoesAct):
                self.undoers[act.undoes].append(bit)
        return bit


class View:
    """Some of a history's entries, and what counts among them."""

    def __init__(self, history: History, mask: int) -> None:
        self.history = history
        self.mask = mask
        self._counts: dict[int, bool] = {}
        self._first: dict[str, tuple[int, str, str]] = {}

    def __contains__(self, bit: int) -> bool:
        return bool(self.mask >> bit & 1)

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """All entries of the view in the order of the file."""
        mine = (entry for bit, entry in enumerate(self.history.entries) if bit in self)
        return tuple(sorted(mine, key=lambda entry: entry.order))

    def counts(self, bit: int) -> bool:
        """Whether an entry counts: the first of its id, and undone by nothing that counts.

        An undo reaches only what sorts before it, so that two entries can't undo each other. A long row
        of undoings is gone along by a list, not by calls inside calls.
        """
        if bit in self._counts:
            return self._counts[bit]
        todo = [bit]
        while todo:
            one = todo[-1]
            undoers = self._undoers(one) if self._first_of_id(one) else []
            waiting = [other for other in undoers if other not in self._counts]
            if one in self._counts or not waiting:
                self._counts[one] = self._first_of_id(one) and not any(self._counts[o] for o in undoers)
                todo.pop()
            else:
                todo += waiting
        return self._counts[bit]

    def _first_of_id(self, bit: int) -> bool:
        """Whether an entry sorts before every other of its id in the view."""
        entry = self.history.entries[bit]
        twins = self.history.by_id[entry.id]
        if len(twins) == 1:
            return True
        if entry.id not in self._first:
            orders = [self.history.entries[twin].order for twin in twins if twin in self]
            self._first[entry.id] = min(orders, default=entry.order)
        return entry.order <= self._first[entry.id]

    def _undoers(self, bit: int) -> list[int]:
        """What undoes an entry; only what sorts behind it can."""
        entry = self.history.entries[bit]
        return [
            other
            for other in self.history.undoers.get(entry.id, ())
            if other in self and self.history.entries[other].order > entry.order
        ]

    def _undone(self, bit: int) -> bool:
        return any(self.counts(other) for other in self._undoers(bit))

    def undone(self, entry: Entry) -> bool:
        """Whether an entry of the view has been taken back."""
        return self._undone(self.history.bits[entry.hash])

    def of_kind(self, kind: type[Act], undone: bool = False) -> list[Done]:
        """The acts of a kind in order; those taken back too, if asked."""
        found = [
            done
            for bit, done in self.history.by_kind.get(kind, ())
            if bit in self and (undone or self.counts(bit))
        ]
        return sorted(found, key=lambda done: done.order)

    def in_step(self, step: str, undone: bool = False) -> list[Done]:
        """The acts recorded in an expanded step, in order."""
        found = [
            done
            for bit, done in self.history.by_step.get(step, ())
            if bit in self and (undone or self.counts(bit))
        ]
        return sorted(found, key=lambda done: done.order)

    def at_place(self, place: Place) -> list[Done]:
        """The acts that may belong to a place, in order."""
        found = [
            done for bit, done in self.history.by_place.get(place, ()) if bit in self and self.counts(bit)
        ]
        return sorted(found, key=lambda done: done.order)

    def counting_entries(self) -> Iterator[Entry]:
        for entry in self.entries:
            if self.counts(self.history.bits[entry.hash]):
                yield entry

    @cached_property
    def swaps(self) -> dict[str, int]:
        """How often each reading has changed places with the other member."""
        times: dict[str, int] = defaultdict(int)
        for done in self.of_kind(SwappedAct):
            for name in done.act.of if isinstance(done.act, SwappedAct) else ():
                times[name] += 1
        return times

    @cached_property
    def ancestors(self) -> dict[str, int]:
        """For each entry, by hash, the entries that it follows, near and far, as a mask."""
        masks: dict[str, int] = {}
        for entry in self.entries:
            mask = 0
            for parent in entry.follows:
                if parent in masks:
                    mask |= masks[parent] | 1 << self.history.bits[parent]
            masks[entry.hash] = mask
        return masks

    @cached_property
    def loose_ends(self) -> tuple[str, ...]:
        """The hashes that nothing in the view follows yet; the header's where there is no entry."""
        followed = {parent for entry in self.entries for parent in entry.follows}
        ends = sorted(entry.hash for entry in self.entries if entry.hash not in followed)
        return tuple(ends) or (self.history.header,)

    @cached_property
    def missing(self) -> tuple[str, ...]:
        """Hashes that an entry follows and that are in nobody's hands here."""
        have = {entry.hash for entry in self.entries} | {self.history.header}
        return tuple(sorted({parent for entry in self.entries for parent in entry.follows} - have))


def live(acts: Iterable[Done]) -> tuple[Done, ...]:
    """Of the acts of one place, those that no other of them replaces. Two left are a disagreement."""
    acts = tuple(acts)
    replaced = {name for done in acts for name in done.act.replaced()}
    return tuple(done for done in acts if done.name not in replaced)
