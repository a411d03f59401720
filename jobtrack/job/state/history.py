"""The set of entries, indexed: what was done, of which kind, in which step, at which place.

A `History` only grows, and holds real entries only. What somebody is about to record, or sees beforehand, stands
in a history of its own on top of it, which is dropped with the draft. Which entries count is asked of a `View`.
"""

from __future__ import annotations

from bisect import insort
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct


class Done(Struct, frozen=True):
    """One act in its entry. `name` is ENTRYID/INDEX."""

    act: Act
    entry: Entry
    index: int

    @property
    def name(self) -> str:
        """How other acts refer to it: ENTRYID/INDEX."""
        return f"{self.entry.id}/{self.index}"

    @property
    def order(self) -> tuple[int, str, str, int]:
        """The key by which acts are shown: that of the entry, then the place in it; no clock in it."""
        return (*self.entry.order, self.index)


Place = tuple[str, str, str]
"""What kind of thing, in which expanded step (none for a given), its id."""
Key = tuple[object, ...]
"""What acts are found by: their place, or `of_kind`, `in_step`, `closing`, `opening` and which."""
Filed = tuple[tuple[int, str, str, int], int, Done]
"""An act's order, its entry's bit, and the act."""


def of_kind(kind: type[Act]) -> Key:
    """The key of all acts of a class."""
    return ("kind", kind)


def in_step(step: str) -> Key:
    """The key of all acts recorded in an expanded step."""
    return ("step", step)


def closing(name: str) -> Key:
    """The key of every closing that names an opening, or the hash of what can't be read."""
    return ("closing", name)


def opening(text: str) -> Key:
    """The key of every opening of a condition by its id, or by somebody's own words."""
    return ("opening", text)


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


def _keys(done: Done) -> Iterator[Key]:
    """What an act is found by, each key once."""
    yield of_kind(type(done.act))
    if done.entry.step is not None:
        yield in_step(done.entry.step)
    yield from possible_places(done)
    if isinstance(done.act, OpensAct):
        yield opening(done.act.opens)
    if isinstance(done.act, ClosesAct):
        yield from map(closing, dict.fromkeys(done.act.closes))


class History:
    """Entries by hash, each with its bit, and what the questions of a job look up.

    An entry's bit is the number of entries that came before it: it says nothing of order, and stays the same for
    good. One history may stand on another: it sees of it what was there when it began, whose bits lie below its
    own, and adds nothing to it. So the masks of both mean the same, and the one below may grow meanwhile: what comes
    in there has bits that the one on top uses for its own, and doesn't see.
    """

    def __init__(self, header: str = "", under: History | None = None) -> None:
        self.header = header
        """The header's hash, which the first entry follows."""
        self.under = under
        self._begins = 0 if under is None else len(under)
        self._bits: dict[str, int] = {}
        self._entries: list[Entry] = []
        self._by_id: dict[str, list[int]] = defaultdict(list)
        self._undoers: dict[str, list[int]] = defaultdict(list)
        self._acts: dict[Key, list[Filed]] = defaultdict(list)
        self._disputed: set[int] = set()

    def on_top(self) -> History:
        """A history that stands on this one as it is now."""
        return History(self.header, self)

    def __len__(self) -> int:
        return self._begins + len(self._entries)

    def bit(self, hash: str) -> int | None:
        """An entry's bit; None for what isn't here."""
        found = self._bits.get(hash)
        if found is None and self.under is not None:
            below = self.under.bit(hash)
            found = below if below is not None and below < self._begins else None
        return found

    def entry(self, bit: int) -> Entry:
        """The entry of a bit."""
        if self.under is not None and bit < self._begins:
            return self.under.entry(bit)
        return self._entries[bit - self._begins]

    def of_id(self, id: str) -> Sequence[int]:
        """The entries that have an id: one, or several that were altered on the way."""
        own = self._by_id.get(id, ())
        return own if self.under is None else (*self._seen(self.under.of_id(id)), *own)

    def undoing(self, id: str) -> Sequence[int]:
        """The entries that take an id back."""
        own = self._undoers.get(id, ())
        return own if self.under is None else (*self._seen(self.under.undoing(id)), *own)

    def _seen(self, below: Iterable[int]) -> Iterator[int]:
        return (bit for bit in below if bit < self._begins)

    def is_disputed(self, bit: int) -> bool:
        """Whether an entry may not count in some view: somebody takes it back, or another has its id."""
        below = self.under is not None and bit < self._begins and self.under.is_disputed(bit)
        return below or bit in self._disputed

    def acts(self, key: Key) -> Sequence[Filed]:
        """The acts of a key, in order."""
        own = self._acts.get(key, ())
        if self.under is None:
            return own
        seen = [one for one in self.under.acts(key) if one[1] < self._begins]
        return sorted([*seen, *own], key=_order) if own else seen

    def add(self, entry: Entry) -> int:
        """Take an entry in and give its bit. The same entry twice is one."""
        known = self.bit(entry.hash)
        if known is not None:
            return known
        bit = len(self)
        self._bits[entry.hash] = bit
        self._entries.append(entry)
        for index, act in enumerate(entry.did):
            self._file(Done(act, entry, index), bit)
        twins = self.of_id(entry.id)
        self._by_id[entry.id].append(bit)
        if twins:
            self._disputed.update((*twins, bit))
        if self.undoing(entry.id):
            self._disputed.add(bit)
        return bit

    def _file(self, done: Done, bit: int) -> None:
        """Put an act where its questions find it; nearly always behind all others."""
        filed = (done.order, bit, done)
        # An order holds the entry's hash and the act's place: no two are equal, so nothing behind it is compared.
        for key in _keys(done):
            if (acts := self._acts[key]) and acts[-1] > filed:
                insort(acts, filed)
            else:
                acts.append(filed)
        if isinstance(done.act, UndoesAct):
            self._undoers[done.act.undoes].append(bit)
            self._disputed.update(self.of_id(done.act.undoes))


def _order(filed: Filed) -> tuple[int, str, str, int]:
    return filed[0]


def live(acts: Iterable[Done]) -> tuple[Done, ...]:
    """Of the acts of one place, those that no other of them replaces. Two left are a disagreement."""
    acts = tuple(acts)
    replaced = {name for done in acts for name in done.act.replaced()}
    return tuple(done for done in acts if done.name not in replaced)
