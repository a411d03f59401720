"""Some of a history's entries, and which of them count.

A view is a mask, a bit an entry, so that "as it was when this was entered" is the same code as "as it is now", and
an older view stays right while entries arrive. Nothing here depends on the order of arrival: what shows an order
sorts by (n, id, hash).

Reckoning with masks: `1 << bit` is one entry alone; `a | b` what is in either, `a & b` in both, `a & ~b` in a and
not in b; `mask >> bit & 1` moves an entry's bit down to the lowest place and cuts off the others: whether it is in.
"""

from __future__ import annotations

from collections import ChainMap, defaultdict
from collections.abc import Iterable, Iterator, Mapping, MutableMapping, Sequence
from functools import cached_property

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import SwappedAct
from jobtrack.job.state.history import Done, History, Key, Place, in_step, of_kind

Masks = MutableMapping[str, int]


class View:
    """Some of a history's entries, and what counts among them."""

    def __init__(self, history: History, mask: int) -> None:
        self.history = history
        self.mask = mask
        self._known: dict[int, bool] = {}
        """Whether each disputed entry counts that was asked for."""

    def __contains__(self, bit: int) -> bool:
        return bool(self.mask >> bit & 1)

    def has(self, hash: str) -> bool:
        """Whether an entry is in the view, by its hash."""
        bit = self.history.bit(hash)
        return bit is not None and bit in self

    def part(self, mask: int) -> View:
        """What an entry of this view follows, with or without itself, as a view.

        With each entry it holds all that this one follows here, so that the ancestors are the same as here.
        """
        part = View(self.history, mask)
        part.ancestors, part.unreached = self.ancestors, self.unreached
        return part

    def with_more(self, entries: Iterable[Entry], aside: bool = False) -> View:
        """The view with more entries; `aside`: on a history of their own, dropped with the view."""
        new = {entry.hash: entry for entry in entries if not self.has(entry.hash)}
        if not new:
            return self
        history, mask = self.history.on_top() if aside else self.history, self.mask
        for entry in new.values():
            mask |= 1 << history.add(entry)
        grown = View(history, mask)
        grown._take_over(self, sorted(new.values(), key=_order))
        return grown

    # Which count

    def counts(self, bit: int) -> bool:
        """Whether an entry of the view counts: the first of its id, and undone by nothing that counts.

        An undo reaches only what sorts before it, so that two entries can't undo each other. Nobody disputes most
        of the entries, and of those nothing more is asked.
        """
        if bit not in self or not self.history.is_disputed(bit):
            return bit in self
        if bit not in self._known:
            self._find_out(bit)
        return self._known[bit]

    def _find_out(self, bit: int) -> None:
        """Find out whether a disputed entry counts; a long row of undoings by a list, not by calls inside calls."""
        known, todo = self._known, [bit]
        while todo:
            one = todo[-1]
            undoers = self._undoers(one) if self._first_of_id(one) else []
            waiting = [other for other in undoers if other not in known]
            if one in known or not waiting:
                known[one] = self._first_of_id(one) and not any(known[other] for other in undoers)
                todo.pop()
            else:
                todo += waiting

    def _first_of_id(self, bit: int) -> bool:
        """Whether an entry sorts before every other of its id in the view."""
        entry = self.history.entry(bit)
        twins = [self.history.entry(twin).order for twin in self.history.of_id(entry.id) if twin in self]
        return entry.order <= min(twins, default=entry.order)

    def _undoers(self, bit: int) -> list[int]:
        """What undoes an entry; only what sorts behind it can."""
        entry = self.history.entry(bit)
        return [
            other
            for other in self.history.undoing(entry.id)
            if other in self and self.history.entry(other).order > entry.order
        ]

    def undone(self, entry: Entry) -> bool:
        """Whether an entry of the view has been taken back."""
        bit = self.history.bit(entry.hash)
        return bit is not None and any(self.counts(other) for other in self._undoers(bit))

    # What was done

    def acts(self, key: Key, undone: bool = False) -> list[Done]:
        """The acts of a key in order; those taken back too, if asked."""
        mask, disputed = self.mask, self.history.is_disputed
        return [
            done
            for _, bit, done in self.history.acts(key)
            if mask >> bit & 1 and (undone or not disputed(bit) or self.counts(bit))
        ]

    def of_kind(self, kind: type[Act], undone: bool = False) -> list[Done]:
        """The acts of a kind in order; those taken back too, if asked."""
        return self.acts(of_kind(kind), undone)

    def in_step(self, step: str, undone: bool = False) -> list[Done]:
        """The acts recorded in an expanded step, in order."""
        return self.acts(in_step(step), undone)

    def at_place(self, place: Place) -> list[Done]:
        """The acts that may belong to a place, in order."""
        return self.acts(place)

    def named(self, name: str) -> list[Done]:
        """The act of a name, in every entry of the view that has its id, taken back or not."""
        id, _, index = name.rpartition("/")
        entries = [self.history.entry(bit) for bit in self.history.of_id(id) if bit in self]
        place = int(index) if index.isdecimal() else -1
        return [Done(one.did[place], one, place) for one in entries if 0 <= place < len(one.did)]

    @cached_property
    def swaps(self) -> dict[str, int]:
        """How often each reading has changed places with the other member."""
        times: dict[str, int] = defaultdict(int)
        for done in self.of_kind(SwappedAct):
            for name in done.act.of if isinstance(done.act, SwappedAct) else ():
                times[name] += 1
        return times

    # The entries

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """All entries of the view in the order of the file."""
        mine = (self.history.entry(bit) for bit in range(len(self.history)) if bit in self)
        return tuple(sorted(mine, key=_order))

    def counting_entries(self) -> Iterator[Entry]:
        """The entries that count, in the order of the file."""
        for entry in self.entries:
            if self.counts(self.bit(entry)):
                yield entry

    def bit(self, entry: Entry) -> int:
        """The bit of an entry that is in the history. Raises KeyError where it isn't."""
        bit = self.history.bit(entry.hash)
        if bit is None:
            raise KeyError(entry.hash)
        return bit

    @cached_property
    def ancestors(self) -> Masks:
        """For each entry, by hash, the entries that it follows, near and far, as a mask.

        Other entries than those of the view may be in it too: views that grow out of each other share what they know.
        """
        masks: dict[str, int] = {}
        for entry in self.entries:
            masks[entry.hash] = self._followed(entry, masks)
        return masks

    def _followed(self, entry: Entry, masks: Masks) -> int:
        """What an entry follows, from what its parents follow; a parent that isn't known there is passed over."""
        mask = 0
        for parent in entry.follows:
            bit = self.history.bit(parent)
            if parent in masks and bit is not None:
                mask |= masks[parent] | 1 << bit
        return mask

    @property
    def next_n(self) -> int:
        """The number of an entry that follows all of the view."""
        return self.entries[-1].n + 1 if self.entries else 1

    @cached_property
    def loose_ends(self) -> tuple[str, ...]:
        """The hashes that nothing in the view follows yet; the header's where there is no entry."""
        followed = {parent for entry in self.entries for parent in entry.follows}
        ends = sorted(entry.hash for entry in self.entries if entry.hash not in followed)
        return tuple(ends) or (self.history.header,)

    @cached_property
    def unreached(self) -> dict[str, int]:
        """What entries follow without reaching it, by hash, and which, as a mask: it is lost, or sorts behind them."""
        return self._unreached(self.entries, {})

    def _unreached(self, entries: Iterable[Entry], before: Mapping[str, int]) -> dict[str, int]:
        found = {**before}
        for entry in entries:
            reached = self.ancestors[entry.hash]
            for parent in entry.follows:
                bit = self.history.bit(parent)
                if parent != self.history.header and (bit is None or not reached >> bit & 1):
                    found[parent] = found.get(parent, 0) | 1 << self.bit(entry)
        return found

    @cached_property
    def missing(self) -> tuple[str, ...]:
        """Hashes that an entry follows and that are in nobody's hands here."""
        wanted = (hash for hash, followers in self.unreached.items() if followers & self.mask)
        return tuple(sorted(hash for hash in wanted if not self.has(hash)))

    # Growing

    def _take_over(self, before: View, new: Sequence[Entry]) -> None:
        """Keep what an earlier view has found out already, where it can be told from the new entries alone.

        That is where all of them sort behind its own, as nearly always. What it hadn't been asked stays unasked.
        """
        known = vars(before)
        if "entries" not in known or (before.entries and before.entries[-1].order > new[0].order):
            return
        self.entries = (*before.entries, *new)
        if not self._disputes(new):
            # Nothing that counted is touched; the same table, since both say the same of the entries that both have.
            self._known = before._known
        if "ancestors" in known:
            self.ancestors = self._with_ancestors(before, new)
        if "unreached" in known:
            self.unreached = self._unreached(new, before.unreached)
            if "loose_ends" in known:
                self.loose_ends = _loose_ends(before, new)

    def _disputes(self, new: Sequence[Entry]) -> bool:
        """Whether one of them undoes something, is undone, or has an id that was there."""
        undoing = any(isinstance(act, UndoesAct) for entry in new for act in entry.did)
        return undoing or any(self.history.is_disputed(self.bit(entry)) for entry in new)

    def _with_ancestors(self, before: View, new: Sequence[Entry]) -> Masks:
        """The ancestors of an earlier view, those of the new entries put to them.

        The same mapping goes from view to view, since nothing behind an entry changes what it follows. Where two
        views that grew apart know different parents of one entry, the second gets a mapping of its own. What
        stands aside is never put into the shared one.
        """
        parents = {parent for entry in new for parent in entry.follows if before.has(parent)}
        known = {parent: before.ancestors[parent] for parent in parents}
        for entry in new:
            known[entry.hash] = self._followed(entry, known)
        mine = {entry.hash: known[entry.hash] for entry in new}
        shared = before.ancestors
        if self.history is not before.history:
            return ChainMap(mine, shared)
        if any(shared.get(hash, mask) != mask for hash, mask in mine.items()):
            return {**shared, **mine}
        shared.update(mine)
        return shared


def _loose_ends(before: View, new: Sequence[Entry]) -> tuple[str, ...]:
    """An end that somebody follows is none any more; nor is a new entry that was missing before."""
    header = before.history.header
    followed = {parent for entry in new for parent in entry.follows} | {header, *before.missing}
    ends = {*before.loose_ends, *(entry.hash for entry in new)} - followed
    return tuple(sorted(ends)) or (header,)


def bits(mask: int) -> Iterator[int]:
    """The bits of a mask, one by one.

    `mask & -mask` leaves the lowest bit that is set: minus is all bits turned round, and one added, which carries
    as far as that bit; above it all are turned, below it all are nought.
    """
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest


def _order(entry: Entry) -> tuple[int, str, str]:
    return entry.order
